import type { Quantity, RepairOption, RepairRates } from '#model/faults/repair/shapes.ts'
import type { DiagnosedCause, Diagnosis, Movement, NextTest } from '#model/faults/shapes.ts'
import type { Provenance } from '#model/rules/limit.ts'
import type { Why } from '#model/why.ts'
import { faultsWords } from '../../../app/words/faults.ts'

const words = faultsWords.why

/** Answers to "why?" of the numbers of a fault: what went in, how it was worked out, how sure that is. */
export function whyStrength(diagnosis: Diagnosis): Why {
  return {
    what: words.strength,
    value: diagnosis.recordStrengthPercent,
    unit: '%',
    inputs: diagnosis.causes.slice(0, 3).map((cause) => ({
      name: cause.words,
      value: words.examined(cause.supports.length + cause.refutes.length, cause.missingIds.length),
      unit: '',
    })),
    formula: words.strengthFormula,
    source: words.judgement(diagnosis.weightsVersion),
    provenance: 'our judgement',
  }
}

export function whyCause(cause: DiagnosedCause, diagnosis: Diagnosis): Why {
  return {
    what: words.logOdds(cause.words),
    value: cause.logOdds,
    unit: '',
    inputs: cause.parts.map(({ kind, from, text, weight }) => ({
      name: kind === 'start' ? `${words.start} (${from})` : text,
      value: weight,
      unit: '',
    })),
    formula: words.logOddsFormula,
    source: words.judgement(diagnosis.weightsVersion),
    provenance: 'our judgement',
  }
}

export function whyTest(test: NextTest): Why {
  return {
    what: words.test(test.name),
    value: test.score,
    unit: '',
    inputs: [
      { name: words.items, value: test.evidence.length, unit: '' },
      { name: words.costClass, value: test.costClass, unit: '' },
      { name: faultsWords.tests.bits, value: test.expectedInformationBits, unit: 'bit' },
    ],
    formula: `${words.testFormula}. ${test.why}`,
    source: words.judgementShort,
    provenance: 'our judgement',
  }
}

export function whyQuantity({ what, amount, unit, how }: Quantity): Why {
  return {
    what: words.quantity(what),
    value: amount,
    unit,
    inputs: [],
    formula: how,
    source: words.quantitySource,
    provenance: 'common practice',
  }
}

export function whyCost(option: RepairOption, rates: RepairRates, currency: string): Why {
  return {
    what: words.cost(option.words),
    value: option.cost === null ? null : `${round(option.cost.low)} – ${round(option.cost.high)}`,
    unit: currency,
    inputs: option.quantities.map(({ what, amount, unit }) => ({ name: what, value: amount, unit })),
    formula: option.cost === null ? words.costFormula : option.cost.assumptions.join(' '),
    source: rates.basis === 'own' ? words.ownRates : words.inventedRates,
    provenance: basisOf(rates),
  }
}

export function whyDays(option: RepairOption): Why {
  return {
    what: words.days(option.words),
    value: option.daysLost === null ? null : option.daysLost.p50,
    unit: 'days',
    inputs:
      option.daysLost === null ? [] : [{ name: words.cautious, value: option.daysLost.p90, unit: 'days' }],
    formula: option.daysLost?.how ?? '',
    source: words.daysSource,
    provenance: 'common practice',
  }
}

export function whyResidual(option: RepairOption, rates: RepairRates): Why {
  return {
    what: words.residual(option.words),
    value: option.residualPercent,
    unit: '%',
    inputs: [],
    formula: option.residualHow,
    source: words.residualSource,
    provenance: rates.basis === 'own' ? 'company rule' : 'our judgement',
  }
}

export function whyWholeLife(option: RepairOption, rates: RepairRates, currency: string): Why {
  return {
    what: words.whole(option.words),
    value:
      option.wholeLife === null ? null : `${round(option.wholeLife.low)} – ${round(option.wholeLife.high)}`,
    unit: currency,
    inputs: [
      { name: faultsWords.rates.delay, value: rates.delayPerDay, unit: currency },
      { name: faultsWords.rates.recurrence, value: rates.recurrenceCost, unit: currency },
    ],
    formula: option.wholeLife?.how ?? '',
    source: rates.basis === 'own' ? words.ownRates : words.inventedRates,
    provenance: basisOf(rates),
  }
}

export function whyChange(movement: Movement): Why {
  return {
    what: words.change,
    value: movement.changeMm,
    unit: 'mm',
    inputs: [{ name: faultsWords.gauge.days, value: movement.days, unit: 'days' }],
    formula: `${words.changeFormula}. ${movement.words}`,
    source: words.changeSource,
    provenance: 'common practice',
  }
}

const basisOf = ({ basis }: RepairRates): Provenance => (basis === 'own' ? 'company rule' : 'our judgement')
const round = (value: number) => Math.round(value)
