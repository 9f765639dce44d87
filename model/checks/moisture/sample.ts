import { requireNumber } from '../../errors.ts'
import { withValue } from '../judge.ts'
import { emissionRate } from './emission.ts'
import { examineCertificate, examineConditioning } from './general.ts'
import { demand, type Inquiry } from './inquiry.ts'
import { hoursBetween, type MoistureTest, type TestContext } from './test.ts'

/** Examines a carbide test and returns its moisture [% CM]. */
export function examineCarbide(
  inquiry: Inquiry,
  test: MoistureTest,
  { screed, rules, instrument }: TestContext,
): number | null {
  const least = screed === 'calcium sulfate' ? 'test.carbideCalciumSulfateGrams' : 'test.carbideCementGrams'
  demand(inquiry, 'Mass of the sample', test.sampleG, rules.limits[least])
  if (test.cmPercent === undefined) inquiry.missing.push('The moisture from the maker’s table')
  if (test.depthFromMm === undefined || test.depthToMm === undefined) {
    inquiry.cautions.push(
      'The depth of the sample was not recorded; whole section and lower third give different figures.',
    )
  } else if (test.depthToMm <= 10) {
    inquiry.cautions.push('The sample comes from the top 10 mm, which dry first.')
  }
  if (test.pressureBar === undefined)
    inquiry.cautions.push('The pressure was not recorded, so the figure cannot be looked up again.')
  examineCertificate(inquiry, test, instrument?.certificateDueOn)
  return test.cmPercent ?? null
}

/** Examines an oven-dried sample and returns its moisture on the dry mass [% by mass]. */
export function examineOven(
  inquiry: Inquiry,
  test: MoistureTest,
  { screed, rules: { limits } }: TestContext,
): number | null {
  const ovenC = limits[screed === 'calcium sulfate' ? 'test.ovenCalciumSulfateC' : 'test.ovenCementC']
  const toleranceK = limits['test.ovenToleranceK'].value
  demand(inquiry, 'Oven', test.ovenC, withValue(ovenC, ovenC.value - toleranceK, '>='))
  demand(inquiry, 'Oven', test.ovenC, withValue(ovenC, ovenC.value + toleranceK, '<='))
  if (screed === 'fast drying')
    inquiry.cautions.push('Ask the maker at what temperature this screed is dried.')
  const { wetG, dryG, tareG } = test
  for (const [what, value] of [
    ['Wet mass', wetG],
    ['Dry mass', dryG],
    ['Mass of the tin', tareG],
  ] as const) {
    if (value === undefined) inquiry.missing.push(what)
  }
  if (wetG === undefined || dryG === undefined || tareG === undefined) return null
  requireNumber('tareG', tareG, 0, dryG - 0.01, 'g')
  requireNumber('dryG', dryG, 0.01, wetG, 'g')
  return (100 * (wetG - dryG)) / (dryG - tareG)
}

/** Examines a calcium chloride dish and returns its emission [lb/(1000 ft²·24 h)]. */
export function examineDish(inquiry: Inquiry, test: MoistureTest, context: TestContext): number | null {
  const { limits } = context.rules
  if (context.screed === 'calcium sulfate')
    inquiry.invalid.push('The dish is not made for calcium sulfate screed (ASTM F1869).')
  const hours = hoursBetween(test.setAt, test.at)
  demand(inquiry, 'Exposure of the dish', hours, limits['test.emissionHoursLeast'])
  demand(inquiry, 'Exposure of the dish', hours, limits['test.emissionHoursMost'])
  demand(
    inquiry,
    'Hours from grinding the spot to the dish',
    hoursBetween(test.groundAt, test.setAt),
    limits['test.emissionGrindHours'],
  )
  examineConditioning(inquiry, test, test.setAt, context)
  demand(inquiry, 'Air', test.roomC, limits['test.emissionAirLeastC'])
  demand(inquiry, 'Air', test.roomC, limits['test.emissionAirMostC'])
  demand(inquiry, 'Humidity of the air', test.roomRhPercent, limits['test.emissionRhLeast'])
  demand(inquiry, 'Humidity of the air', test.roomRhPercent, limits['test.emissionRhMost'])
  const { gainG, exposedAreaM2 } = test
  if (gainG === undefined) inquiry.missing.push('Gain of the dish')
  if (exposedAreaM2 === undefined) inquiry.missing.push('Exposed area of the kit')
  if (gainG === undefined || exposedAreaM2 === undefined || hours === null || hours < 1) return null
  return emissionRate({ gainG, hours, areaM2: exposedAreaM2 }).lbPer1000ft2Per24h
}
