import { spawnSync } from 'node:child_process'
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import BetterSqlite from 'better-sqlite3'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { BundleMade } from '#db/bundle/make-bundle.ts'
import { checkBundle, takeIn } from '#db/bundle/take-in.ts'
import {
  appendEntries,
  bayStory,
  closeRecord,
  createRecord,
  openRecord,
  photoFile,
  projectOutline,
  type RecordFile,
  sha256Hex,
  verify,
} from '#db/index.ts'
import { migrations } from '#db/migrations/index.ts'
import { keepPhoto } from '#db/photos.ts'
import { partOf } from '#db/queries/part-of.ts'
import type { BayId, ProjectId } from '#model/record/ids.ts'
import { importLogger, roomReadings } from '../logger.ts'
import { day, entry, morning, type OpenSite, openSite, sampleBody, temporaryFolder } from '../site.ts'
import { bundleOf, emptyRecord, madeAt, takenInto } from './site-bundle.ts'

const pythonTwin = fileURLToPath(new URL('verify_bundle.py', import.meta.url))
const hasPython = spawnSync('python3', ['--version']).status === 0
const otherPhoto = Buffer.from('the bytes of a photo of the other bay')

let folder: string
let forget: () => void
let office: OpenSite
let held: BayId
let project: ProjectId
const opened: RecordFile[] = []

beforeEach(() => {
  ;({ folder, forget } = temporaryFolder())
  mkdirSync(path.join(folder, 'office'))
  office = openSite(path.join(folder, 'office'))
  held = office.site.otherBay as BayId
  project = office.site.project as ProjectId
  workOn(office, 0)
})
afterEach(() => {
  for (const record of opened.splice(0)) closeRecord(record)
  office.close()
  forget()
})

/** A day's work on both bays, turn by turn, so that what one bay is about stands between what the other is about. */
function workOn({ site, append, file, record }: OpenSite, days: number): void {
  const at = morning + days * day
  for (const subject of [site.bay, held, site.bay, held])
    append(entry(site, 'air-read', { subject, at }), at + day)
  if (days > 0) return
  append(entry(site, 'instrument-checked'))
  const known = { record, site, file, append, close: () => undefined }
  importLogger(known, roomReadings(40), { subject: held })
  importLogger(known, roomReadings(50, morning - day), { subject: site.bay })
  keepPhoto(file, otherPhoto, 'image/jpeg')
  append(entry(site, 'photo-added', { subject: site.bay }))
  const photo = sampleBody(site, 'photo-added')
  const sha256 = sha256Hex(otherPhoto)
  const body = { ...photo, bytes: otherPhoto.length, sha256, originalSha256: sha256 }
  append(entry(site, 'photo-added', { subject: held, body }))
  append(entry(site, 'bay-planned', { body: { ...sampleBody(site, 'bay-planned'), name: 'B3' } }))
}

const partBundle = (now = madeAt) => bundleOf(office, { scope: { kind: 'bays', bays: [held] } }, now)

function elsewhere(name: string): RecordFile {
  const record = emptyRecord(path.join(folder, name))
  opened.push(record)
  return record
}

/** Another machine that has taken the part in. */
async function holder(name = 'holder', made = partBundle()): Promise<RecordFile> {
  const record = elsewhere(name)
  await takenInto(record, made.file)
  return record
}

/** The story of the bay without the numbers that each record gives by itself. */
function toldOf({ read }: RecordFile): unknown {
  const ofItsOwn = (key: string, value: unknown) =>
    key === 'seq' || (key === 'series' && typeof value === 'number') ? undefined : value
  return JSON.parse(JSON.stringify(bayStory(read, held), ofItsOwn))
}

async function refusalOf(record: RecordFile, { file }: BundleMade): Promise<string> {
  const { report, places } = await checkBundle(file)
  expect(report.verdict).toBe('good')
  const before = record.read.sqlite.prepare('select count(*) from ledger').pluck().get()
  try {
    takeIn(record, file, places, { forGood: true, now: madeAt })
  } catch (cause) {
    expect(record.read.sqlite.prepare('select count(*) from ledger').pluck().get()).toBe(before)
    return (cause as Error).message
  }
  throw new Error('it was taken in')
}

describe('a part of a project on another machine', () => {
  it('PART-1: an empty record takes it in, tells the story of its bay as the whole record does, and is whole by itself', async () => {
    const made = partBundle()
    expect(made.manifest.scope).toMatchObject({
      kind: 'bays',
      bays: [{ id: held, name: 'B2' }],
      baysOfProject: 3,
    })
    const other = await holder('one', made)
    expect(toldOf(other)).toEqual(toldOf(office.record))
    expect(bayStory(other.read, held).entries.length).toBeGreaterThan(3)
    const report = await verify(other.read)
    expect(report).toMatchObject({ ok: true, firstDifference: null, series: 2, photos: { kept: 1 } })
    expect(report.entries).toBe(made.manifest.entries.given)
    expect(made.manifest.entries.leftOut).toBeGreaterThan(3)
    // The photo of the bay came with its bytes; that of the other bay did not.
    expect(readFileSync(photoFile(other.file, sha256Hex(otherPhoto), 'image/jpeg'))).toEqual(otherPhoto)
  })

  it('PART-2: it says what it is a part of; the other bays are not shown as bays without faults', async () => {
    const other = await holder()
    const { part, bays, people, instruments, floors, zones } = projectOutline(other.read, project)
    expect(part).toMatchObject({ held: [{ id: held, name: 'B2' }], ofBays: 3 })
    expect(part!.named.map(({ name }) => name)).toEqual(['B1', 'B3'])
    expect(part!.missingEntries).toBe(partBundle().manifest.entries.leftOut)
    expect(bays.map(({ id }) => id)).toEqual([held])
    const whole = projectOutline(office.record.read, project)
    expect(whole.part).toBeNull()
    expect(whole.bays).toHaveLength(3)
    expect({ people, instruments, floors, zones }).toEqual({
      people: whole.people,
      instruments: whole.instruments,
      floors: whole.floors,
      zones: whole.zones,
    })
  })

  it('PART-3: a bay of which only the plan is here cannot be handed on', async () => {
    const other = await holder()
    const there = { ...office, record: other, file: other.file }
    const scope = { kind: 'bays' as const, bays: [office.site.bay as BayId] }
    expect(() => bundleOf(there, { scope })).toThrow(/B1 is only planned in this record/)
    expect(bundleOf(office, { scope }).manifest.scope.bays).toEqual([{ id: office.site.bay, name: 'B1' }])
  })

  it('PART-4: later work on the same bays is taken in; the rest of the project is not squeezed in afterwards', async () => {
    const other = await holder()
    workOn(office, 3)
    const later = partBundle(madeAt + day)
    await takenInto(other, later.file)
    expect(toldOf(other)).toEqual(toldOf(office.record))
    expect(await verify(other.read)).toMatchObject({ ok: true, firstDifference: null })
    expect(await refusalOf(other, bundleOf(office))).toMatch(
      /from inside its gaps.*open Bayledger on an empty folder/,
    )
    expect(await takenInto(other, later.file)).toMatchObject({ added: 0 })
  })

  it('PART-5: a record that has the whole is not torn by a part, and takes the whole in again afterwards', async () => {
    const other = elsewhere('whole')
    await takenInto(other, bundleOf(office).file)
    workOn(office, 3)
    expect(await refusalOf(other, partBundle(madeAt + day))).toMatch(/its chain would get a gap here/)
    await takenInto(other, bundleOf(office, {}, madeAt + day).file)
    expect(projectOutline(other.read, project).part).toBeNull()
    expect(await verify(other.read)).toMatchObject({ ok: true })
    // What it has already, it knows, whatever was left out.
    expect(await takenInto(other, partBundle(madeAt + day).file)).toMatchObject({ added: 0, missing: 0 })
    expect(other.read.sqlite.prepare('select count(*) from parts').pluck().get()).toBe(0)
  })

  it('PART-6: what was written on the part goes back to the whole, and on to a third machine, which says that it is a part', async () => {
    const other = await holder()
    const own = entry(office.site, 'air-read', { subject: held, at: morning + 6 * day })
    appendEntries(other, [own], { recordedAt: madeAt + day })
    const there: OpenSite = { ...office, record: other, file: other.file }
    const back = bundleOf(there, {}, madeAt + 2 * day)
    expect(back.manifest.scope).toMatchObject({ kind: 'bays', bays: [{ id: held }], baysOfProject: 3 })
    expect((await checkBundle(back.file)).report.verdict).toBe('good')
    if (hasPython) {
      const said = spawnSync('python3', [pythonTwin, back.file], { encoding: 'utf8' })
      expect(JSON.parse(said.stdout)).toMatchObject({ good: true, part: { bays: 1, of: 3 } })
    }
    // The entry and the key of that machine.
    expect(await takenInto(office.record, back.file)).toMatchObject({ added: 2, missing: 0 })
    expect(await verify(office.record.read)).toMatchObject({ ok: true })
    expect(partOf(office.record.read, project)).toBeNull()

    const third = await holder('third', back)
    expect(partOf(third.read, project)).toMatchObject({ held: [{ id: held }], ofBays: 3 })
    expect(toldOf(third)).toEqual(toldOf(other))
    expect(await verify(third.read)).toMatchObject({ ok: true, firstDifference: null })
    expect(() => bundleOf(there, { scope: { kind: 'record' } })).toThrow(/holds a part of a project/)
  })

  it('PART-12: a part grows into the whole in a new record: the fuller bundle first, then what was written on the part, with its conflicts', async () => {
    const small = await holder()
    const [air] = office.record.read.sqlite
      .prepare("select id from ledger where kind = 'air-read' and subject = ?")
      .pluck()
      .all(held) as string[]
    const body = sampleBody(office.site, 'air-read')
    const correct = (airC: number, reason: string) =>
      entry(office.site, 'air-read', { subject: held, body: { ...body, airC }, corrects: air!, reason })
    const own = entry(office.site, 'air-read', { subject: held, at: morning + 6 * day })
    appendEntries(small, [own, correct(12, 'Beside the door')], { recordedAt: madeAt + day })
    office.append(correct(21, 'Typed wrongly'), madeAt + day)
    workOn(office, 3)

    const there: OpenSite = { ...office, record: small, file: small.file }
    const fuller = bundleOf(office, {}, madeAt + 2 * day)
    const written = bundleOf(there, {}, madeAt + 2 * day)
    expect(await refusalOf(small, fuller)).toMatch(/from inside its gaps.*Make a bundle here first/)

    const grown = elsewhere('grown')
    await takenInto(grown, fuller.file)
    // The two entries of that machine, and its key.
    expect(await takenInto(grown, written.file)).toMatchObject({ added: 3, conflicts: 1, missing: 0 })
    expect(partOf(grown.read, project)).toBeNull()
    expect(await verify(grown.read)).toMatchObject({ ok: true, firstDifference: null })
    const hashes = (record: RecordFile) =>
      new Set(record.read.sqlite.prepare('select hash from ledger').pluck().all() as string[])
    const inGrown = hashes(grown)
    for (const before of [small, office.record])
      expect([...hashes(before)].filter((hash) => !inGrown.has(hash))).toEqual([])
  })

  it('PART-7: a file of before there were parts is brought up to date and takes one in', async () => {
    const file = path.join(folder, 'old', 'record.bayledger')
    closeRecord(createRecord(file, { now: morning, migrationList: migrations.slice(0, 1) }))
    const record = openRecord(file, { now: madeAt })
    opened.push(record)
    await takenInto(record, partBundle().file)
    expect(projectOutline(record.read, project).part).toMatchObject({ ofBays: 3 })
  })
})

describe('a part that was tampered with', () => {
  /** Changes the file of a record as somebody would who owns the disk, then verifies it. */
  async function spoiled(record: RecordFile, sql: string, ...values: unknown[]) {
    const raw = new BetterSqlite(record.file)
    raw.pragma('foreign_keys = 0')
    const triggers = raw.prepare("select name from sqlite_schema where type = 'trigger'").pluck().all()
    for (const name of triggers) raw.exec(`drop trigger ${String(name)}`)
    expect(raw.prepare(sql).run(...values).changes).toBeGreaterThan(0)
    raw.close()
    return await verify(record.read)
  }

  it('PART-8: control: a record that holds a part and was not changed is whole', async () => {
    expect(await verify((await holder()).read)).toMatchObject({ ok: true })
  })

  it.each<[string, string, RegExp]>([
    [
      'an entry of the part is removed where the chain has a gap anyway',
      "delete from ledger where seq = (select max(seq) from ledger where kind = 'air-read')",
      /gave an entry that is not here any more|an entry is missing or moved/,
    ],
    ['the proof of its gaps is removed', 'delete from parts', /an entry is missing or moved/],
    [
      'an entry that was given is said to be left out',
      "update parts set leaves = cast(x'00' || substr(leaves, 2) as blob)",
      /does not give and leave out the entries that were signed/,
    ],
    [
      'a hash that it keeps is another one',
      "update parts set leaves = cast(substr(leaves, 1, length(leaves) - 1) || x'00' as blob)",
      /was removed or changed|does not make the tree that was signed/,
    ],
    ['its signature is another one', 'update parts set signature = zeroblob(64)', /has a wrong signature/],
    [
      'its list is another one',
      `update parts set manifest = cast(replace(cast(manifest as text), '"baysOfProject":3', '"baysOfProject":1') as blob)`,
      /does not have the list and head that were signed/,
    ],
    ['it stands under another project', "update parts set project = 'x'", /stands under another project/],
  ])('PART-9: %s: verify tells it', async (_, sql, words) => {
    const report = await spoiled(await holder(), sql)
    expect(report.ok).toBe(false)
    expect(report.firstDifference).toMatch(words)
  })

  it('PART-10: SQLite itself refuses to change, replace or remove a part', async () => {
    const { sqlite } = (await holder()).write!
    for (const sql of [
      'delete from parts',
      'update parts set takenInAt = 0',
      'insert or replace into parts select * from parts',
    ])
      expect(() => sqlite.exec(sql), sql).toThrow(/is never/)
  })

  it('PART-11: a part whose entries were changed on the way is refused before anything is taken in', async () => {
    const made = partBundle()
    const bytes = readFileSync(made.file)
    const file = path.join(folder, 'changed.baybundle')
    for (const word of ['"kind":"air-read"', '"baysOfProject":3', '"leftOut":']) {
      const changed = Buffer.from(bytes)
      changed[changed.indexOf(word) + word.length - 1]! ^= 1
      writeFileSync(file, changed)
      expect((await checkBundle(file)).report.verdict, word).toBe('broken')
      if (hasPython) expect(spawnSync('python3', [pythonTwin, file]).status, word).toBe(1)
    }
  })
})
