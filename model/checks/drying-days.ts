import { requireNumber } from '../errors.ts'
import type { EffectiveRules } from '../rules/effective.ts'
import type { Screed } from '../rules/words.ts'
import type { Why } from '../why.ts'

export interface DryingDaysQuestion {
  /** 10 to 300 [mm]. */
  thicknessMm: number
  screed: Screed
  rules: EffectiveRules
}

/**
 * Returns the days that the trade's rule plans for drying, counted from the end of curing: one day a millimetre up to the
 * break that the rules in force name, two days for each millimetre beyond it.
 *
 * For planning only; it never releases a bay.
 *
 * @throws InputError when the thickness is not a number in range.
 * @source attributed to BS 8204-1 (50 mm) and BS 8204-7, BS 5385-3:2014 (40 mm).
 * @accuracy supposes about 20 °C and at most 65 % RH; unsafe above about 75 mm, because drying slows with the square of thickness.
 * @provenance quoted second-hand
 */
export function dryingDays({ thicknessMm, screed, rules }: DryingDaysQuestion): number {
  requireNumber('thicknessMm', thicknessMm, 10, 300, 'mm')
  const breakMm = breakOf(screed, rules).value
  return Math.min(thicknessMm, breakMm) + 2 * Math.max(0, thicknessMm - breakMm)
}

/** The planned days with the break that was used and where it comes from. */
export function whyDryingDays(question: DryingDaysQuestion): Why {
  const limit = breakOf(question.screed, question.rules)
  return {
    what: 'Days of drying by the rule of thumb, from the end of curing',
    value: dryingDays(question),
    unit: 'days',
    inputs: [
      { name: 'Thickness', value: question.thicknessMm, unit: 'mm' },
      { name: 'One day a millimetre up to', value: limit.value, unit: 'mm' },
      { name: 'Air that the rule supposes', value: question.rules.limits['drying.airC'].value, unit: '°C' },
      {
        name: 'Humidity that the rule supposes, at most',
        value: question.rules.limits['drying.rhMost'].value,
        unit: '% RH',
      },
    ],
    formula:
      'one day for each mm up to the break, two days for each mm beyond it; for planning, never acceptance',
    source: [limit.source, limit.edition].filter(Boolean).join(', '),
    provenance: limit.provenance,
  }
}

function breakOf(screed: Screed, { limits }: EffectiveRules) {
  return limits[screed === 'calcium sulfate' ? 'drying.breakCalciumSulfateMm' : 'drying.breakCementMm']
}
