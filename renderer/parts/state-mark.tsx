import type { BayState } from '#model/contract/index.ts'
import type { Condition, ReadyVerdict } from '#model/readiness/verdict.ts'
import { words } from '../app/words.ts'
import { Mark, type Tone } from './mark.tsx'
import type { Shape } from './mark-shapes.tsx'

const states: Record<BayState['word'], { shape: Shape; tone: Tone }> = {
  planned: { shape: 'dashedSquare', tone: 'plain' },
  curing: { shape: 'sheetOver', tone: 'watch' },
  drying: { shape: 'risingVapour', tone: 'accent' },
  ready: { shape: 'discTick', tone: 'good' },
  'not proven': { shape: 'diamondAsk', tone: 'unproven' },
  covered: { shape: 'layers', tone: 'plain' },
  stopped: { shape: 'octagonBar', tone: 'stop' },
}

interface Size {
  size?: number
  bare?: boolean
}

/** The state of a bay: its mark and its word. */
export function StateMark({ state, ...size }: { state: BayState['word'] } & Size) {
  return <Mark {...states[state]} word={words.states[state]} {...size} />
}

const verdicts: Record<ReadyVerdict, { shape: Shape; tone: Tone }> = {
  ready: { shape: 'discTick', tone: 'good' },
  'not ready': { shape: 'squareCross', tone: 'stop' },
  'not proven': { shape: 'diamondAsk', tone: 'unproven' },
}

/** READY, NOT READY or NOT PROVEN. */
export function VerdictMark({ verdict, ...size }: { verdict: ReadyVerdict } & Size) {
  return <Mark {...verdicts[verdict]} word={words.verdicts[verdict]} {...size} />
}

const conditions: Record<Condition['state'], { shape: Shape; tone: Tone }> = {
  met: { shape: 'discTick', tone: 'good' },
  'not met': { shape: 'squareCross', tone: 'stop' },
  unknown: { shape: 'diamondAsk', tone: 'unproven' },
}

/** One condition of a verdict. Unknown never looks like met. */
export function ConditionMark({ state, ...size }: { state: Condition['state'] } & Size) {
  return <Mark {...conditions[state]} word={words.conditions[state]} {...size} />
}
