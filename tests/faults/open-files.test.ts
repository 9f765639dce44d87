import { execFileSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  truncateSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import path from 'node:path'
import BetterSqlite from 'better-sqlite3'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import {
  appendEntries,
  closeRecord,
  createRecord,
  openRecord,
  projectSummaries,
  RecordError,
  verify,
} from '#db/index.ts'
import { entry, morning, type OpenSite, openSite, temporaryFolder } from '#tests/db/site.ts'
import { mountOf } from './mount.ts'

let folder: string
let forget: () => void
let open: OpenSite
beforeEach(() => {
  ;({ folder, forget } = temporaryFolder())
  open = openSite(folder)
  open.close()
})
afterEach(() => forget())

const refusalOf = (file: string, options: { readOnly?: boolean } = {}) => {
  try {
    closeRecord(openRecord(file, { now: morning, ...options }))
  } catch (refused) {
    expect(refused).toBeInstanceOf(RecordError)
    return refused as RecordError
  }
  return null
}

/** Bytes, time of change and neighbours of a file: nothing of it may differ after a refusal. */
function stateOf(file: string) {
  const { mtimeMs, size, ino } = statSync(file)
  const bytes = createHash('sha256').update(readFileSync(file)).digest('hex')
  return { mtimeMs, size, ino, bytes, neighbours: readdirSync(path.dirname(file)).sort() }
}

function makeForeign(name: string, write: (file: string) => void): string {
  const file = path.join(folder, 'foreign', name)
  mkdirSync(path.dirname(file), { recursive: true })
  write(file)
  utimesSync(file, 1_600_000_000, 1_600_000_000)
  return file
}

function sqliteFile(file: string, sql: string): void {
  const raw = new BetterSqlite(file)
  raw.exec(sql)
  raw.close()
}

const foreign: [string, (file: string) => void][] = [
  ['an empty file', (file) => writeFileSync(file, '')],
  ['a short text', (file) => writeFileSync(file, 'time;air\n')],
  ['a long text', (file) => writeFileSync(file, 'time;air\n'.repeat(500))],
  [
    'a database of another program',
    (file) => sqliteFile(file, 'create table t (a); insert into t values (1)'),
  ],
  [
    'a database with the name of another program',
    (file) =>
      sqliteFile(file, 'pragma application_id = 1234; pragma user_version = 1; create table ledger (a)'),
  ],
  [
    'a database that logs ahead',
    (file) => sqliteFile(file, 'pragma journal_mode = wal; create table t (a); insert into t values (1)'),
  ],
]

describe('files that are not a record', () => {
  it.each(foreign)(
    'FOR-1: %s is refused as foreign, for writing and for reading, and not a byte changes',
    (_, write) => {
      const file = makeForeign('file', write)
      const before = stateOf(file)
      for (const readOnly of [false, true]) {
        expect(refusalOf(file, { readOnly })).toMatchObject({ state: 'foreign' })
        expect(stateOf(file)).toEqual(before)
      }
    },
  )

  it('FOR-2: a folder is foreign and a file that is not there is missing', () => {
    expect(refusalOf(folder)).toMatchObject({ state: 'foreign' })
    expect(refusalOf(path.join(folder, 'nothing'))).toMatchObject({ state: 'missing' })
    expect(existsSync(path.join(folder, 'nothing'))).toBe(false)
  })

  it('FOR-3: a database that borrowed the mark of a record is found out by its contents', () => {
    const file = makeForeign('borrowed', (one) =>
      sqliteFile(one, `pragma application_id = ${0x42594c47}; pragma user_version = 1; create table t (a)`),
    )
    const before = stateOf(file)
    expect(refusalOf(file)).toMatchObject({ state: 'corrupt' })
    expect(stateOf(file)).toEqual(before)
  })

  it('FOR-4: a record whose shape was made by another edition of a step is refused', () => {
    sqliteFile(open.file, "update migrations set sha256 = 'other'")
    const before = stateOf(open.file)
    expect(refusalOf(open.file)).toMatchObject({ state: 'foreign' })
    expect(stateOf(open.file)).toEqual(before)
  })
})

const damages: [string, (file: string) => void][] = [
  ['cut off in the middle', (file) => truncateSync(file, Math.floor(statSync(file).size / 2))],
  ['cut off to its first bytes', (file) => truncateSync(file, 150)],
  ['without its first bytes', (file) => overwrite(file, 0, Buffer.alloc(16))],
  ['with its table of contents overwritten', (file) => overwrite(file, 100, Buffer.alloc(400, 0x5a))],
  ['with pages overwritten', (file) => overwrite(file, 4096 * 3, Buffer.alloc(4096 * 4, 0x5a))],
]

function overwrite(file: string, at: number, with_: Buffer): void {
  const bytes = readFileSync(file)
  with_.copy(bytes, at)
  writeFileSync(file, bytes)
}

describe('a damaged record', () => {
  it.each(damages)('DAM-1: %s, it is refused as damaged and left as it is', (_, damage) => {
    damage(open.file)
    utimesSync(open.file, 1_600_000_000, 1_600_000_000)
    const before = stateOf(open.file)
    for (const readOnly of [false, true]) {
      expect(refusalOf(open.file, { readOnly })).toMatchObject({ state: 'corrupt' })
      expect(stateOf(open.file)).toEqual(before)
    }
  })

  it('DAM-2: the same file without the damage opens, so that it was the damage that was refused', () => {
    expect(refusalOf(open.file)).toBeNull()
  })
})

describe('a record from a newer version', () => {
  it('NEW-1: it is opened for reading, names the version needed, and is not changed', () => {
    sqliteFile(open.file, 'pragma user_version = 7')
    const before = stateOf(open.file)
    const record = openRecord(open.file, { now: morning })
    expect(record.write).toBeNull()
    expect(record.readOnlyBecause).toMatchObject({ state: 'newer version' })
    expect(record.readOnlyBecause!.message).toMatch(/record version 7; this one writes \d.*update/)
    expect(projectSummaries(record.read)).toHaveLength(1)
    expect(() => appendEntries(record, [entry(open.site, 'air-read')], { recordedAt: morning })).toThrow(
      record.readOnlyBecause!,
    )
    closeRecord(record)
    expect(stateOf(open.file).bytes).toBe(before.bytes)
    expect(stateOf(open.file).mtimeMs).toBe(before.mtimeMs)
  })
})

describe('a read-only folder', () => {
  it('RO-1: a record on a disk that cannot be written is refused for writing and read from there', async (context) => {
    const mount = mountOf(folder, 'ro', '8m')
    if (mount === null) return context.skip('needs root to mount a small disk')
    try {
      const file = path.join(mount.folder, 'record.bayledger')
      copyFileSync(open.file, file)
      mount.remount('ro')
      const before = stateOf(file)
      expect(refusalOf(file)).toMatchObject({ state: 'read-only' })
      const record = openRecord(file, { now: morning, readOnly: true })
      expect(projectSummaries(record.read)).toMatchObject([{ name: 'Test hall' }])
      expect(await verify(record.read)).toMatchObject({ ok: true })
      closeRecord(record)
      expect(stateOf(file)).toEqual(before)
      expect(() => createRecord(path.join(mount.folder, 'new'), { now: morning })).toThrow(RecordError)
      expect(readdirSync(mount.folder)).toEqual(['record.bayledger'])
    } finally {
      mount.unmount()
    }
  })
})

describe('a busy record', () => {
  it('BUSY-1: while another program writes for longer than we wait, an append is refused as busy and not half done', () => {
    const other = new BetterSqlite(open.file)
    const record = openRecord(open.file, { now: morning })
    record.write!.sqlite.pragma('busy_timeout = 50')
    other.exec('begin immediate')
    const read = entry(open.site, 'air-read')
    expect(() => appendEntries(record, [read], { recordedAt: morning })).toThrow(
      expect.objectContaining({ state: 'busy' }),
    )
    other.exec('rollback')
    other.close()
    expect(appendEntries(record, [read], { recordedAt: morning })).toHaveLength(1)
    closeRecord(record)
  })
})

describe('the device of a file', () => {
  const deviceOf = (file: string) => {
    const record = openRecord(file, { now: morning })
    closeRecord(record)
    return record.device!.id
  }

  it('DEV-1: a file opened again in its place keeps its device, also under a new name', () => {
    const first = deviceOf(open.file)
    expect(deviceOf(open.file)).toBe(first)
    const renamed = `${open.file}.renamed`
    execFileSync('mv', [open.file, renamed])
    expect(deviceOf(renamed)).toBe(first)
  })

  it('DEV-2: a copy gets a device of its own, so that two copies never continue one chain', () => {
    const first = deviceOf(open.file)
    const copy = `${open.file}.copy`
    copyFileSync(open.file, copy)
    const second = deviceOf(copy)
    expect(second).not.toBe(first)
    const record = openRecord(copy, { now: morning })
    const [written] = appendEntries(record, [entry(open.site, 'air-read')], { recordedAt: morning })
    expect(written).toMatchObject({ device: second, deviceSeq: 1, seq: 8 })
    closeRecord(record)
    expect(deviceOf(open.file)).toBe(first)
  })
})
