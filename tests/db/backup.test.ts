import { copyFileSync, existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import BetterSqlite from 'better-sqlite3'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { backupsToKeep, rotation } from '#db/backup.ts'
import {
  backUp,
  closeRecord,
  listBackups,
  openRecord,
  type RecordFile,
  restoreBackup,
  undoRestore,
  verify,
} from '#db/index.ts'
import { requireSoundCopy } from '#db/sound-copy.ts'
import { importLogger } from './logger.ts'
import { day, entry, hour, iso, morning, type OpenSite, openSite, temporaryFolder } from './site.ts'

let folder: string
let forget: () => void
let open: OpenSite
let backups: string
beforeEach(() => {
  ;({ folder, forget } = temporaryFolder())
  open = openSite(folder)
  backups = path.join(folder, 'backups')
})
afterEach(() => {
  open.close()
  forget()
})

const idsIn = (record: RecordFile) =>
  record.read.sqlite.prepare('select id from ledger order by seq').pluck().all()
function inside<T>(file: string, look: (record: RecordFile) => T): T {
  const record = openRecord(file, { now: morning })
  try {
    return look(record)
  } finally {
    closeRecord(record)
  }
}

describe('a backup', () => {
  it('BAK-1: it is one complete file that opens by itself and agrees, made while the record is in use', async () => {
    importLogger(open)
    const running = backUp(open.record, backups, morning)
    const meanwhile = entry(open.site, 'air-read')
    open.append(meanwhile)
    const backup = await running
    expect(backup).toMatchObject({ at: iso(morning), verified: true })
    expect(backup.bytes).toBeGreaterThan(10_000)
    expect(readdirSync(backups)).toEqual([path.basename(backup.file)])
    expect(listBackups(backups)).toEqual([backup])

    const copy = path.join(folder, 'elsewhere')
    copyFileSync(backup.file, copy)
    const record = openRecord(copy, { now: morning })
    expect(idsIn(record).slice(0, 8)).toEqual(idsIn(open.record).slice(0, 8))
    expect(await verify(record.read)).toMatchObject({ ok: true, series: 2 })
    expect(record.device!.id).not.toBe(open.record.device!.id)
    closeRecord(record)
  })

  const spoils: [string, string, RegExp][] = [
    [
      'lacks entries in the middle',
      'drop trigger ledgerKept; delete from ledger where seq = 4',
      /holds 6 of 7 entries/,
    ],
    [
      'ends with another entry',
      "drop trigger ledgerFixed; update ledger set hash = 'x' where seq = 7",
      /another one/,
    ],
    [
      'lacks readings',
      'drop trigger readingsKept; delete from readings where at > 0 and series = 1',
      /0 of 120 readings/,
    ],
    ['is of another version', 'pragma user_version = 5', /version 5/],
    ['holds no entries', 'drop trigger ledgerKept; delete from ledger', /no entries/],
  ]
  it.each(spoils)('BAK-2: a copy that %s is not taken for a backup', async (_, sql, words) => {
    if (sql.includes('readings')) importLogger(open)
    const backup = await backUp(open.record, backups, morning)
    const raw = new BetterSqlite(backup.file)
    raw.pragma('foreign_keys = 0')
    raw.exec(sql)
    // What a spoilt copy would also show (references that point at nothing) is put aside to see this fault alone.
    raw.exec('delete from factVersions; delete from facts')
    raw.close()
    expect(() => requireSoundCopy(open.record.read.sqlite, backup.file)).toThrow(words)
  })

  it('BAK-3: a copy with damaged pages is not taken for a backup', async () => {
    const backup = await backUp(open.record, backups, morning)
    const bytes = readFileSync(backup.file)
    bytes.fill(0x5a, 4096 * 4, 4096 * 7)
    writeFileSync(backup.file, bytes)
    expect(() => requireSoundCopy(open.record.read.sqlite, backup.file)).toThrow()
  })

  it('BAK-4: three of a day stay, and files that are no backups are left alone', async () => {
    const made = []
    for (let i = 0; i < 5; i++) made.push(await backUp(open.record, backups, morning + i * hour))
    writeFileSync(path.join(backups, 'notes.txt'), 'mine')
    const last = await backUp(open.record, backups, morning + 5 * hour)
    expect(listBackups(backups).map((one) => one.file)).toEqual(
      [last, made[4], made[3]].map((one) => one!.file),
    )
    expect(existsSync(path.join(backups, 'notes.txt'))).toBe(true)
  })

  it('BAK-5: two backups in one millisecond are both kept', async () => {
    const files = [await backUp(open.record, backups, morning), await backUp(open.record, backups, morning)]
    expect(new Set(files.map((one) => one.file)).size).toBe(2)
    expect(listBackups(backups)).toHaveLength(2)
  })
})

describe('rotation', () => {
  it('ROT-1: over two years of four backups a day there stay 3 of today, 1 a day for 10 days and 1 of each version', () => {
    let kept: { file: string; at: string; version: number }[] = []
    for (let n = 0; n < 2 * 365; n++) {
      for (const at of [7, 11, 15, 19].map((clock) => morning + n * day + (clock - 7) * hour)) {
        const version = 1 + Math.floor(n / 200)
        kept.push({ file: iso(at), at: iso(at), version })
        const keep = backupsToKeep(kept, at)
        kept = kept.filter((one) => keep.has(one.file))
      }
    }
    const lastDay = morning + (2 * 365 - 1) * day
    const days = kept.map((one) =>
      Math.round((lastDay - Date.parse(`${one.at.slice(0, 10)}T07:00:00Z`)) / day),
    )
    expect(days.filter((ago) => ago === 0)).toHaveLength(rotation.ofToday)
    for (let ago = 1; ago < rotation.days; ago++) expect(days.filter((one) => one === ago)).toHaveLength(1)
    expect(days.filter((ago) => ago >= rotation.days)).toEqual([530, 330, 130])
    expect(new Set(kept.map((one) => one.version))).toEqual(new Set([1, 2, 3, 4]))
    expect(kept).toHaveLength(3 + 9 + 3)
  })
})

describe('restoring', () => {
  it('RES-1: a backup takes the place of the record; the record that stood there is kept and can be put back', async () => {
    const backup = await backUp(open.record, backups, morning)
    const later = entry(open.site, 'air-read')
    open.append(later)
    const mine = open.record.device!.id
    const head = idsIn(open.record)
    open.close()

    const { setAside } = restoreBackup(open.file, backup.file, { now: morning + day })
    expect(inside(open.file, idsIn)).toEqual(head.slice(0, 7))
    expect(inside(setAside!, idsIn)).toEqual(head)
    // What is written after the restore belongs to another chain than what was written after the backup.
    const restored = openRecord(open.file, { now: morning })
    expect(restored.device!.id).not.toBe(mine)
    closeRecord(restored)

    const undone = undoRestore(open.file, setAside!, { now: morning + 2 * day })
    expect(inside(open.file, idsIn)).toEqual(head)
    expect(inside(undone.setAside, idsIn)).toEqual(head.slice(0, 7))
    expect(existsSync(setAside!)).toBe(false)
    expect(inside(open.file, (record) => record.device!.id)).toBe(mine)
  })

  it('RES-2: a damaged backup is refused and the record stays where it is', async () => {
    const backup = await backUp(open.record, backups, morning)
    open.close()
    const before = readFileSync(open.file)
    const bytes = readFileSync(backup.file)
    bytes.fill(0x5a, 4096 * 2, 4096 * 6)
    writeFileSync(backup.file, bytes)
    expect(() => restoreBackup(open.file, backup.file, { now: morning })).toThrow(
      expect.objectContaining({ state: 'corrupt' }),
    )
    expect(readFileSync(open.file).equals(before)).toBe(true)
    expect(readdirSync(folder).sort()).toEqual(['backups', 'photos', 'record.bayledger'])
  })

  it('RES-3: a record that can no longer be read is replaced, and its remains are kept byte for byte', async () => {
    const backup = await backUp(open.record, backups, morning)
    open.close()
    writeFileSync(open.file, 'scrambled')
    const { setAside } = restoreBackup(open.file, backup.file, { now: morning })
    expect(readFileSync(setAside!, 'utf8')).toBe('scrambled')
    expect(inside(open.file, idsIn)).toHaveLength(7)
  })

  it('RES-4: a restore into an empty place needs nothing set aside', async () => {
    const backup = await backUp(open.record, backups, morning)
    const target = path.join(folder, 'new-place')
    expect(restoreBackup(target, backup.file, { now: morning })).toEqual({ setAside: null })
    expect(inside(target, idsIn)).toHaveLength(7)
  })
})
