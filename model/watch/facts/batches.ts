import type { StoryEntryOf } from '#model/record/entry.ts'
import { type BayStory, entriesOf } from '#model/record/story.ts'
import type { EffectiveRules } from '#model/rules/index.ts'
import { type AirLog, airTrace, nearestReading } from './air.ts'
import { hourMs, instantBy, minuteMs } from './time.ts'

/** How long a batch may be worked, and what says so. */
export interface WorkingLife {
  minutes: number
  because: string
}

export interface Batch {
  entry: StoryEntryOf<'batch-mixed'>
  number: number
  mixedAt: number
  /** Null while it is not laid, or nobody wrote when. */
  laidAt: number | null
  life: WorkingLife
}

/** A load of ready-mixed screed, which has a working life of its own. */
export interface Load {
  entry: StoryEntryOf<'material-delivered'>
  batchedAt: number
  life: WorkingLife | null
}

/** Returns the batches in order of mixing, each with its working life at the temperature of the day. */
export function batchesOf(story: BayStory, log: AirLog, rules: EffectiveRules, asOf: number): Batch[] {
  const air = airTrace(log, 'airC')
  return entriesOf(story, 'batch-mixed').map((entry) => {
    const mixedAt = entry.happenedAt
    const tempC = entry.body.mixC ?? nearestReading(air, mixedAt, 3 * hourMs)?.value ?? null
    return {
      entry,
      number: entry.body.number,
      mixedAt,
      laidAt: instantBy(entry.body.laidAt, asOf),
      life: workingLife(tempC, rules),
    }
  })
}

/** Returns the loads of ready-mixed screed that say when they were batched. */
export function loadsOf(story: BayStory, asOf: number): Load[] {
  return entriesOf(story, 'material-delivered').flatMap((entry) => {
    const batchedAt = instantBy(entry.body.batchedAt, asOf)
    if (entry.body.material !== 'ready-mixed screed' || batchedAt === null) return []
    const minutes = entry.body.workingLifeMin
    const life = minutes === undefined ? null : { minutes, because: `${minutes} min by the delivery ticket` }
    return [{ entry, batchedAt, life }]
  })
}

/**
 * Returns the working life of a batch whose maker gives none: that at 20 °C, shortened to its hot share at 25 °C and above,
 * stretched to its cold share at 10 °C and below, straight lines between. A temperature that nobody read gives no longer
 * life than 20 °C does.
 */
export function workingLife(tempC: number | null, rules: EffectiveRules): WorkingLife {
  const minutes = rules.limits['mix.workingLifeMinutes'].value
  const hot = rules.limits['mix.workingLifeHotFactor'].value
  const cold = rules.limits['mix.workingLifeColdFactor'].value
  if (tempC === null) {
    return { minutes, because: `${minutes} min, as at 20 °C: no mix or air temperature was read` }
  }
  const share = between(tempC, [10, cold], [20, 1], [25, hot])
  const shown = Math.round(minutes * share)
  return {
    minutes: minutes * share,
    because: `${shown} min at ${tempC} °C, by the rule for mixes without a maker’s figure`,
  }
}

type Knot = readonly [tempC: number, share: number]

function between(tempC: number, cold: Knot, mild: Knot, hot: Knot): number {
  const line = ([x0, y0]: Knot, [x1, y1]: Knot) => y0 + ((y1 - y0) * (tempC - x0)) / (x1 - x0)
  if (tempC <= cold[0]) return cold[1]
  if (tempC >= hot[0]) return hot[1]
  return tempC < mild[0] ? line(cold, mild) : line(mild, hot)
}

export const minutesBetween = (from: number, until: number): number => (until - from) / minuteMs
