import type { ProjectOutline } from '#model/contract/index.ts'
import { metresToShape } from '#model/movement/polygon.ts'
import type { BayId } from '#model/record/ids.ts'

/** Bays that lie no further apart than a joint or a thin wall are beside each other. Our judgement [m]. */
const besideM = 0.3

/** The bays beside a bay on its floor, in the order of the outline: what a fault is compared with first. */
export function baysBeside({ bays }: Pick<ProjectOutline, 'bays'>, bay: BayId): BayId[] {
  const own = bays.find(({ id }) => id === bay)
  if (own === undefined) return []
  return bays
    .filter(({ id, floor }) => id !== bay && floor === own.floor)
    .filter(({ body }) => metresApart(body.outline, own.body.outline) <= besideM)
    .map(({ id }) => id)
}

type Outline = Parameters<typeof metresToShape>[0]

/** Between straight-sided shapes the shortest way begins at a corner of one of them. */
function metresApart(one: Outline, other: Outline): number {
  return Math.min(
    ...one.map((corner) => metresToShape(other, corner)),
    ...other.map((corner) => metresToShape(one, corner)),
  )
}
