import type BetterSqlite from 'better-sqlite3'
import type { BetterSQLite3Database } from 'drizzle-orm/better-sqlite3'
import type * as schema from './schema.ts'

export type Sqlite = BetterSqlite.Database

/** An open connection. Only `open.ts` makes one, so that every one has the record's pragmas. */
export interface Handle {
  readonly sqlite: Sqlite
  readonly orm: BetterSQLite3Database<typeof schema>
  readonly file: string
}

/** A connection on which SQLite itself refuses writes (query_only). */
export type ReadHandle = Handle & { readonly __may: 'read' }
/** The one connection of this process that may write. */
export type WriteHandle = Handle & { readonly __may: 'write' }

const statements = new WeakMap<Sqlite, Map<string, BetterSqlite.Statement<unknown[], unknown>>>()

/** The prepared statement for this text, made once a connection. */
export function prepared<Row>(sqlite: Sqlite, sql: string): BetterSqlite.Statement<unknown[], Row> {
  let known = statements.get(sqlite)
  if (known === undefined) {
    known = new Map()
    statements.set(sqlite, known)
  }
  let statement = known.get(sql)
  if (statement === undefined) {
    statement = sqlite.prepare<unknown[], unknown>(sql)
    known.set(sql, statement)
  }
  return statement as BetterSqlite.Statement<unknown[], Row>
}

/** Like `prepared`, for the one column of a query: rows come as bare values, several times faster than objects. */
export function plucked<Value>(sqlite: Sqlite, sql: string): BetterSqlite.Statement<unknown[], Value> {
  // The blank makes it another text, so that plucking does not change a statement that others use.
  return prepared<Value>(sqlite, `${sql} `).pluck() as BetterSqlite.Statement<unknown[], Value>
}
