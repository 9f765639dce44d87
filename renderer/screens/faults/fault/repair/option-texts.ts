import type { RepairOption } from '#model/faults/shapes.ts'
import { faultsWords } from '../../../../app/words/faults.ts'
import { numberText } from '../../../../parts/number-text.ts'

const words = faultsWords.options

/** "560–680 GBP", in whole units of the currency: less would pretend to know. */
export function costText({ low, high }: { low: number; high: number }, currency: string): string {
  return words.cost(numberText(low, 0), numberText(high, 0), currency)
}

/** "2, cautious 4". */
export function daysText({ p50, p90 }: NonNullable<RepairOption['daysLost']>): string {
  return words.days(numberText(p50, 0), numberText(p90, 0))
}
