import { prepared, type Sqlite } from '../handles.ts'
import type { LedgerRow } from '../ledger-row.ts'
import { projectEntity } from './entities.ts'
import { addFact, addVersion } from './facts.ts'

/** The tables that are views of the ledger, in an order in which they can be emptied. */
export const viewTables = [
  'imports',
  'instruments',
  'people',
  'bays',
  'zones',
  'floors',
  'projects',
  'factVersions',
  'facts',
] as const

/** Brings the views up to date with one entry that has just been added to the ledger of the same database. */
export function projectEntry(sqlite: Sqlite, row: LedgerRow): void {
  const fact = row.corrects === null ? addFact(sqlite, row) : addVersion(sqlite, row)
  projectEntity(sqlite, fact)
  prepared(
    sqlite,
    'update projects set entries = entries + 1, lastRecordedAt = max(lastRecordedAt, ?) where id = ?',
  ).run(row.recordedAt, row.project)
}

/** Empties every view and fills it again from the ledger. The caller wraps it in a transaction. */
export function replayLedger(sqlite: Sqlite): void {
  for (const table of viewTables) sqlite.exec(`delete from ${table}`)
  const next = prepared<LedgerRow>(sqlite, 'select * from ledger where seq > ? order by seq limit 1000')
  for (let last = 0; ; ) {
    const rows = next.all(last)
    for (const row of rows) projectEntry(sqlite, row)
    const end = rows.at(-1)
    if (end === undefined) return
    last = end.seq
  }
}
