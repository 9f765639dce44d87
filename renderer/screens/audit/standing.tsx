import type { RequirementState } from '#model/audit/index.ts'
import { words } from '../../app/words.ts'
import { Mark, type Tone } from '../../parts/mark.tsx'
import type { Shape } from '../../parts/mark-shapes.tsx'

export type Standing = keyof typeof words.audit.states

/** How a requirement stands, told apart as a reader wants it: what waits for its time is no gap yet. */
export function standingOf(answer: {
  state: RequirementState
  notYet: boolean
  answered: unknown
}): Standing {
  const { state, notYet, answered } = answer
  if (state === 'met' || state === 'does not apply') return state
  if (answered !== null && answered !== false) return 'answered'
  return notYet ? 'not yet' : state
}

const marks: Record<Exclude<Standing, 'does not apply'>, { shape: Shape; tone: Tone }> = {
  met: { shape: 'discTick', tone: 'good' },
  'not met': { shape: 'squareCross', tone: 'stop' },
  'not known': { shape: 'diamondAsk', tone: 'unproven' },
  'not yet': { shape: 'emptyRing', tone: 'plain' },
  answered: { shape: 'ringDot', tone: 'watch' },
}

interface StandingMarkProps {
  standing: Standing
  size?: number
  bare?: boolean
}

/** The mark of a standing with its word. What does not apply is a dash: nothing to look at. */
export function StandingMark({ standing, size = 20, bare = false }: StandingMarkProps) {
  const word = words.audit.states[standing]
  if (standing === 'does not apply') {
    return bare ? <span aria-hidden>–</span> : <span>– {word}</span>
  }
  return <Mark {...marks[standing]} word={bare ? '' : word} size={size} bare={bare} />
}
