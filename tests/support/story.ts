import { type EntryVersion, lateAfterMs, type Source, type StoryEntry } from '#model/record/entry.ts'
import {
  type BayId,
  type EntryId,
  type FloorId,
  type PersonId,
  type ProjectId,
  uuidV7From,
  type ZoneId,
} from '#model/record/ids.ts'
import type { SeriesQuantity } from '#model/record/index.ts'
import { type BodyOf, type KindName, kinds } from '#model/record/kinds.ts'
import type { BayStory, StorySeries } from '#model/record/story.ts'

type At = string | number
export const instant = (at: At): number => (typeof at === 'number' ? at : Date.parse(at))
export const minute = 60_000
export const hour = 60 * minute
export const day = 24 * hour

interface Setting {
  project?: Partial<BodyOf<'project-opened'>>
  floor?: Partial<BodyOf<'floor-added'>>
  zone?: Partial<BodyOf<'zone-added'>>
  bay?: Partial<BodyOf<'bay-planned'>>
}

interface Noting {
  /** When it was written down; when it happened, if left out. */
  recordedAt?: At
  subject?: string
  person?: PersonId
  source?: Source
}

let minted = 0
/** A fresh id; the counter makes ids unique inside one test file and the same on every run. */
function mint<T extends string>(): string & { readonly __points_at: T } {
  minted++
  const random = new Uint8Array(10)
  new DataView(random.buffer).setUint32(6, minted)
  return uuidV7From<T>(1_700_000_000_000, random)
}

/**
 * Builds a `BayStory` for a test, fact by fact: `storyOf().finished('2026-01-05T14:00Z').sheetOn('2026-01-05T16:00Z')`.
 * Every call returns the builder; `last` is the id of the fact noted last; `build()` gives the story.
 * The bay is 5 m by 4 m, cement-sand, floating, 70 mm, unheated, to receive vinyl, tested by hygrometer box.
 */
export class StoryBuilder {
  readonly bay: BayId = mint<'bay'>()
  readonly zone: ZoneId = mint<'zone'>()
  readonly floor: FloorId = mint<'floor'>()
  readonly project: ProjectId = mint<'project'>()
  readonly person: PersonId = mint<'person'>()
  #entries: StoryEntry[] = []
  #series: StorySeries[] = []
  #neighbours: BayStory['neighbours'] = []
  #setting: Setting
  #last: EntryId | null = null

  constructor(setting: Setting) {
    this.#setting = setting
  }

  get last(): EntryId {
    if (this.#last === null) throw new Error('Nothing was noted yet.')
    return this.#last
  }

  /** Notes any kind of fact. The body is checked like one that is recorded, so that a test cannot use an impossible one. */
  note<K extends KindName>(kind: K, at: At, body: BodyOf<K>, noting: Noting = {}): this {
    const checked = kinds[kind].body.parse(body) as BodyOf<K>
    const happenedAt = instant(at)
    const recordedAt = instant(noting.recordedAt ?? happenedAt)
    const id = mint<'entry'>()
    const about = kinds[kind].about
    const subject =
      noting.subject ??
      { bay: this.bay, zone: this.zone, floor: this.floor, project: this.project }[about as 'bay'] ??
      id
    const version: EntryVersion = {
      id,
      seq: minted,
      kind,
      happenedAt,
      recordedAt,
      person: noting.person ?? this.person,
      source: noting.source ?? 'typed',
      reason: null,
      body: checked as Record<string, unknown>,
      answers: [],
    }
    this.#entries.push({
      id,
      kind,
      subject,
      happenedAt,
      recordedAt,
      person: version.person,
      source: version.source,
      late: recordedAt - happenedAt > lateAfterMs,
      withdrawn: false,
      conflict: false,
      body: checked,
      versions: [version],
    } as unknown as StoryEntry)
    this.#last = id
    return this
  }

  /** Corrects a fact: its whole new body, and when it is now said to have happened. */
  correct<K extends KindName>(id: EntryId, recordedAt: At, body: BodyOf<K>, happenedAt?: At): this {
    const entry = this.#find(id)
    const version: EntryVersion = {
      ...entry.versions.at(-1)!,
      id: mint<'entry'>(),
      happenedAt: happenedAt === undefined ? entry.happenedAt : instant(happenedAt),
      recordedAt: instant(recordedAt),
      reason: 'Misread',
      body: body as Record<string, unknown>,
    }
    entry.versions.push(version)
    Object.assign(entry, { body, happenedAt: version.happenedAt, recordedAt: version.recordedAt })
    return this
  }

  /** Withdraws a fact as entered in error. */
  withdraw(id: EntryId, recordedAt: At): this {
    const entry = this.#find(id)
    entry.versions.push({
      ...entry.versions.at(-1)!,
      id: mint<'entry'>(),
      kind: 'entry-withdrawn',
      recordedAt: instant(recordedAt),
      reason: 'Entered in error',
      body: {},
    })
    entry.withdrawn = true
    return this
  }

  finished(at: At, body: Partial<BodyOf<'bay-finished'>> = {}): this {
    const startedAt = new Date(instant(at) - 3 * hour).toISOString()
    return this.note('bay-finished', at, { startedAt, finish: 'float', ...body })
  }

  lift(number: number, from: At, until: At, body: Partial<BodyOf<'lift-laid'>> = {}): this {
    return this.note('lift-laid', until, {
      lift: number,
      startedAt: new Date(instant(from)).toISOString(),
      finishedAt: new Date(instant(until)).toISOString(),
      thicknessMm: 35,
      compaction: 'tamped',
      ...body,
    })
  }

  /** A batch of 1 : 3.77 with w/c 0.43: 50 kg cement, 200 kg damp sand at 6 %, 10 kg water. */
  batch(at: At, body: Partial<BodyOf<'batch-mixed'>> = {}): this {
    const number = this.#entries.filter(({ kind }) => kind === 'batch-mixed').length + 1
    return this.note('batch-mixed', at, {
      number,
      cementKg: 50,
      dampSandKg: 200,
      sandMoisturePercent: 6,
      addedWaterKg: 10,
      mixer: 'forced action',
      mixingMinutes: 4,
      squeeze: 'holds',
      mixC: 15,
      ...body,
    })
  }

  sheetOn(at: At, body: Partial<BodyOf<'sheet-on'>> = {}): this {
    return this.note('sheet-on', at, {
      material: 'polyethylene',
      coveredPercent: 100,
      edgesHeld: true,
      ...body,
    })
  }

  sheetOff(at: At, why: BodyOf<'sheet-off'>['why'] = 'end of curing'): this {
    return this.note('sheet-off', at, { why })
  }

  air(at: At, body: Partial<BodyOf<'air-read'>>, noting: Noting = {}): this {
    return this.note('air-read', at, { airC: 15, ...body }, noting)
  }

  screedC(at: At, screedC: number, noting: Noting = {}): this {
    return this.note('screed-temperature-read', at, { screedC }, noting)
  }

  traffic(at: At, body: Partial<BodyOf<'traffic-seen'>> = {}): this {
    return this.note('traffic-seen', at, { traffic: 'foot', boards: false, ...body })
  }

  heating(at: At, body: Partial<BodyOf<'heating-noted'>> = {}): this {
    return this.note('heating-noted', at, { state: 'running', flowC: 25, ...body })
  }

  thickness(at: At, ...mm: number[]): this {
    return this.note('thickness-measured', at, { points: mm.map((value) => ({ mm: value })) })
  }

  /** A logger file: one column a quantity, read every `everyMin` minutes from `from` on. */
  logger(
    from: At,
    columns: Partial<Record<SeriesQuantity, number[]>>,
    { everyMin = 60, recordedAt }: { everyMin?: number; recordedAt?: At } = {},
  ): this {
    const start = instant(from)
    const read = Object.entries(columns) as [SeriesQuantity, number[]][]
    const rows = Math.max(...read.map(([, values]) => values.length))
    const lastAt = start + (rows - 1) * everyMin * minute
    const sha = '0'.repeat(64)
    const firstNumber = this.#series.length + 1
    this.note(
      'logger-imported',
      start,
      {
        fileName: 'logger.csv',
        sha256: sha,
        bytes: rows * 20,
        rows,
        refused: 0,
        firstAt: new Date(start).toISOString(),
        lastAt: new Date(lastAt).toISOString(),
        readAs: 'one column a quantity',
        columns: read.map(([quantity, values], i) => ({
          column: quantity,
          quantity,
          series: firstNumber + i,
          readings: values.length,
          readingsSha256: sha,
        })),
      },
      { recordedAt: recordedAt ?? lastAt, source: 'logger' },
    )
    for (const [i, [quantity, value]] of read.entries()) {
      this.#series.push({
        series: firstNumber + i,
        entry: this.last,
        quantity,
        madeBy: null,
        at: value.map((_, row) => start + row * everyMin * minute),
        value,
      })
    }
    return this
  }

  neighbour(body: Partial<BodyOf<'bay-planned'>>): this {
    this.#neighbours.push({ id: mint<'bay'>(), body: this.#bayBody(body) })
    return this
  }

  build(): BayStory {
    const { project, floor, zone } = this.#setting
    return structuredClone({
      storyVersion: 1,
      timeZone: project?.timeZone ?? 'Europe/London',
      project: {
        id: this.project,
        body: {
          name: 'Mill Yard',
          timeZone: 'Europe/London',
          currency: 'GBP',
          ruleSet: 'british',
          // Stories are about one thing each; those about hold points choose them.
          holdPoints: [],
          ...project,
        },
      },
      floor: { id: this.floor, body: { name: 'Ground', level: 0, base: 'ground slab', ...floor } },
      zone: {
        id: this.zone,
        body: {
          floor: this.floor,
          name: 'West',
          loading: 'light',
          soundness: 'C',
          regularity: 'SR2',
          heated: false,
          covering: 'vinyl',
          moistureMethod: 'hygrometer box',
          ...zone,
        },
      },
      bay: { id: this.bay, body: this.#bayBody(this.#setting.bay ?? {}) },
      entries: [...this.#entries].sort((a, b) => a.happenedAt - b.happenedAt),
      series: this.#series,
      neighbours: this.#neighbours,
    } satisfies BayStory)
  }

  #bayBody(body: Partial<BodyOf<'bay-planned'>>): BodyOf<'bay-planned'> {
    return {
      zone: this.zone,
      name: 'B1',
      outline: [
        { x: 0, y: 0 },
        { x: 5, y: 0 },
        { x: 5, y: 4 },
        { x: 0, y: 4 },
      ],
      screed: 'cement-sand',
      construction: 'floating',
      designThicknessMm: 70,
      ...body,
    }
  }

  #find(id: EntryId): StoryEntry {
    const entry = this.#entries.find((each) => each.id === id)
    if (entry === undefined) throw new Error(`There is no fact ${id}.`)
    return entry
  }
}

export function storyOf(setting: Setting = {}): StoryBuilder {
  return new StoryBuilder(setting)
}
