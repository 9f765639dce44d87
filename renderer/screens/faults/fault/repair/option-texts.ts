import type { FaultPage } from '#model/contract/faults.ts'
import type { Quantity, RepairOption } from '#model/faults/repair/shapes.ts'
import { faultsWords } from '../../../../app/words/faults.ts'
import { numberText, quantityText } from '../../../../parts/number-text.ts'

const words = faultsWords.options

/** "560–680 GBP", in whole units of the currency: less would pretend to know. */
export function costText({ low, high }: { low: number; high: number }, currency: string): string {
  return words.cost(numberText(low, 0), numberText(high, 0), currency)
}

/** "2–4 days": even chances to nine in ten. */
export function daysText({ p50, p90 }: NonNullable<RepairOption['daysLost']>): string {
  return words.days(numberText(p50, 0), numberText(p90, 0))
}

/** "4650 kg", "11.5 kg", "0.83 L": as many digits as the measures behind it bear. */
export function amountText({ amount, unit }: Quantity): string {
  return quantityText(amount, unit, amount >= 100 ? 0 : amount >= 10 ? 1 : 2)
}

/** What an option lacks for itself; what all of them lack stands once above them. */
export function ownMeasure(option: RepairOption, { decision }: Pick<FaultPage, 'decision'>): string | null {
  return option.measure === decision.next ? null : option.measure
}

/** "Rule R02 comes first · Rule R08": what holds the option back, then the rule that judged it. */
export function rulesText({ heldBy, rule }: Pick<RepairOption, 'heldBy' | 'rule'>): string | null {
  const told = [
    ...(heldBy === null ? [] : [words.heldBy(heldBy)]),
    ...(rule === null || rule === heldBy ? [] : [words.rule(rule)]),
  ]
  return told.length === 0 ? null : told.join(' · ')
}

/** Sentences as parts of one line: no full stop before a semicolon. */
export function inOneLine(sentences: readonly string[]): string {
  return sentences.map((one) => one.replace(/\.$/, '')).join('; ')
}
