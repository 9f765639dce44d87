import { type BayStory, entriesOf } from '../record/story.ts'
import type { RateRange, RepairRates } from './repair/shapes.ts'
import { type RateItem, type RepairOptionId, rateItemIds } from './words.ts'

/** Invented for demonstration, in units of any currency. A firm enters its own. */
const illustrative: Record<RateItem, RateRange> = {
  setUp: { low: 250, high: 600 },
  crackFillPerM: { low: 14, high: 30 },
  tieEach: { low: 9, high: 16 },
  jointPerM: { low: 30, high: 60 },
  grindPerM2: { low: 7, high: 12 },
  skimPerM2: { low: 16, high: 24 },
  consolidantPerKg: { low: 12, high: 20 },
  consolidatingPerM2: { low: 6, high: 10 },
  blindingPerM2: { low: 3, high: 5 },
  breakOutPerM2: { low: 45, high: 70 },
  breakOutByHandPerM2: { low: 70, high: 110 },
  relayPerM2: { low: 55, high: 80 },
  circuitRepairEach: { low: 400, high: 800 },
  circuitPerM2: { low: 25, high: 35 },
  wastePerT: { low: 90, high: 150 },
  cementContentEach: { low: 150, high: 250 },
  thinSectionEach: { low: 350, high: 600 },
  soundnessVisit: { low: 300, high: 500 },
}

/** Chance that the fault comes back after each repair of a cause that is gone. Our judgement; editable. */
export const residualPercent: Record<RepairOptionId, number> = {
  leave: 10,
  'remove skin': 5,
  fill: 10,
  consolidate: 20,
  patch: 8,
  replace: 3,
  'turn into joint': 5,
}
/** A live crack that is filled all the same. Our judgement. */
export const residualFillLivePercent = 60
/** A cause that may still be there: the same mixer, the same missing sheet. Our judgement. */
export const causeStillThereFactor = 3

export const illustrativeRates: RepairRates = {
  basis: 'illustrative',
  entry: null,
  rates: illustrative,
  delayPerDay: null,
  recurrenceCost: null,
  residualPercent,
}

export const illustrativeWords =
  'Unit rates are illustrative, invented for demonstration, until you enter your own.'

/**
 * Returns the rates in force in a story: the project's last, or the illustrative ones. What the project left out stays
 * illustrative, and then the whole table says so.
 */
export function ratesOf(story: BayStory): RepairRates {
  const set = entriesOf(story, 'repair-rates-set').at(-1)
  if (set === undefined) return illustrativeRates
  const own = Object.fromEntries(set.body.rates.map(({ item, low, high }) => [item, { low, high }]))
  const residual = Object.fromEntries(
    (set.body.residual ?? []).map(({ option, percent }) => [option, percent]),
  )
  const complete = rateItemIds.every((item) => own[item] !== undefined)
  return {
    basis: set.body.basis === 'own' && complete ? 'own' : 'illustrative',
    entry: set.id,
    rates: { ...illustrative, ...own },
    delayPerDay: set.body.delayPerDay ?? null,
    recurrenceCost: set.body.recurrenceCost ?? null,
    residualPercent: { ...residualPercent, ...residual },
  }
}
