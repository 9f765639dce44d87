import { InputError, requireInstant } from '../../errors.ts'
import type { MoistureMethod } from '../../record/words.ts'
import { type CheckResult, keepsLimit, type Limit, limitText } from '../../rules/limit.ts'
import { gramsPerM2OfOnePound } from './emission.ts'
import { examinePlace } from './general.ts'
import { examineBox, examineProbe, examineSample } from './humidity.ts'
import { type Inquiry, newInquiry } from './inquiry.ts'
import { examineCarbide, examineDish, examineOven } from './sample.ts'
import type { MoistureTest, TestContext } from './test.ts'

export interface MoistureAcceptance extends CheckResult {
  /** What the test shows, on the scale of its limit; null when it shows nothing. */
  value: number | null
  unit: string
  /** Why the verdict is what it is, as sentences: what makes it invalid, what is missing, or value against limit. */
  reasons: string[]
  /** Remarks of practice that do not decide. */
  cautions: string[]
}

type Examiner = (inquiry: Inquiry, test: MoistureTest, context: TestContext) => number | null

const examiners: Readonly<Record<MoistureMethod, { examine: Examiner; unit: string }>> = {
  'hygrometer box': { examine: examineBox, unit: '% RH' },
  probe: { examine: examineProbe, unit: '% RH' },
  'crushed sample': { examine: examineSample, unit: '% RH' },
  carbide: { examine: examineCarbide, unit: '% CM' },
  'oven dry': { examine: examineOven, unit: '% by mass' },
  'calcium chloride': { examine: examineDish, unit: 'lb/(1000 ft²·24 h)' },
  'electrical survey': { examine: () => null, unit: '' },
}
const metricEmission = 'g/(m²·24 h)'

/** The unit that a test reads in, and that its limit must have; empty for the electrical meter. */
export function moistureUnit(method: MoistureMethod): string {
  return examiners[method].unit
}

/**
 * Judges a moisture test: first whether it was carried out as its method demands, and only then its value.
 *
 * An electrical meter is a survey and never an acceptance. A limit on another scale than the test proves nothing.
 *
 * @param test the test as recorded; what is left out is unknown.
 * @param limit from `moistureLimit`, the contract or the maker; null when there is none.
 * @param context bay, instrument and rules on the day of the test.
 * @returns `invalid` when the method was not followed; `not known` when a fact that the method demands, or the limit, is
 * missing; otherwise `pass` or `fail`. All with the facts found and the reasons as sentences.
 * @throws InputError when a value is out of range or times step back.
 * @source BS 8203 annexes (box, sleeve), ASTM F2170, ASTM F1869, DIN 18560-1 (carbide), as the limits of the rules say.
 * @provenance as each limit says
 */
export function acceptMoisture(
  test: MoistureTest,
  limit: Limit | null,
  context: TestContext,
): MoistureAcceptance {
  if (!Object.hasOwn(examiners, test.method)) {
    throw new InputError(
      'method',
      `There is no test “${String(test.method)}”; choose ${Object.keys(examiners).join(', ')}.`,
    )
  }
  requireInstants(test)
  const { examine, unit } = examiners[test.method]
  const inquiry = newInquiry()
  if (test.method === 'electrical survey') {
    inquiry.invalid.push('An electrical meter finds the wettest place; it does not accept a floor.')
    return result('invalid', inquiry, null, '', inquiry.invalid)
  }
  const measured = examine(inquiry, test, context)
  examinePlace(inquiry, test, context)
  if (limit !== null && limit.unit !== unit && !(unit.startsWith('lb') && limit.unit === metricEmission)) {
    inquiry.invalid.push(
      `The limit is in ${limit.unit} and this test reads ${unit}: it is a limit for another test.`,
    )
  }
  const metric = limit?.unit === metricEmission
  const value = measured !== null && metric ? measured * gramsPerM2OfOnePound : measured
  const shownUnit = metric ? metricEmission : unit
  inquiry.findings.unshift({ what: 'Result', value, limit })

  if (inquiry.invalid.length > 0) return result('invalid', inquiry, value, shownUnit, inquiry.invalid)
  const missing = inquiry.missing.map((what) => `Not recorded: ${lowerFirst(what)}.`)
  if (limit === null)
    missing.push('There is no limit for this test under these rules; take it from the maker or the contract.')
  if (missing.length > 0 || value === null || limit === null)
    return result('not known', inquiry, value, shownUnit, missing)

  const passes = keepsLimit(value, limit)
  const sentence = `${shown(value, limit)} ${shownUnit} against ${limitText(limit)} (${limit.source}, ${limit.provenance}).`
  return result(passes ? 'pass' : 'fail', inquiry, value, shownUnit, [sentence])
}

const instantFields = ['setAt', 'heatingOffSince', 'driersOffSince', 'conditionedSince', 'groundAt'] as const

function requireInstants(test: MoistureTest): void {
  requireInstant('at', test.at)
  for (const field of instantFields) if (test[field] !== undefined) requireInstant(field, test[field])
}

function result(
  verdict: CheckResult['verdict'],
  { findings, cautions }: Inquiry,
  value: number | null,
  unit: string,
  reasons: string[],
): MoistureAcceptance {
  return { verdict, findings, value, unit, reasons, cautions }
}

function lowerFirst(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1)
}

/** Rounded for the sentence, unless rounding would seem to change the verdict. */
function shown(value: number, limit: Limit): number {
  const rounded = Math.round(value * 100) / 100
  return keepsLimit(rounded, limit) === keepsLimit(value, limit) ? rounded : value
}
