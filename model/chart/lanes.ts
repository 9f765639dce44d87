import type { StoryEntry } from '#model/record/entry.ts'
import { kinds } from '#model/record/kinds.ts'
import { holdPoints } from '#model/record/people.ts'
import { type BayStory, entriesOf } from '#model/record/story.ts'
import { moistureMethods, protections, symptoms, trafficClasses } from '#model/record/words.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'

/** The lanes of a bay's life, from top to bottom. */
export const laneNames = [
  'laying',
  'sheets',
  'protection',
  'traffic',
  'heating',
  'wetting',
  'tests',
  'defects',
  'decisions',
] as const
export type LaneName = (typeof laneNames)[number]

/** Something that happened at an instant or lasted for a while. */
export interface LaneItem {
  entry: string
  from: number
  /** The same as `from` for an instant; null while it lasts. */
  until: number | null
  label: string
  /** A lasting thing is drawn as a bar, an instant as a mark. */
  drawn: 'bar' | 'mark'
  /** Weak: does not count as it should, such as a sheet that leaves part of the bay open. */
  weak: boolean
}

export interface Lane {
  name: LaneName
  /** Items that overlap in time stand in rows below each other. */
  rows: LaneItem[][]
}

/** What the labels say; the words are the screen's. */
export interface LaneWords {
  lift: (number: number, mm: string) => string
  batch: (number: number) => string
  finish: string
  covered: string
  partly: (percent: string) => string
  noTraffic: string
  heatingOff: string
  heatingOn: (flow: string) => string
  heatingRun: string
  surveyed: string
  planned: string
}

/** Returns everything that happened to a bay, sorted into lanes; a lane in which nothing happened is left out. */
export function lanesOf(facts: BayFacts, words: LaneWords): Lane[] {
  const items: Record<LaneName, LaneItem[]> = {
    laying: layingOf(facts.story, words),
    sheets: facts.cover.map(({ from, until, on, whole }) =>
      bar(on.id, from, until, whole ? words.covered : words.partly(String(on.body.coveredPercent)), !whole),
    ),
    protection: [
      ...facts.protections.spans.map(({ what, from, until, on }) =>
        bar(on.id, from, until, protections[what]),
      ),
      ...facts.protections.planned.map((entry) =>
        mark(entry, `${protections[entry.body.what]} (${words.planned})`, true),
      ),
    ],
    traffic: [
      ...entriesOf(facts.story, 'traffic-seen').map((entry) =>
        mark(entry, trafficClasses[entry.body.traffic]),
      ),
      ...entriesOf(facts.story, 'no-traffic-confirmed').map((entry) => mark(entry, words.noTraffic, true)),
    ],
    heating: heatingOf(facts, words),
    wetting: entriesOf(facts.story, 'wet-event-noted').map((entry) => mark(entry, String(entry.body.what))),
    tests: testsOf(facts.story),
    defects: defectsOf(facts.story),
    decisions: decisionsOf(facts.story),
  }
  return laneNames
    .map((name) => ({ name, rows: inRows(items[name].toSorted((a, b) => a.from - b.from)) }))
    .filter(({ rows }) => rows.length > 0)
}

/** Puts items that overlap in time into rows of their own; items come in order of time. */
export function inRows(items: readonly LaneItem[]): LaneItem[][] {
  const rows: LaneItem[][] = []
  for (const item of items) {
    const free = rows.find((row) => {
      const last = row.at(-1)!
      return last.drawn === 'mark' || (last.until !== null && last.until <= item.from)
    })
    if (free === undefined) rows.push([item])
    else free.push(item)
  }
  return rows
}

function layingOf(story: BayStory, words: LaneWords): LaneItem[] {
  return [
    ...entriesOf(story, 'base-surveyed').map((entry) => mark(entry, words.surveyed, true)),
    ...entriesOf(story, 'batch-mixed').map((entry) => mark(entry, words.batch(entry.body.number), true)),
    ...entriesOf(story, 'lift-laid').map(({ id, body }) =>
      bar(
        id,
        Date.parse(body.startedAt),
        Date.parse(body.finishedAt),
        words.lift(body.lift, String(body.thicknessMm)),
      ),
    ),
    ...entriesOf(story, 'bay-finished').map((entry) => mark(entry, words.finish)),
    ...[...entriesOf(story, 'edge-strip-fitted'), ...entriesOf(story, 'joint-formed')].map((entry) =>
      mark(entry, kinds[entry.kind].title, true),
    ),
  ]
}

/** Heating runs from one note to the next; between two notes with the same flow it is one run. */
function heatingOf({ heating }: BayFacts, words: LaneWords): LaneItem[] {
  const runs: LaneItem[] = []
  for (const [i, point] of heating.entries()) {
    const until = heating[i + 1]?.at ?? null
    const label =
      point.state === 'off'
        ? words.heatingOff
        : point.flowC === null
          ? words.heatingRun
          : words.heatingOn(String(Math.round(point.flowC)))
    const last = runs.at(-1)
    if (last !== undefined && last.label === label && last.until === point.at) last.until = until
    else runs.push(bar(point.entry, point.at, until, label, point.state === 'off'))
  }
  return runs
}

function testsOf(story: BayStory): LaneItem[] {
  return [
    ...entriesOf(story, 'moisture-read').map((entry) => {
      const { method, point, setAt } = entry.body
      const label = `${moistureMethods[method]}, ${point}`
      // A box stands for days; a sleeve is drilled once and read at instants.
      return setAt === undefined || method !== 'hygrometer box'
        ? mark(entry, label)
        : bar(entry.id, Date.parse(setAt), entry.happenedAt, label)
    }),
    ...(
      [
        'thickness-measured',
        'soundness-tested',
        'surface-tested',
        'regularity-checked',
        'level-checked',
        'pipes-pressure-tested',
      ] as const
    ).flatMap((kind) => entriesOf(story, kind).map((entry) => mark(entry as StoryEntry, kinds[kind].title))),
  ]
}

function defectsOf(story: BayStory): LaneItem[] {
  const closed = entriesOf(story, 'defect-closed')
  return entriesOf(story, 'defect-found').map(({ id, happenedAt, body }) => {
    const end = closed.find((one) => String(one.body.defect) === String(id))
    const words: Readonly<Record<string, string>> = symptoms
    return bar(id, happenedAt, end?.happenedAt ?? null, words[body.symptom] ?? body.symptom)
  })
}

function decisionsOf(story: BayStory): LaneItem[] {
  return [
    ...entriesOf(story, 'hold-point-released').map((entry) => mark(entry, holdPoints[entry.body.point])),
    ...(['nonconformance-raised', 'nonconformance-closed', 'bay-decided', 'covering-laid'] as const).flatMap(
      (kind) => entriesOf(story, kind).map((entry) => mark(entry as StoryEntry, kinds[kind].title)),
    ),
  ]
}

function bar(entry: string, from: number, until: number | null, label: string, weak = false): LaneItem {
  return { entry, from, until, label, drawn: 'bar', weak }
}

function mark(
  { id, happenedAt }: Pick<StoryEntry, 'id' | 'happenedAt'>,
  label: string,
  weak = false,
): LaneItem {
  return { entry: id, from: happenedAt, until: happenedAt, label, drawn: 'mark', weak }
}
