import { eventIterator, oc, type } from '@orpc/contract'
import { z } from 'zod'
import { type WaysFound, wayIds } from '../drying/what-if/shapes.ts'
import { idOf } from '../record/ids.ts'
import { type Covering, coverings } from '../record/words.ts'
import { callErrors } from './errors.ts'

export type WaysEvent = { kind: 'progress'; done: number; of: number } | { kind: 'done'; found: WaysFound }

const within = (least: number, most: number) => z.number().min(least).max(most)

/** The room and what is to be done with it, as typed; null is taken from the record or worked out. */
const roomPlan = z.strictObject({
  heightM: within(1.5, 30),
  outdoor: z.strictObject({ airC: within(-40, 50), rhPercent: within(1, 100) }).nullable(),
  shutAirChangesPerH: within(0.01, 10).nullable(),
  airChangesPerH: within(0.05, 30),
  heatToC: within(5, 45),
  dryToRhPercent: within(15, 90),
  heatedScreedC: within(15, 50),
})

const call = oc.errors(callErrors)

export const wayCalls = {
  /** Ways to dry bays of one room, side by side. It plans; it never releases. */
  compare: call
    .input(
      z.strictObject({
        bays: z.array(idOf('bay')).min(1).max(40),
        /** That of each bay's contract when left out. */
        covering: z.enum(Object.keys(coverings) as [Covering, ...Covering[]]).optional(),
        ways: z.array(z.enum(wayIds)).min(1).max(wayIds.length),
        plan: roomPlan,
        asOf: z.iso.datetime({ offset: true }).optional(),
      }),
    )
    .output(eventIterator(type<WaysEvent>())),
}
