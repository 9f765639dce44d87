import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { closeRecord, openRecord, projectOutline, projectSummaries, type StoredOutline } from '#db/index.ts'
import { type BayFile, readBayFile } from '#electron/reports/handover/bay-file.ts'
import { gapsOf } from '#electron/reports/handover/gaps.ts'
import { makeReportFile } from '#electron/reports/handover/make-file.ts'
import { namesIn } from '#electron/reports/handover/names.ts'
import { mostFaultPhotos, photosOf } from '#electron/reports/handover/photos.ts'
import { faultPhotosOf } from '#electron/reports/handover/shown-photos.ts'
import { makePdf } from '#electron/reports/print/make-pdf.ts'
import { releasePage } from '#electron/reports/print/release-page/page.ts'
import { makeDemo } from '#scripts/demo/make.ts'
import { photo } from '#tests/model/audit/whole-bay.ts'
import { day, instant, storyOf } from '#tests/support/story.ts'
import { readPdf } from './read-pdf.ts'

const asOf = Date.UTC(2026, 10, 25, 14)
let folder: string
let recordFile: string
let outline: StoredOutline
let bays: BayFile[]

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'bayledger-photos-print-'))
  recordFile = join(folder, 'record.sqlite')
  await makeDemo(recordFile, { now: asOf })
  const record = openRecord(recordFile, { now: asOf, readOnly: true, skipLook: true })
  outline = projectOutline(record.read, projectSummaries(record.read)[0]!.id)
  bays = outline.bays.map(({ id }) => readBayFile(record.read, { bay: id, asOf, forecast: null }))
  closeRecord(record)
}, 120_000)
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const bayNamed = (name: string) => bays.find((bay) => bay.name === `Bay ${name}`)!
const make = (kind: 'release' | 'bay', name: string) =>
  makeReportFile(
    { recordFile, project: outline.project.id, kind, bays: [bayNamed(name).id], asOf, forecasts: [] },
    () => undefined,
  )
/** JPEG pictures in a file: each is a stream of its own. @source ISO 32000-1 8.9.5, 7.4.8 @provenance from memory */
const picturesIn = (bytes: Uint8Array) =>
  Buffer.from(bytes)
    .toString('latin1')
    .match(/\/Filter \/DCTDecode/g)?.length ?? 0
const flat = (text: string) => text.replaceAll(/\s+/g, '')

describe('photos on paper', { timeout: 120_000 }, () => {
  it('PRINT-14: the release page of a bay with an open defect shows its photo with what it is; one without has none', async () => {
    const cracked = await make('release', 'F5')
    const { text, pages } = readPdf(cracked)
    expect([pages, picturesIn(cracked)]).toEqual([1, 1])
    expect(text).toContain('Photos of defects and repairs')
    expect(flat(text)).toContain(flat('Straight crack mid-bay (open)'))
    const sound = await make('release', 'G1')
    expect(picturesIn(sound)).toBe(0)
    expect(readPdf(sound).text).not.toContain('Photos of defects')
  })

  it('PRINT-15: photos of defects and repairs count, those of open defects first, then the youngest; no others', () => {
    const t0 = instant('2026-01-05T14:00:00Z')
    const found = { firstSeenOn: '2026-01-20', extent: 'spot' } as const
    const story = storyOf()
    const closed = story.note('defect-found', t0 + 15 * day, { ...found, symptom: 'S01' }).last
    const open = story.note('defect-found', t0 + 16 * day, { ...found, symptom: 'S05' }).last
    const closing = story.note('defect-closed', t0 + 30 * day, {
      defect: closed,
      how: 'repaired',
      note: 'Sound',
    }).last
    const shows = (at: number, body: Parameters<typeof photo>[2]) => photo(story, at, body).last
    const ofOpen = shows(t0 + 17 * day, { tag: 'defect', of: open })
    const ofClosed = shows(t0 + 18 * day, { tag: 'defect', of: closed })
    const ofRepair = shows(t0 + 31 * day, { tag: 'other', of: closing })
    const loose = shows(t0 + 32 * day, { tag: 'defect' })
    shows(t0 + 33 * day, { tag: 'edge strip' })
    story.withdraw(shows(t0 + 34 * day, { tag: 'defect', of: open }), t0 + 35 * day)
    const shown = faultPhotosOf(story.build())
    expect(shown.map(({ photo: { id } }) => id)).toEqual([ofOpen, loose, ofRepair, ofClosed])
    expect(shown.map(({ isOpen }) => isOpen)).toEqual([true, false, false, false])
  })

  it('PRINT-16: with as many photos as it takes, long captions and nothing met, the release is still one page', async () => {
    const bay = bayNamed('G1')
    const [picture] = (await photosOf(bayNamed('F5'), recordFile)).faults
    const photos = Array.from({ length: mostFaultPhotos }, () => ({
      ...picture!,
      caption: 'crack '.repeat(40),
    }))
    const because = 'A long reason that is told in full, with its number and its limit. '.repeat(6)
    const worst: BayFile = {
      ...bay,
      readiness: {
        ...bay.readiness,
        conditions: bay.readiness.conditions.map((one) => ({ ...one, state: 'not met', because })),
      },
    }
    const about = { title: 'T', subject: 'S', project: 'P', foot: '', asOf, about: () => '' }
    for (const shown of [photos, []]) {
      const pdf = await makePdf({ ...about, content: releasePage(worst, namesIn(outline), shown) })
      expect([shown.length, readPdf(pdf).pages]).toEqual([shown.length, 1])
      for (const { name } of worst.readiness.conditions) expect(flat(readPdf(pdf).text)).toContain(flat(name))
    }
  })

  it('PRINT-17: the circuit plan of a heated zone is printed beside its heating log, and not again among the photos', async () => {
    const bay = bayNamed('G1')
    const { circuitPlans, others } = await photosOf(bay, recordFile)
    expect(circuitPlans.map(({ picture }) => picture?.slice(0, 22))).toEqual(['data:image/jpeg;base64'])
    expect(others.map(({ entry }) => entry)).not.toContain(circuitPlans[0]!.entry)
    const { text } = readPdf(await make('bay', 'G1'))
    expect(text.split(circuitPlans[0]!.sha256)).toHaveLength(2)
    expect(text.indexOf('Heating log')).toBeLessThan(text.indexOf(circuitPlans[0]!.sha256))
    expect(text.indexOf(circuitPlans[0]!.sha256)).toBeLessThan(text.indexOf('Moisture tests'))
    expect(text).not.toContain('where the pipes lie is not known')
  })

  it('PRINT-18: a heated bay without a circuit plan says so in its file and among its known gaps; an unheated one does not', async () => {
    const gap = (name: string) =>
      gapsOf(bayNamed(name))
        .filter(({ what }) => what.startsWith('Circuit plan'))
        .map(({ state }) => state)
    expect([gap('G3'), gap('G1'), gap('F1')]).toEqual([['not known'], [], []])
    expect(readPdf(await make('bay', 'G3')).text).toContain('where the pipes lie is not known')
    expect(readPdf(await make('bay', 'F1')).text).not.toContain('Circuit plan')
  })

  it('PRINT-19: before a heated bay is laid, its circuit plan is not yet due', () => {
    const { facts, alerts, chain } = bayNamed('G3')
    const unlaid = { ...facts, life: { ...facts.life, startedAt: null } }
    const gap = gapsOf({ facts: unlaid, alerts, chain }).find(({ what }) => what.startsWith('Circuit plan'))
    expect(gap?.state).toBe('not yet')
  })
})
