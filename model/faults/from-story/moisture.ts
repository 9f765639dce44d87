import type { StoryEntryOf } from '../../record/entry.ts'
import { entriesOf } from '../../record/story.ts'
import { type Answer, no, oneDigit, type Scene, twoDigits, unseen, yes } from './scene.ts'

/** A rise above this at one point, by one method, after it had fallen, is re-wetting. Our judgement. */
const riseRh = 3
const riseCm = 0.3
/** Two readings of one point may differ by this and still be the same. Our judgement. */
const sameRh = 1
const sameCm = 0.1
const leastReadings = 3
const wetEvents = ['leak', 'flood', 'wash-down'] as const

/** Answers whether a point got wetter again, or dried all the way: E59, E60. */
export function moistureAnswers({ story }: Scene): Record<'E59' | 'E60', Answer> {
  const wet = entriesOf(story, 'wet-event-noted').filter(({ body }) =>
    (wetEvents as readonly string[]).includes(body.what),
  )
  const runs = runsOf(entriesOf(story, 'moisture-read'))
  const entries = runs.flatMap((run) => run.map(({ entry }) => entry))
  const risen = runs.map(riseIn).find((rise) => rise !== null)
  if (risen !== undefined && risen !== null) {
    const because = `At “${risen.point}” from ${risen.from} to ${risen.to} ${risen.unit} after it had fallen.`
    return { E59: yes(because, risen.entries), E60: no(because, risen.entries) }
  }
  const long = runs.filter((run) => run.length >= leastReadings)
  if (long.length === 0) {
    const because =
      runs.length === 0
        ? 'No moisture reading in the record.'
        : `No point was read ${leastReadings} times by one method, so there is no trend.`
    return { E59: unseen(because, entries), E60: unseen(because, entries) }
  }
  const read = `${long.length} ${long.length === 1 ? 'point' : 'points'} read ${leastReadings} times or more, no rise above ${long[0]![0]!.rise} ${long[0]![0]!.unit}`
  if (wet.length > 0) {
    const because = `${read}, but ${wet.map(({ body }) => body.what).join(', ')} was noted.`
    return {
      E59: no(because, entries),
      E60: no(
        because,
        wet.map(({ id }) => id),
      ),
    }
  }
  const falling = long.every(
    (run) =>
      run.at(-1)!.value < run[0]!.value &&
      run.slice(1).every(({ value, same }, i) => twoDigits(value - run[i]!.value) <= same),
  )
  return {
    E59: no(`${read}.`, entries),
    E60: falling
      ? yes(`${read}, all fell steadily; no leak noted.`, entries)
      : no(`${read}, but not all fell steadily.`, entries),
  }
}

interface Reading {
  at: number
  point: string
  value: number
  unit: string
  rise: number
  same: number
  entry: string
}

/** Readings of one point by one method, in order of time. */
function runsOf(tests: readonly StoryEntryOf<'moisture-read'>[]): Reading[][] {
  const readings = tests.flatMap(({ id, happenedAt, body }): (Reading & { key: string })[] => {
    const point = body.point.trim()
    const key = `${body.method} ${point.toLowerCase()}`
    const rh = body.readings?.at(-1)?.rhPercent
    if (rh !== undefined)
      return [{ key, at: happenedAt, point, value: rh, unit: '% RH', rise: riseRh, same: sameRh, entry: id }]
    return body.cmPercent === undefined
      ? []
      : [
          {
            key,
            at: happenedAt,
            point,
            value: body.cmPercent,
            unit: '% CM',
            rise: riseCm,
            same: sameCm,
            entry: id,
          },
        ]
  })
  return [...Map.groupBy(readings, ({ key }) => key).values()].map((run) =>
    run.toSorted((a, b) => a.at - b.at),
  )
}

/** A rise above the lowest reading that came after a higher one. */
function riseIn(run: readonly Reading[]) {
  for (const [i, reading] of run.entries()) {
    const before = run.slice(0, i)
    const low = before.toSorted((a, b) => a.value - b.value)[0]
    if (low === undefined) continue
    const fellTo = before.some(({ at, value }) => at < low.at && value > low.value)
    if (!fellTo || twoDigits(reading.value - low.value) <= reading.rise) continue
    return {
      point: reading.point,
      from: oneDigit(low.value),
      to: oneDigit(reading.value),
      unit: reading.unit,
      entries: [low.entry, reading.entry],
    }
  }
  return null
}
