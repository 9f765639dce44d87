import { hourMs } from '#model/time.ts'
import type { HeatingLevel } from './levels.ts'

/** A stretch of the log: the flow temperature stands until the next reading. */
export interface Stretch {
  from: number
  until: number
  /** Null while the heating is off. */
  flowC: number | null
  /** False when the next reading came too late to say that it stood. */
  known: boolean
}

export interface FollowedStep {
  step: string
  flowC: number
  neededHours: number
  /** Hours that the log shows. */
  heldHours: number
  from: number | null
  until: number | null
  state: 'kept' | 'short' | 'missing' | 'not known'
}

/**
 * Follows the levels of a plan through a log, in order; a level is missing when a later one comes before it. Hours off the
 * level are not counted; more of them in a row than the slack end it.
 */
export function followLevels(
  levels: readonly HeatingLevel[],
  stretches: readonly Stretch[],
  { toleranceK, slackHours }: { toleranceK: number; slackHours: number },
): FollowedStep[] {
  const fits = (level: HeatingLevel, { flowC }: Stretch) => {
    if (level.cooling) return flowC === null || flowC < level.flowC
    return flowC !== null && Math.abs(flowC - level.flowC) <= toleranceK
  }
  let next = 0
  return levels.map((level, i) => {
    const neededHours = level.days * 24
    const later = levels.slice(i + 1)
    let start = next
    while (start < stretches.length && !fits(level, stretches[start]!)) {
      if (later.some((other) => fits(other, stretches[start]!))) break
      start++
    }
    const first = stretches[start]
    const step = { step: level.name, flowC: level.flowC, neededHours }
    if (first === undefined || !fits(level, first)) {
      return {
        ...step,
        heldHours: 0,
        from: null,
        until: null,
        state: gapBetween(stretches, next, start) ? 'not known' : 'missing',
      }
    }
    let end = start
    let heldHours = 0
    let unknown = false
    let fitUntil = first.from
    for (let k = start; k < stretches.length; k++) {
      const stretch = stretches[k]!
      if (fits(level, stretch)) {
        if (stretch.known) heldHours += hoursOf(stretch)
        else unknown = true
        fitUntil = stretch.until
        end = k + 1
      } else if (stretch.until - fitUntil > slackHours * hourMs) break
    }
    next = end
    const held = heldHours >= neededHours - slackHours
    const state = held ? 'kept' : unknown ? 'not known' : 'short'
    return { ...step, heldHours, from: first.from, until: stretches[end - 1]!.until, state }
  })
}

function hoursOf({ from, until }: Stretch): number {
  return (until - from) / hourMs
}

function gapBetween(stretches: readonly Stretch[], from: number, until: number): boolean {
  return stretches.slice(Math.max(0, from - 1), until + 1).some(({ known }) => !known)
}
