import { beforeEach, describe, expect, it, onTestFinished, vi } from 'vitest'
import { appendEntries, bayStory, closeRecord } from '#db/index.ts'
import { forecastBay } from '#electron/work/forecast-bay.ts'
import { lessonsFor } from '#electron/work/lessons.ts'
import { lessonOfStory } from '#model/drying/index.ts'
import { newEntry } from '#model/record/entry.ts'
import type { BayId, EntryId, ZoneId } from '#model/record/ids.ts'
import type { BodyOf, KindName } from '#model/record/kinds.ts'
import { mint, type OneBay, oneBay } from '../one-bay.ts'
import { tempFolder } from '../temp-folder.ts'

// Everything runs as it is; only how often a lesson is worked out is counted.
vi.mock('#model/drying/index.ts', { spy: true })
beforeEach(() => void vi.mocked(lessonOfStory).mockClear())

const day = 86_400_000
const hour = 3_600_000
const laid = Date.UTC(2026, 0, 6, 15)
const asOf = laid + 60 * day
const iso = (at: number) => new Date(at).toISOString()

/** A bay beside the first, laid and cured and read of its air like all here. */
interface Added {
  bay: BayId
  note: <K extends KindName>(kind: K, at: number, body: BodyOf<K>, change?: object) => EntryId
}

function write(
  site: OneBay,
  project: string,
  kind: KindName,
  at: number,
  subject: string,
  body: object,
  more = {},
) {
  const id = (more as { id?: string }).id ?? mint<'entry'>()
  const entry = newEntry.parse({
    project,
    subject,
    kind,
    happenedAt: iso(at),
    zone: 'Europe/London',
    person: site.person,
    source: 'typed',
    body,
    ...more,
    id,
  })
  appendEntries(site.record, [entry], { recordedAt: at + 60_000 })
  return id as EntryId
}

function addBay(
  site: OneBay,
  name: string,
  cement: string,
  { project, body, person }: Place = homeOf(site),
): Added {
  const bay = mint<'bay'>()
  write(site, project, 'bay-planned', laid - day, bay, { ...body, name }, { id: bay, person })
  const note: Added['note'] = (kind, at, body, change) =>
    write(site, project, kind, at, bay, body, { person, ...change })
  layLike(note, cement)
  return { bay: bay as BayId, note }
}

/** Where a bay lies, the plan it has but for its name, and who writes about it. */
interface Place {
  project: string
  body: BodyOf<'bay-planned'>
  person: string
}

function homeOf(site: OneBay): Place {
  const { project, bay } = bayStory(site.record.read, site.bay)
  return { project: project.id, body: bay.body, person: site.person }
}

function layLike(note: (kind: never, at: number, body: never) => unknown, cementType: string) {
  const one = note as unknown as <K extends KindName>(kind: K, at: number, body: BodyOf<K>) => unknown
  one('batch-mixed', laid - 3 * hour, {
    number: 1,
    cementKg: 50,
    cementType,
    dampSandKg: 200,
    addedWaterKg: 10,
    mixer: 'forced action',
  })
  one('bay-finished', laid, { startedAt: iso(laid - 4 * hour), finish: 'float' })
  one('sheet-on', laid + hour, { material: 'polyethylene', coveredPercent: 100, edgesHeld: true })
  one('sheet-off', laid + 7 * day, { why: 'end of curing' })
  for (let i = 1; i <= 58; i++) one('air-read', laid + i * day, { airC: 20, rhPercent: 50 })
}

const probe = (at: number, rhPercent: number): BodyOf<'moisture-read'> => ({
  method: 'probe',
  point: 'P1',
  setAt: iso(at - 80 * hour),
  readings: [
    { at: iso(at - 8 * hour), rhPercent },
    { at: iso(at), rhPercent },
  ],
  holeDepthMm: 26,
})
const cement = 'CEM I 42.5 N'
/** Wetter than the model foretells: a slow mix. */
const slow = 90

function layFirst() {
  const site = oneBay(tempFolder())
  onTestFinished(() => closeRecord(site.record))
  layLike(site.note as never, cement)
  return site
}

const quiet = () => undefined
const foretell = async (site: OneBay, at = asOf) =>
  (await forecastBay({ recordFile: site.file, bay: site.bay, asOf: at }, quiet)).forecast
const lessonsAt = (site: OneBay, at = asOf) =>
  lessonsFor(site.record.read, bayStory(site.record.read, site.bay), at)
const told = (forecast: { assumptions: string[] }) =>
  forecast.assumptions.filter((sentence) => /diffusivity factor of this bay|how fast it dries/.test(sentence))

describe('what other bays of the mix teach a forecast', () => {
  it('LES-1: three slow bays of the mix move the date out and are named with their numbers', async () => {
    const site = layFirst()
    const others = ['N2', 'N3', 'N4'].map((name) => addBay(site, name, cement))
    const alone = await foretell(site)
    expect(told(alone)).toEqual([
      'No other bay of this mix has yet taught by valid tests how fast it dries; the spread of the material is used: a factor of 1.00 × ÷ 1.57.',
    ])
    for (const { note } of others) note('moisture-read', laid + 45 * day, probe(laid + 45 * day, slow))
    const taught = await foretell(site)
    expect(Date.parse(taught.p50!)).toBeGreaterThan(Date.parse(alone.p50!) + 5 * day)
    expect(told(taught)).toHaveLength(1)
    expect(told(taught)[0]).toMatch(
      /^3 other bays of the same mix taught how fast it dries \(N2 0\.\d\d, N3 0\.\d\d, N4 0\.\d\d\)/,
    )
    const named = taught.why[1]!.inputs.filter(({ name }) =>
      /^factor of bay N\d of the same mix, 1 reading$/.test(name),
    )
    expect(named).toHaveLength(3)
    for (const { value, unit } of named) {
      expect(value).toBeLessThan(0.9)
      expect(unit).toMatch(/^× ÷ 1\.\d\d, counts \d\d %$/)
    }
  }, 60_000)

  it('LES-2: a day in the past is foretold as it was foretold then: later tests teach nothing', async () => {
    const site = layFirst()
    const others = ['N2', 'N3', 'N4'].map((name) => addBay(site, name, cement))
    const then = laid + 30 * day
    const before = await foretell(site, then)
    for (const { note } of others) note('moisture-read', laid + 45 * day, probe(laid + 45 * day, slow))
    expect(await foretell(site, then)).toEqual(before)
    expect(lessonsAt(site, then)).toEqual([])
    expect(lessonsAt(site)).toHaveLength(3)
    // A second round of tests changes what is taught today, and not what was taught yesterday.
    const yesterday = lessonsAt(site, laid + 46 * day)
    for (const { note } of others) note('moisture-read', laid + 55 * day, probe(laid + 55 * day, 80))
    expect(lessonsAt(site, laid + 46 * day)).toEqual(yesterday)
    expect(lessonsAt(site)).not.toEqual(yesterday)
  }, 60_000)

  it('LES-3: a withdrawn test teaches no more, a corrected one teaches what it says now', () => {
    const site = layFirst()
    const [first, second] = ['N2', 'N3', 'N4'].map((name) => addBay(site, name, cement))
    const at = laid + 45 * day
    const id = first!.note('moisture-read', at, probe(at, slow))
    const wrong = second!.note('moisture-read', at, probe(at, slow))
    const [a, b] = lessonsAt(site)
    expect([a!.name, b!.name].sort()).toEqual(['N2', 'N3'])
    second!.note('moisture-read', at, probe(at, 75), { corrects: wrong, reason: 'misread' })
    const corrected = lessonsAt(site).find(({ name }) => name === 'N3')!
    expect(corrected.lnKappaMean).toBeGreaterThan(b!.lnKappaMean + 0.2)
    first!.note('entry-withdrawn', at, {}, { corrects: id, reason: 'wrong bay' })
    expect(lessonsAt(site).map(({ name }) => name)).toEqual(['N3'])
  }, 60_000)

  it('LES-4: the bay itself, another mix and a test that was not valid teach nothing', () => {
    const site = layFirst()
    const at = laid + 45 * day
    site.note('moisture-read', at, probe(at, slow))
    addBay(site, 'N2', 'CEM II 32.5 R').note('moisture-read', at, probe(at, slow))
    addBay(site, 'N3', cement).note('moisture-read', at, { ...probe(at, slow), sealOk: false })
    addBay(site, 'N4', cement).note('moisture-read', at, probe(at, slow))
    expect(lessonsAt(site).map(({ name }) => name)).toEqual(['N4'])
  }, 60_000)

  it('LES-5: bays of another project teach by their recipe, after those of the own, and say where they are', () => {
    const site = layFirst()
    const home = bayStory(site.record.read, site.bay)
    const [project, floor, zone] = [mint<'project'>(), mint<'floor'>(), mint<'zone'>()]
    const person = mint<'person'>()
    const begin = (kind: KindName, id: string, body: object) =>
      write(site, project, kind, laid - day, id, body, { id, person })
    begin('project-opened', project, { ...home.project.body, name: 'Mill Lane' })
    begin('person-added', person, { name: 'T. Brook', role: 'supervisor' })
    begin('floor-added', floor, home.floor.body)
    begin('zone-added', zone, { ...home.zone.body, floor })
    const there = { project, body: { ...home.bay.body, zone: zone as string as ZoneId }, person }
    const at = laid + 45 * day
    addBay(site, 'M1', cement, there).note('moisture-read', at + day, probe(at + day, slow))
    addBay(site, 'N2', cement).note('moisture-read', at, probe(at, slow))
    expect(lessonsAt(site).map(({ name }) => name)).toEqual(['N2', 'M1 (Mill Lane)'])
  }, 60_000)

  it('LES-6: a bay is worked out once, until an entry touches it', () => {
    const site = layFirst()
    const others = ['N2', 'N3', 'N4'].map((name) => addBay(site, name, cement))
    const at = laid + 45 * day
    for (const { note } of others) note('moisture-read', at, probe(at, slow))
    const first = lessonsAt(site)
    expect(lessonOfStory).toHaveBeenCalledTimes(3)
    expect(lessonsAt(site, asOf + day)).toEqual(first)
    const { read } = site.record
    // Another bay of the mix asks: only the lesson of the first is new, and it has none.
    expect(lessonsFor(read, bayStory(read, others[0]!.bay), asOf).map(({ name }) => name)).toEqual([
      'N3',
      'N4',
    ])
    expect(lessonOfStory).toHaveBeenCalledTimes(3)
    others[0]!.note('thickness-measured', laid + 2 * day, { points: [{ mm: 90 }] })
    expect(lessonsAt(site).find(({ name }) => name === 'N2')).not.toEqual(
      first.find(({ name }) => name === 'N2'),
    )
    expect(lessonOfStory).toHaveBeenCalledTimes(4)
  }, 60_000)

  it('LES-7: of many bays the twelve last tested teach', () => {
    const site = layFirst()
    for (let i = 1; i <= 14; i++) {
      const at = laid + (30 + i) * day
      addBay(site, `T${i}`, cement).note('moisture-read', at, probe(at, slow))
    }
    const names = lessonsAt(site).map(({ name }) => name)
    expect(names).toHaveLength(12)
    expect(names[0]).toBe('T14')
    expect(names).not.toContain('T1')
    expect(names).not.toContain('T2')
  }, 60_000)
})
