import { type BayStory, entriesOf } from '#model/record/story.ts'
import { hourMs } from '#model/time.ts'
import { siteDayStart } from './time.ts'

export interface HeatingPoint {
  at: number
  state: 'running' | 'off'
  flowC: number | null
  surfaceC: number | null
  circuit: string | null
  entry: string
}

/**
 * Returns the heating of the zone as noted and as logged, oldest first, from `since` on: what a zone did before this bay
 * was laid in it did nothing to the bay.
 */
export function heatingPoints(story: BayStory, since: number): HeatingPoint[] {
  const noted = entriesOf(story, 'heating-noted').map(
    ({ id, happenedAt, body }): HeatingPoint => ({
      at: happenedAt,
      state: body.state,
      flowC: body.flowC ?? null,
      surfaceC: body.surfaceC ?? null,
      circuit: body.circuit ?? null,
      entry: id,
    }),
  )
  const logged = story.series
    .filter(({ quantity }) => quantity === 'flowC')
    .flatMap(({ at, value, entry }) =>
      at.map(
        (instant, i): HeatingPoint => ({
          at: instant,
          state: 'running',
          flowC: value[i]!,
          surfaceC: null,
          circuit: null,
          entry,
        }),
      ),
    )
  return [...noted, ...logged].filter(({ at }) => at >= since).sort((a, b) => a.at - b.at)
}

/** The hottest flow of one day on the site's calendar. */
export interface HeatingDay {
  day: number
  at: number
  flowC: number
  entry: string
}

/** Returns the hottest flow of each day on which a flow was read. */
export function heatingDays(points: readonly HeatingPoint[], timeZone: string): HeatingDay[] {
  const days: HeatingDay[] = []
  for (const { at, flowC, entry } of points) {
    if (flowC === null) continue
    const last = days.at(-1)
    // A site day is at least 23 h long, so a reading within 22 h of midnight needs no calendar.
    const day = last !== undefined && at - last.day < 22 * hourMs ? last.day : siteDayStart(at, timeZone)
    if (last !== undefined && last.day === day) {
      if (flowC > last.flowC) Object.assign(last, { at, flowC, entry })
    } else days.push({ day, at, flowC, entry })
  }
  return days
}
