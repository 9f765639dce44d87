import { RecordError } from './errors.ts'
import type { Sqlite } from './handles.ts'

/** "BYLG" in the file's header: which program the file belongs to. */
export const applicationId = 0x42594c47
export const busyTimeoutMs = 5000
/** Older ones have a fault in the reset of a write-ahead log that two programs share. */
const leastSqlite = [3, 51, 3] as const

type Pragma = readonly [name: string, value: number | string]

const always: readonly Pragma[] = [
  ['busy_timeout', busyTimeoutMs],
  ['synchronous', 2],
  ['foreign_keys', 1],
  ['trusted_schema', 0],
  ['cell_size_check', 1],
  // Without it INSERT OR REPLACE would delete a row and no trigger would hear of it.
  ['recursive_triggers', 1],
]

/** Sets every setting that keeps the record safe, and reads each back: a setting that did not take is an error. */
export function settle(sqlite: Sqlite, file: string, use: 'write' | 'read' | 'read in memory'): void {
  requireSqlite(sqlite, file)
  const journal: Pragma[] = use === 'write' ? [['journal_mode', 'wal']] : []
  const onlyReads: Pragma[] = use === 'write' ? [] : [['query_only', 1]]
  for (const [name, value] of [...journal, ...always, ...onlyReads]) {
    sqlite.pragma(`${name} = ${value}`)
    const found = sqlite.pragma(name, { simple: true })
    if (found === value) continue
    throw new RecordError(
      'corrupt',
      `${file}: the setting ${name} should be ${value} and is ${String(found)}.`,
    )
  }
}

function requireSqlite(sqlite: Sqlite, file: string): void {
  const version = String(sqlite.prepare('select sqlite_version()').pluck().get())
  const numbers = version.split('.').map(Number)
  for (const [i, least] of leastSqlite.entries()) {
    const found = numbers[i] ?? 0
    if (found > least) return
    if (found < least) {
      const needed = leastSqlite.join('.')
      throw new RecordError(
        'read-only',
        `${file} is not opened: SQLite ${needed} is needed and ${version} is here.`,
      )
    }
  }
}
