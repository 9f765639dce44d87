import { readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import BetterSqlite from 'better-sqlite3'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import {
  appendEntries,
  closeRecord,
  createRecord,
  listBackups,
  openRecord,
  projectSummaries,
  RecordError,
  verify,
} from '#db/index.ts'
import { type Migration, migrations } from '#db/migrations/index.ts'
import { importLogger } from './logger.ts'
import { day, entry, morning, newSite, type OpenSite, opening, openSite, temporaryFolder } from './site.ts'

let folder: string
let forget: () => void
let open: OpenSite
beforeEach(() => {
  ;({ folder, forget } = temporaryFolder())
  open = openSite(folder)
  open.append(entry(open.site, 'air-read'))
  importLogger(open)
  open.close()
})
afterEach(() => forget())

const latest = migrations.length
const second = (sql: string, more: Partial<Migration> = {}): Migration[] => [
  ...migrations,
  { version: latest + 1, name: 'test step', sql, ...more },
]

/** A table rebuilt as SQLite's own manual tells it: new table, copy, drop, rename. */
const rebuild = `
  create table newSeries (
    series integer primary key, entry text not null references ledger (id), position integer not null,
    subject text not null, quantity text not null, heading text not null, readings integer not null,
    firstAt integer not null, lastAt integer not null, readingsSha256 text not null, sealed integer not null,
    note text not null default ''
  ) strict;
  insert into newSeries select *, '' from series;
  drop trigger readingsSealed;
  drop table series;
  alter table newSeries rename to series;
  create trigger readingsSealed before insert on readings
    when exists (select 1 from series where series = new.series and sealed = 1)
    begin select raise(abort, 'a sealed series takes no more readings'); end;`

const migrate = (list: Migration[]) => {
  const record = openRecord(open.file, { now: morning + day, migrationList: list })
  closeRecord(record)
}
const refusalOf = (list: Migration[]): RecordError => {
  try {
    migrate(list)
  } catch (refused) {
    expect(refused).toBeInstanceOf(RecordError)
    return refused as RecordError
  }
  throw new Error('the migration was not refused')
}

/** Everything in the file, tables and settings, as text. */
function dump(file: string): string {
  const raw = new BetterSqlite(file, { readonly: true })
  const tables = raw
    .prepare('select name, sql from sqlite_schema where sql is not null order by name')
    .all() as {
    name: string
    sql: string
  }[]
  const names = raw
    .prepare("select name from sqlite_schema where type = 'table' order by name")
    .pluck()
    .all() as string[]
  const rows = names.map((name) => [name, raw.prepare(`select * from "${name}"`).all()])
  const version = raw.pragma('user_version', { simple: true })
  raw.close()
  return JSON.stringify([version, tables, rows])
}

describe('bringing a file up to date', () => {
  it('MIG-1: a step is applied after a checked backup, keeps every row, and is noted with its hash', async () => {
    const before = dump(open.file)
    const list = second(rebuild)
    const record = openRecord(open.file, { now: morning + day, migrationList: list })
    expect(record.read.sqlite.pragma('user_version', { simple: true })).toBe(latest + 1)
    expect(record.read.sqlite.prepare('select count(*) from readings').pluck().get()).toBe(240)
    expect(record.read.sqlite.prepare('select note from series').pluck().all()).toEqual(['', ''])
    expect(record.write!.sqlite.pragma('foreign_keys', { simple: true })).toBe(1)
    expect(record.read.sqlite.prepare('select version, name from migrations order by version').all()).toEqual(
      [
        { version: 1, name: 'ledger and views' },
        { version: 2, name: 'parts' },
        { version: 3, name: 'test step' },
      ],
    )
    expect(projectSummaries(record.read)).toMatchObject([{ entries: 9 }])
    closeRecord(record)
    const [backup] = listBackups(path.join(folder, 'backups'))
    expect(path.basename(backup!.file)).toMatch(/-v2\.backup$/)
    const withoutHome = (text: string) => text.replace(/"home":"[^"]*"/g, '"home":""')
    expect(withoutHome(dump(backup!.file))).toBe(withoutHome(before))
    migrate(list)
    expect(listBackups(path.join(folder, 'backups'))).toHaveLength(1)
  })

  it('MIG-2: views that a step changes are filled again from the ledger', () => {
    const list = second('alter table bays add column note text; delete from bays', { replay: true })
    migrate(list)
    const raw = new BetterSqlite(open.file, { readonly: true })
    expect(raw.prepare('select count(*) from bays').pluck().get()).toBe(2)
    raw.close()
  })

  const failing: [string, Migration[], RegExp][] = [
    ['that does not parse', second('alter table nowhere add column a'), /no such table/],
    [
      'that loses rows',
      second('drop trigger readingsKept; delete from readings where series = 2'),
      /readings had 240 rows and has 120/,
    ],
    [
      'that loses children to a rebuild',
      second(
        rebuild
          .replace('insert into newSeries select', 'insert into newSeries select * from (select')
          .replace('from series;', 'from series where series = 1);'),
      ),
      /point at nothing|had 2 rows/,
    ],
    [
      'that leaves references to nothing',
      second('drop trigger seriesKept; delete from series', { mayChangeRowsOf: ['series'] }),
      /point at nothing/,
    ],
    [
      'that skips a number',
      [...migrations, { version: latest + 2, name: 'too far', sql: 'select 1' }],
      /step 3 is missing/,
    ],
    ['that replays onto nothing', second('drop table bays', { replay: true }), /no such table/],
  ]
  it.each(failing)(
    'MIG-3: a step %s is undone: the file is as it was, and the error says so',
    async (_, list, words) => {
      const before = dump(open.file)
      const refused = refusalOf(list)
      expect(refused.message).toMatch(words)
      expect(refused.message).toContain('The file is as it was')
      expect(refused.message).toContain(listBackups(path.join(folder, 'backups'))[0]!.file)
      expect(dump(open.file)).toBe(before)
      const record = openRecord(open.file, { now: morning })
      expect(await verify(record.read)).toMatchObject({ ok: true, entries: 9 })
      closeRecord(record)
    },
  )

  it('MIG-4: when a step breaks out of the transaction, the file is restored from the backup and the remains are kept', async () => {
    const outbreak = `commit; drop trigger readingsKept; delete from readings; begin; select nothing from nowhere`
    const refused = refusalOf(second(outbreak))
    expect(refused.message).toMatch(/was restored from that backup/)
    const record = openRecord(open.file, { now: morning })
    expect(await verify(record.read)).toMatchObject({ ok: true, entries: 9, series: 2 })
    expect(record.read.sqlite.prepare('select count(*) from readings').pluck().get()).toBe(240)
    closeRecord(record)
    expect(readdirSync(folder).filter((name) => /before-restore-\w+$/.test(name))).toHaveLength(1)
  })

  it('MIG-5: when no backup can be made, nothing is migrated', () => {
    const before = readFileSync(open.file)
    const blocked = path.join(open.file, 'not a folder')
    expect(() =>
      openRecord(open.file, { now: morning, migrationList: second(rebuild), backupFolder: blocked }),
    ).toThrow()
    expect(readFileSync(open.file).equals(before)).toBe(true)
  })

  it('MIG-6: an older file is not migrated by somebody who only reads', () => {
    const before = readFileSync(open.file)
    const list = second(rebuild)
    expect(() => openRecord(open.file, { now: morning, readOnly: true, migrationList: list })).toThrow(
      new RegExp(`has record version ${latest} and needs ${latest + 1}`),
    )
    expect(readFileSync(open.file).equals(before)).toBe(true)
  })

  it('MIG-7: a record of before parts of projects is brought up to date whole, with its backup beside it', async () => {
    const file = path.join(folder, 'older', 'record.bayledger')
    const older = createRecord(file, { now: morning, migrationList: migrations.slice(0, 1) })
    appendEntries(older, opening(newSite()), { recordedAt: morning })
    closeRecord(older)
    const record = openRecord(file, { now: morning + day })
    expect(record.read.sqlite.pragma('user_version', { simple: true })).toBe(latest)
    expect(record.read.sqlite.prepare('select count(*) from parts').pluck().get()).toBe(0)
    expect(projectSummaries(record.read)).toMatchObject([{ entries: 7 }])
    expect(await verify(record.read)).toMatchObject({ ok: true, entries: 7 })
    expect(path.basename(listBackups(path.join(folder, 'older', 'backups'))[0]!.file)).toMatch(/-v1\.backup$/)
    closeRecord(record)
  })
})
