import { execFileSync } from 'node:child_process'
import { createReadStream, mkdirSync, readdirSync, readFileSync, statSync } from 'node:fs'
import path from 'node:path'
import { pipeline } from 'node:stream/promises'
import * as tarStream from 'tar-stream'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { members } from '#db/bundle/format.ts'
import type { BundleMade } from '#db/bundle/make-bundle.ts'
import { checkBundle } from '#db/bundle/take-in.ts'
import { appendEntries, bayStory, closeRecord, listFacts, verify } from '#db/index.ts'
import type { BayId, ProjectId } from '#model/record/ids.ts'
import { importLogger, roomReadings } from '../logger.ts'
import { day, entry, morning, type OpenSite, openSite, temporaryFolder } from '../site.ts'
import { bundleOf, emptyRecord, fullSite, madeAt, takenInto } from './site-bundle.ts'

let folder: string
let forget: () => void
let open: OpenSite
let made: BundleMade
beforeAll(() => {
  ;({ folder, forget } = temporaryFolder())
  open = fullSite(path.join(folder, 'site'))
  made = bundleOf(open)
})
afterAll(() => {
  open.close()
  forget()
})

describe('a signed bundle', () => {
  it('BUN-1: a bundle of the whole project is good, and says what is in it', async () => {
    const { report } = await checkBundle(made.file)
    expect(report).toMatchObject({
      verdict: 'good',
      firstDifference: null,
      signature: 'good',
      fingerprint: made.fingerprint,
      bytes: statSync(made.file).size,
      keyPublishedAt: new Date(madeAt).toISOString(),
    })
    const count = open.record.read.sqlite.prepare('select count(*) from ledger').pluck().get()
    expect(report.manifest?.entries).toEqual({ given: count, leftOut: 0 })
    expect(report.chains).toEqual([
      { device: open.record.device!.id, entries: count, lastNumber: count, head: expect.any(String) },
    ])
    const folders = report.manifest!.members.map(({ name }) => name.split('/')[0])
    expect(new Set(folders)).toEqual(
      new Set([members.readme, members.rules, members.entries, 'files', 'series', 'photos']),
    )
  })

  it('BUN-2: two other readers of tar find the same files with the same bytes', async () => {
    const out = path.join(folder, 'unpacked')
    mkdirSync(out)
    execFileSync('tar', ['-xf', made.file, '-C', out])
    const found = new Map<string, Buffer>()
    const extract = tarStream.extract()
    extract.on('entry', (header, stream, next) => {
      const pieces: Buffer[] = []
      stream.on('data', (piece: unknown) => void pieces.push(piece as Buffer))
      stream.on('end', () => {
        found.set(header.name, Buffer.concat(pieces))
        next()
      })
    })
    await pipeline(createReadStream(made.file), extract)
    const names = [
      members.manifest,
      members.head,
      members.signature,
      ...made.manifest.members.map(({ name }) => name),
    ]
    expect([...found.keys()]).toEqual(names)
    for (const [name, bytes] of found)
      expect(readFileSync(path.join(out, name)).equals(bytes), name).toBe(true)
  })

  it('BUN-3: the same record at the same moment gives the same bytes', () => {
    const again = bundleOf(open)
    expect(readFileSync(again.file).equals(readFileSync(made.file))).toBe(true)
    expect(again.file).not.toBe(made.file)
  })

  it('BUN-4: an empty record that takes it in holds the same and is whole; a second time nothing is new', async () => {
    const other = emptyRecord(path.join(folder, 'other'))
    const joined = await takenInto(other, made.file)
    const count = made.manifest.entries.given
    expect(joined).toEqual({
      added: count,
      known: 0,
      loggerFiles: 1,
      photos: 1,
      conflicts: 0,
      missing: 0,
    })
    expect(await takenInto(other, made.file)).toEqual({
      ...joined,
      added: 0,
      known: count,
      loggerFiles: 0,
      photos: 0,
    })
    expect(await verify(other.read)).toMatchObject({ ok: true, firstDifference: null, entries: count })
    const bay = open.site.bay as BayId
    expect(bayStory(other.read, bay)).toEqual(bayStory(open.record.read, bay))
    closeRecord(other)
  })

  it('BUN-5: two records that each read a logger file come together under numbers of their own', async () => {
    const other = emptyRecord(path.join(folder, 'both'))
    await takenInto(other, made.file)
    const here = { ...open, record: other }
    importLogger(here, roomReadings(60, morning + day), { subject: open.site.otherBay })
    const theirs = importLogger(open, roomReadings(90, morning + 2 * day), { subject: open.site.otherBay })
    const joined = await takenInto(other, bundleOf(open).file)
    expect(joined).toMatchObject({ added: 1, loggerFiles: 1 })
    const numbers = other.read.sqlite
      .prepare('select series from series where entry = ?')
      .pluck()
      .all(theirs.id)
    const said = (theirs.body.columns as { series: number }[]).map(({ series }) => series)
    expect(numbers).not.toEqual(said)
    expect(await verify(other.read)).toMatchObject({ ok: true, firstDifference: null })
    closeRecord(other)
  })

  it('BUN-6: two corrections of one entry come together as a conflict, which a withdrawal settles on both sides', async () => {
    const [one, two] = [openSite(mkdtemp('c1')), emptyRecord(path.join(folder, 'c2'))]
    const air = entry(one.site, 'air-read')
    one.append(air)
    await takenInto(two, bundleOf(one).file)
    const correction = (airC: number, reason: string) =>
      entry(one.site, 'air-read', { body: { ...air.body, airC }, corrects: air.id, reason })
    one.append(correction(12, 'read again'))
    const theirs = correction(13, 'typed wrongly')
    appendEntries(two, [theirs], { recordedAt: morning + 2 * day })
    expect(await takenInto(two, bundleOf(one).file)).toMatchObject({ conflicts: 1 })
    const facts = () =>
      listFacts(two.read, { project: one.site.project as ProjectId, kinds: ['air-read'], limit: 5 })
    expect(facts().entries[0]).toMatchObject({ conflict: true })
    const settles = entry(one.site, 'entry-withdrawn', {
      subject: air.subject,
      corrects: theirs.id,
      reason: 'the other one was read twice',
      at: morning + 3 * day,
    })
    appendEntries(two, [settles], { recordedAt: morning + 3 * day })
    expect(facts().entries[0]).toMatchObject({ conflict: false, withdrawn: false, body: { airC: 12 } })
    one.close()
    closeRecord(two)
  })

  it('BUN-7: a conflict over a bay on which entries stand can be settled too', async () => {
    const [one, two] = [openSite(mkdtemp('d1')), emptyRecord(path.join(folder, 'd2'))]
    one.append(entry(one.site, 'air-read'))
    await takenInto(two, bundleOf(one).file)
    const planned = one.record.read.sqlite
      .prepare('select body from ledger where id = ?')
      .pluck()
      .get(one.site.bay)
    const renamed = (name: string) =>
      entry(one.site, 'bay-planned', {
        subject: one.site.bay,
        body: { ...JSON.parse(String(planned)), name },
        corrects: one.site.bay,
        reason: 'renamed',
      })
    one.append(renamed('North 1'))
    const theirs = renamed('North A')
    appendEntries(two, [theirs], { recordedAt: morning + 2 * day })
    await takenInto(two, bundleOf(one).file)
    const settles = entry(one.site, 'entry-withdrawn', {
      subject: one.site.bay,
      corrects: theirs.id,
      reason: 'North 1 stands on the door',
    })
    appendEntries(two, [settles], { recordedAt: morning + 3 * day })
    expect(
      two.read.sqlite.prepare('select name, withdrawn from bays where id = ?').get(one.site.bay),
    ).toEqual({
      name: 'North 1',
      withdrawn: 0,
    })
    expect(await verify(two.read)).toMatchObject({ ok: true })
    one.close()
    closeRecord(two)
  })

  it('BUN-8: nothing half-made is left beside the bundles', () => {
    const names = readdirSync(path.dirname(made.file))
    expect(names.length).toBeGreaterThan(1)
    expect(names.filter((name) => !name.endsWith('.baybundle'))).toEqual([])
  })
})

function mkdtemp(name: string): string {
  const made = path.join(folder, name)
  mkdirSync(made)
  return made
}
