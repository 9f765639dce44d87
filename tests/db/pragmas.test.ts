import path from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { Sqlite } from '#db/handles.ts'
import { closeRecord, createRecord, openRecord, type RecordFile } from '#db/index.ts'
import { applicationId } from '#db/pragmas.ts'
import { morning, temporaryFolder } from './site.ts'

let folder: string
let forget: () => void
beforeEach(() => {
  ;({ folder, forget } = temporaryFolder())
})
afterEach(() => forget())

const everyConnection = {
  synchronous: 2,
  foreign_keys: 1,
  trusted_schema: 0,
  cell_size_check: 1,
  busy_timeout: 5000,
  recursive_triggers: 1,
  journal_mode: 'wal',
  application_id: applicationId,
  user_version: 2,
}

function settingsOf(sqlite: Sqlite) {
  return Object.fromEntries(
    Object.keys(everyConnection).map((name) => [name, sqlite.pragma(name, { simple: true })]),
  )
}

const ways: [string, (file: string) => RecordFile][] = [
  ['created', (file) => createRecord(file, { now: morning })],
  ['opened again for writing', (file) => reopened(file, {})],
  ['opened again for reading', (file) => reopened(file, { readOnly: true })],
  ['opened by a worker that trusts the first look', (file) => reopened(file, { skipLook: true })],
]

function reopened(file: string, options: { readOnly?: boolean; skipLook?: boolean }): RecordFile {
  closeRecord(createRecord(file, { now: morning }))
  return openRecord(file, { now: morning, ...options })
}

describe('settings of a connection', () => {
  it.each(ways)('OPEN-1: a record that is %s has every safe setting on every connection', (_, open) => {
    const record = open(path.join(folder, 'record.bayledger'))
    expect(settingsOf(record.read.sqlite)).toEqual(everyConnection)
    expect(record.read.sqlite.pragma('query_only', { simple: true })).toBe(1)
    if (record.write !== null) {
      expect(settingsOf(record.write.sqlite)).toEqual(everyConnection)
      expect(record.write.sqlite.pragma('query_only', { simple: true })).toBe(0)
    }
    closeRecord(record)
  })

  it('OPEN-1: the setting that the driver itself would leave unsafe is really changed', async () => {
    const file = path.join(folder, 'record.bayledger')
    closeRecord(createRecord(file, { now: morning }))
    const { default: BetterSqlite } = await import('better-sqlite3')
    const raw = new BetterSqlite(file)
    // NORMAL: a power cut may lose what was acknowledged. If a later driver opens with FULL, this test says so.
    expect(raw.pragma('synchronous', { simple: true })).toBe(1)
    raw.close()
  })

  it('OPEN-2: the reading connection cannot write, even in a writable record', () => {
    const record = createRecord(path.join(folder, 'record.bayledger'), { now: morning })
    expect(() => record.read.sqlite.exec('delete from facts')).toThrow(/readonly|read-only/i)
    closeRecord(record)
  })
})
