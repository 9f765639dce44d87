import type { RepairRates } from '#model/faults/repair/shapes.ts'
import { type RateItem, rateItemIds } from '#model/faults/words.ts'
import type { BodyOf } from '#model/record/kinds.ts'
import { faultsWords } from '../../../../app/words/faults.ts'
import { numberFromTyped } from '../../../../parts/number-text.ts'

const words = faultsWords.rates

/** What stands in the boxes while rates are edited. */
export interface RatesDraft {
  rates: Record<RateItem, { low: string; high: string }>
  delayPerDay: string
  recurrenceCost: string
  reason: string
}

export type RatesReading =
  | { kind: 'body'; body: BodyOf<'repair-rates-set'> }
  /** Field → sentence. */
  | { kind: 'wrong'; fields: Record<string, string> }

/** The boxes filled with the rates in force. */
export function draftOfRates(rates: RepairRates): RatesDraft {
  const texts = rateItemIds.map((item) => {
    const { low, high } = rates.rates[item]
    return [item, { low: String(low), high: String(high) }] as const
  })
  return {
    rates: Object.fromEntries(texts) as RatesDraft['rates'],
    delayPerDay: textOf(rates.delayPerDay),
    recurrenceCost: textOf(rates.recurrenceCost),
    reason: '',
  }
}

/** The entry as it will be written; rates that a firm saves are its own, whatever they were before. */
export function readRates(draft: RatesDraft): RatesReading {
  const fields: Record<string, string> = {}
  const rates = rateItemIds.map((item) => {
    const [low, high] = [numberOf(draft.rates[item].low), numberOf(draft.rates[item].high)]
    if (low === null || high === null || low < 0 || high < low) fields[item] = words.wrong
    return { item, low: low ?? 0, high: high ?? 0 }
  })
  const one = (name: 'delayPerDay' | 'recurrenceCost') => {
    if (draft[name].trim() === '') return {}
    const value = numberOf(draft[name])
    if (value === null || value < 0) fields[name] = words.wrongOne
    return { [name]: value ?? 0 }
  }
  const body = {
    basis: 'own' as const,
    rates,
    ...one('delayPerDay'),
    ...one('recurrenceCost'),
    ...(draft.reason.trim() === '' ? {} : { reason: draft.reason.trim() }),
  }
  return Object.keys(fields).length > 0 ? { kind: 'wrong', fields } : { kind: 'body', body }
}

function numberOf(typed: string): number | null {
  const read = numberFromTyped(typed)
  return read.kind === 'number' ? read.value : null
}

const textOf = (value: number | null) => (value === null ? '' : String(value))
