import type { StoryEntry } from '#model/record/entry.ts'
import { uuidV7From } from '#model/record/ids.ts'
import type { SeriesQuantity } from '#model/record/index.ts'
import { type BodyOf, type KindName, kinds } from '#model/record/kinds.ts'
import type { BayStory } from '#model/record/story.ts'
import { rulesOfProject } from '#model/rules/index.ts'
import { watchBay } from '#model/watch/index.ts'
import { type Measured, median } from './measure.ts'

const bays = 1000
const days = 180
const mostSeconds = 10
const mostMs = 20
const leastRatio = 200
const hourMs = 3_600_000
const dayMs = 24 * hourMs
const laidAt = Date.UTC(2026, 0, 12, 14)
const asOf = laidAt + days * dayMs

/**
 * The alerts of a big job: every bay from nothing, on one core, against one bay after one new entry. Each bay has air,
 * humidity and temperature in the screed every hour for 180 days, and the entries of a bay that was looked after. Making the
 * stories is not counted.
 */
export default async function watchBench(): Promise<Measured[]> {
  const first = storyOf(0)
  const rules = rulesOfProject(first.project.body)
  for (let warm = 0; warm < 30; warm++) watchBay(storyOf(warm), asOf, rules)

  let allMs = 0
  let found = 0
  for (let bay = 0; bay < bays; bay++) {
    const story = storyOf(bay)
    const begin = performance.now()
    found += watchBay(story, asOf, rules).length
    allMs += performance.now() - begin
  }
  if (found === 0) throw new Error('No bay of the benchmark has an alert: it measures nothing.')

  const oneMs: number[] = []
  for (let round = 0; round < 51; round++) {
    const story = storyOf(round)
    const before = watchBay(story, asOf, rules).length
    const more = { ...story, entries: [...story.entries, wetting()] }
    const begin = performance.now()
    const after = watchBay(more, asOf, rules).length
    oneMs.push(performance.now() - begin)
    if (after < before) throw new Error('A new entry took an alert away.')
  }
  const one = median(oneMs)
  const ratio = allMs / one
  return [
    {
      name: `Alerts of ${bays} bays × ${days} days of hourly readings, from nothing`,
      measured: allMs / 1000,
      unit: 's',
      yardstick: null,
      ratio: null,
      goal: `≤ ${mostSeconds} s on one core`,
      met: allMs / 1000 <= mostSeconds,
    },
    {
      name: 'Alerts of its one bay after one new entry',
      measured: one,
      unit: 'ms',
      yardstick: allMs,
      ratio,
      goal: `≤ ${mostMs} ms, all bays ≥ ${leastRatio} times as long`,
      met: one <= mostMs && ratio >= leastRatio,
    },
  ]
}

let minted = 0
function mint<T extends string>() {
  const random = new Uint8Array(10)
  new DataView(random.buffer).setUint32(6, ++minted)
  return uuidV7From<T>(laidAt, random)
}
const [project, floor, zone, person] = [mint<'project'>(), mint<'floor'>(), mint<'zone'>(), mint<'person'>()]

function fact<K extends KindName>(kind: K, subject: string, at: number, body: BodyOf<K>): StoryEntry {
  const id = mint<'entry'>()
  const common = { id, kind, happenedAt: at, recordedAt: at, person, source: 'typed' as const, body }
  const version = { ...common, seq: minted, reason: null, answers: [] }
  const standing = { subject, late: false, withdrawn: false, conflict: false, versions: [version] }
  return { ...common, ...standing } as unknown as StoryEntry
}

const wetting = () => fact('wet-event-noted', 'bay', asOf - dayMs, { what: 'wash-down' })

/** A bay that was looked after, with weather of its own: mild days, a cold night now and then. */
function storyOf(n: number): BayStory {
  const bay = mint<'bay'>()
  const iso = (at: number) => new Date(at).toISOString()
  const note = <K extends KindName>(kind: K, at: number, body: BodyOf<K>) => fact(kind, bay, at, body)
  const start = laidAt - 4 * hourMs
  const entries = [
    note('base-surveyed', start - dayMs, { prepared: 'membrane', dry: true, clean: true, baseC: 9 }),
    note('edge-strip-fitted', start - dayMs, { thicknessMm: 10, complete: true }),
    ...Array.from({ length: 20 }, (_, i) =>
      note('batch-mixed', start + i * 600_000, {
        number: i + 1,
        cementKg: 50,
        dampSandKg: 200 + ((n + i) % 5),
        sandMoisturePercent: 6,
        addedWaterKg: 10,
        mixer: 'forced action',
        mixingMinutes: 4,
        squeeze: 'holds',
        mixC: 13,
        laidAt: iso(start + i * 600_000 + 900_000),
      }),
    ),
    note('bay-finished', laidAt, { startedAt: iso(start), finish: 'float' }),
    note('thickness-measured', laidAt, { points: [{ mm: 68 }, { mm: 71 }, { mm: 70 + (n % 4) }] }),
    note('sheet-on', laidAt + hourMs, { material: 'polyethylene', coveredPercent: 100, edgesHeld: true }),
    note('sheet-off', laidAt + 8 * dayMs, { why: 'end of curing' }),
    ...Array.from({ length: 14 }, (_, i) =>
      note('air-read', laidAt + (i + 0.7) * (dayMs / 2), { airC: 14 + (i % 3), rhPercent: 60 + i }),
    ),
    ...[30, 60, 90, 120, 150].map((day, i) =>
      note('moisture-read', laidAt + day * dayMs, {
        method: 'hygrometer box',
        point: 'B1',
        setAt: iso(laidAt + (day - 4) * dayMs),
        readings: [
          { at: iso(laidAt + (day - 1) * dayMs), rhPercent: 92 - 3 * i },
          { at: iso(laidAt + day * dayMs), rhPercent: 91.8 - 3 * i },
        ],
        sealOk: true,
        roomC: 18,
        floorC: 17,
      }),
    ),
  ].sort((a, b) => a.happenedAt - b.happenedAt)

  const logger = note('logger-imported', start, loggerBody(start))
  const hours = days * 24
  const at = Array.from({ length: hours }, (_, i) => start + i * hourMs)
  const day = (i: number) => Math.sin(((i - 8) * Math.PI) / 12)
  const cold = (i: number) => (Math.floor(i / 24) % (9 + (n % 5)) === 3 ? -7 : 0)
  const values: Partial<Record<SeriesQuantity, number[]>> = {
    airC: at.map((_, i) => 14 + 4 * day(i) + cold(i) + (((n * 7 + i * 13) % 17) - 8) / 10),
    rhPercent: at.map((_, i) => 58 - 8 * day(i) + (((n * 5 + i * 11) % 23) - 11) / 4),
    screedC: at.map((_, i) => 14 + 2 * day(i - 3) + cold(i) / 2 + (((n * 3 + i * 7) % 13) - 6) / 10),
  }
  return {
    storyVersion: 1,
    timeZone: 'Europe/London',
    project: {
      id: project,
      body: { name: 'Bench', timeZone: 'Europe/London', currency: 'GBP', ruleSet: 'british' },
    },
    floor: { id: floor, body: { name: 'Ground', level: 0, base: 'ground slab' } },
    zone: {
      id: zone,
      body: {
        floor,
        name: 'North',
        loading: 'light',
        soundness: 'C',
        regularity: 'SR2',
        heated: false,
        covering: 'vinyl',
        moistureMethod: 'hygrometer box',
      },
    },
    bay: {
      id: bay,
      body: {
        zone,
        name: `N${n}`,
        outline: [
          { x: 0, y: 0 },
          { x: 6, y: 0 },
          { x: 6, y: 5 },
          { x: 0, y: 5 },
        ],
        screed: 'cement-sand',
        construction: 'floating',
        designThicknessMm: 70,
      },
    },
    entries: [...entries, logger].sort((a, b) => a.happenedAt - b.happenedAt),
    series: Object.entries(values).map(([quantity, value], i) => ({
      series: i + 1,
      entry: logger.id,
      quantity: quantity as SeriesQuantity,
      madeBy: null,
      at,
      value,
    })),
    neighbours: [],
  }
}

function loggerBody(start: number): BodyOf<'logger-imported'> {
  const body = {
    fileName: 'logger.csv',
    sha256: '0'.repeat(64),
    bytes: 1,
    rows: days * 24,
    refused: 0,
    firstAt: new Date(start).toISOString(),
    lastAt: new Date(asOf).toISOString(),
    readAs: 'made for the benchmark',
    columns: [],
    madeBy: 'Made for the benchmark, not measured.',
  }
  return kinds['logger-imported'].body.parse(body)
}
