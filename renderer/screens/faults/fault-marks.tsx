import type { FaultState } from '#model/contract/faults.ts'
import type { RepairOption } from '#model/faults/repair/shapes.ts'
import type { Band } from '#model/faults/score.ts'
import type { Movement } from '#model/faults/shapes.ts'
import { faultsWords } from '../../app/words/faults.ts'
import { Mark, type Tone } from '../../parts/mark.tsx'
import type { Shape } from '../../parts/mark-shapes.tsx'

interface Size {
  size?: number
  bare?: boolean
}
type Look = { shape: Shape; tone: Tone }

const states: Record<FaultState, Look> = {
  open: { shape: 'trianglePoint', tone: 'act' },
  'cause named': { shape: 'ringDot', tone: 'watch' },
  repaired: { shape: 'layers', tone: 'accent' },
  're-test failed': { shape: 'squareCross', tone: 'stop' },
  're-tested': { shape: 'discTick', tone: 'good' },
  closed: { shape: 'discTick', tone: 'plain' },
}

/** How far a fault has come. */
export function FaultStateMark({ state, ...size }: { state: FaultState } & Size) {
  return <Mark {...states[state]} word={faultsWords.states[state]} {...size} />
}

const movements: Record<Movement['verdict'], Look> = {
  live: { shape: 'octagonBar', tone: 'stop' },
  dormant: { shape: 'emptyRing', tone: 'plain' },
  'not known': { shape: 'diamondAsk', tone: 'unproven' },
}

/** Whether a crack moves. Not gauged is not dormant. */
export function MovementMark({ verdict, ...size }: { verdict: Movement['verdict'] } & Size) {
  return <Mark {...movements[verdict]} word={faultsWords.movements[verdict]} {...size} />
}

const bands: Record<Band, Look> = {
  supported: { shape: 'octagonBar', tone: 'accent' },
  possible: { shape: 'ringDot', tone: 'watch' },
  unlikely: { shape: 'emptyRing', tone: 'plain' },
  refuted: { shape: 'squareCross', tone: 'plain' },
}

/** How a cause stands. What nobody examined is a question, whatever its score. */
export function BandMark({ band, hollow, ...size }: { band: Band; hollow: boolean } & Size) {
  const look: Look = hollow ? { shape: 'diamondAsk', tone: 'unproven' } : bands[band]
  return <Mark {...look} word={bandWord(band, hollow)} {...size} />
}

/** A cause that nobody examined is not refuted: nothing points at it. */
export function bandWord(band: Band, hollow: boolean): string {
  return hollow && band === 'refuted' ? faultsWords.notPointedAt : faultsWords.bands[band]
}

const verdicts: Record<RepairOption['verdict'], Look> = {
  allowed: { shape: 'discTick', tone: 'good' },
  excluded: { shape: 'squareCross', tone: 'stop' },
  'measure first': { shape: 'diamondAsk', tone: 'unproven' },
}

/** Whether a repair may be done. */
export function OptionMark({ verdict, ...size }: { verdict: RepairOption['verdict'] } & Size) {
  return <Mark {...verdicts[verdict]} word={faultsWords.verdicts[verdict]} {...size} />
}
