import { dayMs } from '#model/time.ts'
import { type BayStory, entriesOf } from '../../record/story.ts'
import type { Taken } from './layer.ts'

/** Returns when the bay was finished [epoch ms], or null while it is not laid. */
export function laidAtOf(story: BayStory): number | null {
  const finished = entriesOf(story, 'bay-finished').at(-1)
  if (finished !== undefined) return finished.happenedAt
  const lift = entriesOf(story, 'lift-laid').at(-1)
  return lift === undefined ? null : Date.parse(lift.body.finishedAt)
}

/**
 * Returns when drying began or will begin [epoch ms]; null when nobody recorded a sheet, so that the usual time of the
 * material has to stand for it. Short liftings between are not counted as drying.
 * @param usualDays how long the material is usually kept sealed [days].
 */
export function sealedUntilOf(
  story: BayStory,
  laidAt: number,
  asOf: number,
  usualDays: number,
): Taken<number | null> {
  const sheets = [...entriesOf(story, 'sheet-on'), ...entriesOf(story, 'sheet-off')]
    .filter(({ happenedAt }) => happenedAt >= laidAt)
    .sort((a, b) => a.happenedAt - b.happenedAt)
  const last = sheets.at(-1)
  if (last === undefined) return { value: null, assumption: null }
  if (last.kind === 'sheet-on') {
    const planned = Math.max(asOf, laidAt + usualDays * dayMs)
    return {
      value: planned,
      assumption: `The curing sheet is still on; it is assumed to come off on ${new Date(planned).toISOString().slice(0, 10)}.`,
    }
  }
  if (last.body.why === 'end of curing') return { value: last.happenedAt, assumption: null }
  return {
    value: last.happenedAt,
    assumption: `The curing sheet came off on ${new Date(last.happenedAt).toISOString().slice(0, 10)} (${offWords[last.body.why]}) and no sheet is recorded after that; drying is counted from then.`,
  }
}

const offWords = { lifted: 'lifted for access', 'blown off': 'blown off', damaged: 'damaged' } as const
