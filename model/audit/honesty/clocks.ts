import type { BayStory } from '#model/record/story.ts'
import { hourMs, minuteMs } from '#model/time.ts'
import { shows } from '#model/watch/rule.ts'
import { mostEvidence, ours, type Question } from './question.ts'

/** People say "half past" and write at twenty-nine minutes past. */
const slackMs = 5 * minuteMs

/** Asks about facts that were written down before they are said to have happened. */
export function beforeItHappened(story: BayStory): Question[] {
  const early = story.entries
    .filter(({ withdrawn, subject }) => !withdrawn && (subject === story.bay.id || subject === story.zone.id))
    .flatMap((entry) => {
      const holds = entry.versions.findLast(({ kind }) => kind !== 'entry-withdrawn')
      return holds !== undefined && holds.happenedAt - holds.recordedAt > slackMs ? [{ entry, holds }] : []
    })
  if (early.length === 0) return []
  return [
    {
      id: `before it happened:${story.bay.id}`,
      rule: 'before it happened',
      asks: `${early.length} ${early.length === 1 ? 'fact was' : 'facts were'} written down before they happened, as the record says. Which of the two times is right?`,
      innocent: 'The clock of the machine was slow when it was written.',
      bays: [story.bay.id],
      evidence: early
        .slice(0, mostEvidence)
        .map(({ entry, holds }) =>
          shows(
            entry.id,
            'Written too early by',
            (holds.happenedAt - holds.recordedAt) / minuteMs,
            'min',
            holds.happenedAt,
          ),
        ),
      ...ours,
    },
  ]
}

/** Two entries of one machine, one after the other, of which the later carries the earlier time. */
export interface ClockJump {
  device: string
  entry: string
  subject: string
  /** When the machine said that it wrote the one before, and this one [epoch ms]. */
  before: number
  at: number
}

/** A clock that a network sets right steps back by seconds. */
const jumpMs = 2 * minuteMs

/** Asks about machines whose clock went back between two entries; all times written around it are in doubt. */
export function clockWentBack(jumps: readonly ClockJump[], bays: ReadonlySet<string>): Question[] {
  return jumps
    .filter(({ before, at }) => before - at > jumpMs)
    .map(({ device, entry, subject, before, at }) => ({
      id: `clock went back:${entry}`,
      rule: 'clock went back' as const,
      asks: 'The clock of the machine went back between two entries. From when on was it wrong?',
      innocent: 'Somebody set the clock right, or a flat battery had lost it.',
      bays: bays.has(subject) ? [subject] : [],
      evidence: [
        shows(entry, 'Went back by', (before - at) / minuteMs, 'min', at),
        shows(null, 'Machine', device.slice(0, 8)),
      ],
      ...ours,
    }))
}

/**
 * Asks about logger columns that lack exactly one hour, or hold one twice, where the clock of the site changed: the
 * logger's own clock was then read on the wrong side of the change.
 */
export function acrossClockChange(story: BayStory): Question[] {
  return story.series.flatMap(({ at, entry, quantity, madeBy }): Question[] => {
    if (madeBy !== null || at.length < 3) return []
    for (const change of changesBetween(at[0]!, at.at(-1)!, story.timeZone)) {
      const after = at.findIndex((instant) => instant >= change)
      if (after < 1 || after + 1 >= at.length) continue
      // The clock may have been read as of the hour before or after; the hole lies within two hours of the change.
      const around = [after - 1, after, after + 1, after + 2].filter((i) => i >= 2 && i < at.length)
      const steps = at.slice(Math.max(1, after - 24), after + 24).map((instant, i) => {
        const from = Math.max(1, after - 24) + i
        return instant - at[from - 1]!
      })
      const usual = median(steps)
      const hole = around.find(
        (i) => Math.abs(at[i]! - at[i - 1]! - usual - hourMs) < Math.min(usual, hourMs) / 10,
      )
      if (hole === undefined || Math.abs(at[hole - 1]! - change) > 2 * hourMs + usual) continue
      return [
        {
          id: `clock change:${entry}:${quantity}`,
          rule: 'clock change',
          asks: 'This logger lacks exactly one hour where the clock of the site changed. Was its clock set to summer time when it was read in?',
          innocent: 'The logger was stopped for a moment, by chance at that hour.',
          bays: [story.bay.id],
          evidence: [
            shows(entry, 'Gap', (at[hole]! - at[hole - 1]!) / minuteMs, 'min', at[hole - 1]!),
            shows(null, 'Usual step', usual / minuteMs, 'min'),
            shows(null, 'Clock of the site changed', '', '', change),
          ],
          ...ours,
        },
      ]
    }
    return []
  })
}

/** The instants in a span at which the site's clock is put forward or back. */
function changesBetween(from: number, until: number, timeZone: string): number[] {
  const changes: number[] = []
  const dayMs = 24 * hourMs
  let before = offsetAt(from, timeZone)
  for (let day = from + dayMs; day < until + dayMs; day += dayMs) {
    const at = Math.min(day, until)
    const offset = offsetAt(at, timeZone)
    if (offset !== before) {
      let low = at - dayMs
      let high = at
      while (high - low > minuteMs) {
        const middle = Math.floor((low + high) / 2)
        if (offsetAt(middle, timeZone) === before) low = middle
        else high = middle
      }
      changes.push(Math.round(high / minuteMs) * minuteMs)
      before = offset
    }
  }
  return changes
}

const clocks = new Map<string, Intl.DateTimeFormat>()

/** [min] ahead of UTC. */
function offsetAt(at: number, timeZone: string): number {
  const clock =
    clocks.get(timeZone) ??
    new Intl.DateTimeFormat('en-GB', { timeZone, timeZoneName: 'longOffset', hour: '2-digit' })
  clocks.set(timeZone, clock)
  const name = clock.formatToParts(at).find(({ type }) => type === 'timeZoneName')?.value ?? 'GMT'
  const [, sign, hours, minutes] = /GMT([+-])(\d\d):(\d\d)/.exec(name) ?? []
  if (sign === undefined) return 0
  return (sign === '-' ? -1 : 1) * (Number(hours) * 60 + Number(minutes))
}

function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b)
  return sorted[Math.floor(sorted.length / 2)] ?? 0
}
