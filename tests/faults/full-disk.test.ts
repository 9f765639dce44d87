import { randomFillSync } from 'node:crypto'
import { existsSync, readdirSync, rmSync, statfsSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, it } from 'vitest'
import {
  appendEntries,
  appendLoggerImport,
  backUp,
  closeRecord,
  createRecord,
  listBackups,
  openRecord,
  RecordError,
  verify,
} from '#db/index.ts'
import { csvOf, loggerEntry, roomReadings } from '#tests/db/logger.ts'
import { day, entry, morning, newSite, opening, temporaryFolder } from '#tests/db/site.ts'
import { type Mount, mountOf } from './mount.ts'

async function onSmallDisk(skip: (why: string) => void, size: string, work: (mount: Mount) => Promise<void>) {
  const { folder, forget } = temporaryFolder()
  const mount = mountOf(folder, 'small', size)
  try {
    if (mount === null) return skip('needs root to mount a small disk')
    await work(mount)
  } finally {
    mount?.unmount()
    forget()
  }
}

/** Fills the disk up to so many bytes. */
function fill(mount: Mount, leave: number): string {
  const { bavail, bsize } = statfsSync(mount.folder)
  const file = path.join(mount.folder, 'ballast')
  writeFileSync(file, Buffer.alloc(Math.max(0, bavail * bsize - leave)))
  return file
}

const long = 'The sheet was lifted at the north door and laid back with new tape. '.repeat(40)

describe('a full disk', () => {
  it('FULL-1: entries are refused as "full" when the disk fills, what was acknowledged stays, and writing goes on when there is room', async (context) => {
    await onSmallDisk(context.skip, '6m', async (mount) => {
      const file = path.join(mount.folder, 'record.bayledger')
      const site = newSite()
      const record = createRecord(file, { now: morning })
      appendEntries(record, opening(site), { recordedAt: morning })
      const ballast = fill(mount, 300_000)
      const acknowledged: string[] = []
      let refused: unknown = null
      for (let i = 0; i < 2000 && refused === null; i++) {
        const noted = entry(site, 'wet-event-noted', { body: { what: 'leak', note: long } })
        try {
          appendEntries(record, [noted], { recordedAt: morning + day })
          acknowledged.push(noted.id)
        } catch (thrown) {
          refused = thrown
        }
      }
      expect(acknowledged.length).toBeGreaterThan(5)
      expect(refused).toBeInstanceOf(RecordError)
      expect(refused).toMatchObject({ state: 'full' })
      expect((refused as Error).message).toMatch(/full.*nothing was written/s)
      const written = () =>
        record.read.sqlite.prepare('select id from ledger where seq > 7 order by seq').pluck().all()
      expect(written()).toEqual(acknowledged)

      rmSync(ballast)
      const after = entry(site, 'air-read')
      appendEntries(record, [after], { recordedAt: morning + day })
      closeRecord(record)
      const again = openRecord(file, { now: morning })
      expect(await verify(again.read)).toMatchObject({ ok: true, entries: 8 + acknowledged.length })
      closeRecord(again)
    })
  })

  it('FULL-2: a logger file that does not fit leaves nothing behind', async (context) => {
    await onSmallDisk(context.skip, '6m', async (mount) => {
      const file = path.join(mount.folder, 'record.bayledger')
      const site = newSite()
      const record = createRecord(file, { now: morning })
      appendEntries(record, opening(site), { recordedAt: morning })
      const open = { record, site, file, append: () => [], close: () => undefined }
      const series = roomReadings(200_000, morning - 900 * day)
      const original = Buffer.concat([csvOf(roomReadings(10)), randomFillSync(Buffer.alloc(1000))])
      const write = () =>
        appendLoggerImport(record, loggerEntry(open, series), series, original, { recordedAt: morning + day })
      expect(write).toThrow(expect.objectContaining({ name: 'RecordError', state: 'full' }))
      const count = (table: string) =>
        record.read.sqlite.prepare(`select count(*) from ${table}`).pluck().get()
      expect(['ledger', 'series', 'readings', 'files', 'imports'].map(count)).toEqual([7, 0, 0, 0, 0])
      closeRecord(record)
      const again = openRecord(file, { now: morning })
      expect(await verify(again.read)).toMatchObject({ ok: true })
      closeRecord(again)
    })
  })

  it('FULL-3: a record or a backup that does not fit leaves no half file', async (context) => {
    await onSmallDisk(context.skip, '3m', async (mount) => {
      const file = path.join(mount.folder, 'record.bayledger')
      const site = newSite()
      const record = createRecord(file, { now: morning })
      appendEntries(record, opening(site), { recordedAt: morning })
      const backups = path.join(mount.folder, 'backups')
      const kept = await backUp(record, backups, morning)
      fill(mount, 60_000)
      await expect(backUp(record, backups, morning + day)).rejects.toMatchObject({
        name: 'RecordError',
        state: 'full',
      })
      expect(readdirSync(backups)).toEqual([path.basename(kept.file)])
      expect(listBackups(backups)).toEqual([kept])
      const another = path.join(mount.folder, 'another.bayledger')
      expect(() => createRecord(another, { now: morning })).toThrow(
        expect.objectContaining({ state: 'full' }),
      )
      expect(existsSync(another)).toBe(false)
      expect(readdirSync(mount.folder).filter((name) => name.startsWith('another'))).toEqual([])
      closeRecord(record)
    })
  })
})
