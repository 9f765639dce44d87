import { hourMs } from '#model/time.ts'
import { requireInstant } from '../../errors.ts'
import type { Corner } from '../../movement/polygon.ts'
import type { BodyOf } from '../../record/kinds.ts'
import type { EffectiveRules } from '../../rules/effective.ts'
import type { Construction, Screed } from '../../rules/words.ts'

type Recorded = BodyOf<'moisture-read'>

/** A moisture test as it is recorded. What is left out is unknown and never read as good. */
export type MoistureTest = Pick<Recorded, 'method'> &
  Partial<Omit<Recorded, 'method'>> & {
    /** When the (last) reading was made: ISO instant with offset, or epoch milliseconds. */
    at: string | number
  }

/** What the record says of the bay, the instrument and the rules on the day of the test. */
export interface TestContext {
  rules: EffectiveRules
  screed: Screed
  construction: Construction
  heated: boolean
  thicknessMm?: number | null
  /** Faces that dry; 1 unless said. */
  faces?: 1 | 2
  finish?: 'float' | 'steel' | 'power' | 'dappled' | null
  /** The instrument as known on the day of the test; null or absent when the record does not say. */
  instrument?: {
    /** Last day on which its certificate holds, such as 2027-03-01. */
    certificateDueOn?: string | null
    lastCheck?: { at: string | number; foundPercent?: number | null; passed: boolean } | null
  } | null
  /** Outline of the bay, to tell whether the point lies in it [m]. */
  outlineM?: readonly Corner[] | null
  /** True when resin or a curing compound seals the surface; null when a repair may have and nobody wrote down where. */
  surfaceSealed?: boolean | null
  /** How much the room temperature moved in the last 48 h, when measured [K]. */
  roomMovedK?: number | null
}

/** Hours from one instant to another; null when either is unknown. */
export function hoursBetween(
  from: string | number | null | undefined,
  until: string | number | null | undefined,
): number | null {
  if (from === undefined || from === null || until === undefined || until === null) return null
  return (requireInstant('until', until) - requireInstant('from', from)) / hourMs
}
