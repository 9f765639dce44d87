import { minutesBetween } from '../facts/batches.ts'
import type { BayFacts } from '../facts/index.ts'
import type { LiveBatch } from '../today.ts'

/** A batch this far past its time that nobody wrote off was laid or thrown away long ago. */
const forgottenMinutes = 120

/** Returns the batches and loads still to be laid, the most urgent first. */
export function liveBatches({ batches, loads, life, asOf }: BayFacts): LiveBatch[] {
  const finishedAt = life.finish?.happenedAt ?? Number.POSITIVE_INFINITY
  const mixed = batches
    .filter(({ laidAt, mixedAt }) => laidAt === null && mixedAt <= asOf && asOf < finishedAt)
    .map(({ entry, number, mixedAt, life: { minutes, because } }) => ({
      entry: entry.id,
      number,
      minutesLeft: Math.floor(minutes - minutesBetween(mixedAt, asOf)),
      of: Math.round(minutes),
      because,
    }))
  const loaded = loads.flatMap(({ entry, batchedAt, life: life_ }, i) =>
    life_ === null || asOf >= finishedAt
      ? []
      : [
          {
            entry: entry.id,
            number: i + 1,
            minutesLeft: Math.floor(life_.minutes - minutesBetween(batchedAt, asOf)),
            of: Math.round(life_.minutes),
            because: `Ticket ${entry.body.ticket}: ${life_.because}`,
          },
        ],
  )
  return [...mixed, ...loaded]
    .filter(({ minutesLeft }) => minutesLeft > -forgottenMinutes)
    .sort((a, b) => a.minutesLeft - b.minutesLeft)
}
