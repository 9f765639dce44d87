import type { BodyOf, KindName } from '#model/record/kinds.ts'
import type { MoistureMethod } from '#model/record/words.ts'
import type { DraftValue, DraftValues } from './draft.ts'

/**
 * What the form of a kind knows beyond its fields: the order in which a person on site thinks. The fields themselves,
 * their units, ranges and words come from `model/record`.
 */
export interface Asking<Name extends string = string> {
  /** `ask`: its own box "When". `now`: the moment of saving. A field name: that instant is when it happened. */
  when: 'ask' | 'now' | Name
  whenLabel?: string
  /** The instant of the happening that the body itself holds, when it does. */
  happens?: (body: Readonly<Record<string, unknown>>) => string | undefined
  /** False while the answers so far say that the body will hold it; then "When" is not asked. */
  asksWhen?: (values: DraftValues) => boolean
  /** Optional fields that stand among the first ones, not under "More". */
  first?: readonly Name[]
  /** Set by drawing on the plan, not by typing. */
  hidden?: readonly Name[]
  /** Carried over from the last entry of this kind: what rarely changes, never what is measured. */
  carried?: readonly Name[]
  start?: Partial<Record<Name, DraftValue>>
  /** One-touch values for a number. */
  quick?: Partial<Record<Name, readonly number[]>>
  /** A field that only counts for some answers. */
  shown?: (name: Name, values: DraftValues) => boolean
}

const always = ['method', 'point', 'wettestPoint', 'instrument', 'note']
const before = [
  'heatingOffSince',
  'driersOffSince',
  'neverHeated',
  'roomC',
  'roomRhPercent',
  'floorC',
] as const
const sample = ['sampleG', 'depthFromMm', 'depthToMm'] as const
const box = ['setAt', 'readings', 'sealOk', 'probeSoakMin', 'conditionedSince'] as const
const byMethod: Record<MoistureMethod, readonly (keyof BodyOf<'moisture-read'> & string)[]> = {
  'hygrometer box': [...box, ...before],
  probe: [...box, 'holeDepthMm', 'pipesLocated', ...before],
  'crushed sample': ['readings', 'probeSoakMin', ...sample, ...before],
  carbide: ['cmPercent', 'pressureBar', ...sample, 'pipesLocated', ...before],
  'oven dry': ['wetG', 'dryG', 'tareG', 'ovenC', 'ovenHours', ...sample, 'pipesLocated'],
  'calcium chloride': ['setAt', 'groundAt', 'conditionedSince', 'gainG', 'exposedAreaM2', ...before],
  'electrical survey': ['meterReading', 'meterScale'],
}
const moistureFields = ['wettestPoint', 'instrument', ...new Set(Object.values(byMethod).flat())] as const

/** One kind of entry serves seven methods; the form shows the boxes of the chosen one. */
function moistureFieldCounts(name: string, { method }: DraftValues): boolean {
  if (always.includes(name)) return true
  return (
    typeof method === 'string' && (byMethod[method as MoistureMethod] as readonly string[]).includes(name)
  )
}

/** A box or a sleeve is read several times; the test happened at its last reading. */
function lastReadingAt(body: Readonly<Record<string, unknown>>): string | undefined {
  const readings = body.readings as { at?: string }[] | undefined
  return readings?.at(-1)?.at
}

type AskingOf<K extends KindName> = Asking<keyof BodyOf<K> & string>
const plan = ['x', 'y'] as const
const photoItself = [
  'fileName',
  'format',
  'widthPx',
  'heightPx',
  'bytes',
  'sha256',
  'originalSha256',
  'gpsKept',
] as const

/** Sizes of a fault: those of a crack, those of weak or dusty ground, those of hollow ground. */
const crackSizes = ['lengthM', 'widthMm', 'cardSlidesIn', 'stepMm'] as const
const weakSizes = ['areaM2', 'weakToMm'] as const
const hollowSizes = ['areaM2', 'hollowM2', 'rocks', 'stepMm'] as const
const sizes = [...new Set([...crackSizes, ...weakSizes, ...hollowSizes])]
const crackLike = ['S04', 'S05', 'S06', 'S07', 'S08', 'S09', 'S15', 'S16']
const hollowLike = ['S10', 'S11', 'S15']

/** A crack has no depth of weakness, and dust has no width: only the sizes of what was seen are asked for. */
function sizeCounts(name: string, { symptom, further }: DraftValues): boolean {
  if (!(sizes as readonly string[]).includes(name)) return true
  const seen = [symptom, ...(Array.isArray(further) ? further.map((one) => one.symptom) : [])]
  if (seen.every((code) => code === undefined || code === '')) return true
  const asks = (code: unknown) => {
    const crack = crackLike.includes(String(code))
    const hollow = hollowLike.includes(String(code))
    return [
      ...(crack ? crackSizes : []),
      ...(hollow ? hollowSizes : []),
      ...(crack && code !== 'S04' ? [] : weakSizes),
    ] as string[]
  }
  return seen.some((code) => asks(code).includes(name))
}

const asked: { [K in KindName]?: AskingOf<K> } = {
  'project-opened': {
    when: 'now',
    first: ['client', 'address'],
    hidden: ['choices', 'overrides', 'holdPoints'],
  },
  'floor-added': { when: 'now', start: { level: '0' }, hidden: ['baseJoints'] },
  'zone-added': { when: 'now', first: ['limitByContract', 'limitReason'] },
  'bay-planned': { when: 'now', first: ['minThicknessMm', 'plannedFor'] },
  'person-added': { when: 'now', first: ['firm'] },
  'instrument-added': { when: 'now', first: ['certificate', 'certificateOn', 'dueOn'] },
  'base-surveyed': { when: 'ask', first: ['baseC', 'highSpotMm'] },
  'edge-strip-fitted': {
    when: 'ask',
    shown: (name, { complete }) => name !== 'missingAt' || complete === false,
  },
  'batch-mixed': {
    when: 'ask',
    whenLabel: 'Water added at',
    first: ['sandMoisturePercent', 'squeeze', 'mixC'],
    hidden: ['fromX', 'fromY', 'toX', 'toY'],
    // Not the water and not the sand's moisture: twenty batches with the same water are a sign that nobody measured.
    carried: ['cementKg', 'cementType', 'dampSandKg', 'mixer'],
  },
  'lift-laid': { when: 'finishedAt', first: ['roughened'], start: { startedAt: undefined } },
  'bay-finished': {
    when: 'ask',
    whenLabel: 'Finished at',
    first: ['crew', 'splashed'],
    carried: ['finish', 'crew'],
    start: { startedAt: undefined },
  },
  'thickness-measured': { when: 'ask' },
  'air-read': {
    when: 'ask',
    first: ['rhPercent', 'surfaceC', 'airSpeedMs', 'openings'],
    carried: ['place', 'instrument'],
  },
  'screed-temperature-read': {
    when: 'ask',
    first: ['position'],
    carried: ['position', 'depthMm', 'instrument'],
  },
  'sheet-on': {
    when: 'ask',
    carried: ['material', 'coveredPercent', 'edgesHeld', 'lapMm'],
    quick: { coveredPercent: [100, 95, 80] },
  },
  'traffic-seen': { when: 'ask', first: ['massKg', 'contact'], hidden: plan },
  'heating-noted': {
    when: 'ask',
    first: ['flowC', 'returnC', 'surfaceC', 'pressureBar'],
    carried: ['circuit'],
    shown: (name, { state }) => !['flowC', 'returnC'].includes(name) || state !== 'off',
  },
  'moisture-read': {
    when: 'ask',
    whenLabel: 'Read at',
    happens: lastReadingAt,
    asksWhen: (values) => !moistureFieldCounts('readings', values),
    first: moistureFields,
    hidden: plan,
    carried: ['method', 'instrument'],
    shown: moistureFieldCounts,
  },
  'soundness-tested': { when: 'ask', start: { blows: '4' }, carried: ['weightKg', 'instrument'] },
  'surface-tested': {
    when: 'ask',
    first: ['grade', 'pullOffMPa', 'failurePlane'],
    shown: (name, { method }) =>
      ['pullOffMPa', 'failurePlane'].includes(name)
        ? method === 'pull-off'
        : name !== 'grade' || method !== 'pull-off',
  },
  'regularity-checked': { when: 'ask', start: { straightedgeM: '2' } },
  'defect-found': {
    when: 'ask',
    whenLabel: 'Looked at',
    first: [...sizes, 'growing', 'structuralSigns', 'note'],
    hidden: [...plan, 'shape', 'outline'],
    shown: (name, values) => values[name] !== undefined || sizeCounts(name, values),
  },
  'crack-gauged': { when: 'ask', whenLabel: 'Read at', first: ['surfaceC'], carried: ['place'] },
  'defect-measured': {
    when: 'ask',
    whenLabel: 'Measured at',
    first: [
      'lengthM',
      'areaM2',
      'widthMm',
      'weakToMm',
      'hollowM2',
      'stepMm',
      'rocks',
      'boundaryProven',
      'pullOffMPa',
      'pipesLocated',
      'trialPassed',
    ],
  },
  'fault-evidence-noted': {
    when: 'ask',
    whenLabel: 'Looked at',
    first: ['lookedBy', 'place', 'note'],
    hidden: plan,
  },
  'repair-done': {
    when: 'ask',
    whenLabel: 'Finished at',
    first: ['areaM2', 'lengthM', 'depthMm', 'product', 'sealsSurface'],
    hidden: ['outline'],
  },
  'repair-retested': { when: 'ask', whenLabel: 'Tested at', first: ['note'] },
  'photo-added': {
    when: 'ask',
    whenLabel: 'Taken at',
    first: ['caption'],
    // What the photo is stays; it is turned and measured where it is seen.
    hidden: [...photoItself, 'of', 'takenAt', 'quarterTurns', 'scale'],
  },
  'photo-marked': { when: 'now', hidden: ['photo', 'lengthMm', 'fromX', 'fromY', 'toX', 'toY'] },
  'weather-forecast-noted': { when: 'now', first: ['rhPercent', 'windMs'], start: { until: undefined } },
}

export function askingOf(kind: KindName): Asking {
  return (asked[kind] as Asking | undefined) ?? { when: 'ask' }
}
