import { requireInstant, requireOrdered } from '../../errors.ts'
import type { Limit } from '../../rules/limit.ts'
import { examineConditioning, examineHeatingOff, examineProbeCheck, noteRoom } from './general.ts'
import { demand, demandFact, type Inquiry } from './inquiry.ts'
import { probeDepthMm } from './probe.ts'
import { hoursBetween, type MoistureTest, type TestContext } from './test.ts'

type Reading = { at: number; rhPercent: number }

/** Examines an insulated hygrometer box and returns its last reading [% RH]. */
export function examineBox(inquiry: Inquiry, test: MoistureTest, context: TestContext): number | null {
  const readings = readingsOf(test)
  const last = readings.at(-1)
  demand(
    inquiry,
    'Hours from setting the box to the last reading',
    hoursBetween(test.setAt, last?.at),
    boxHours(context),
  )
  if (context.surfaceSealed === true) {
    inquiry.invalid.push(
      'The surface is sealed, so a box on it cannot see the screed; use a probe in a hole.',
    )
  }
  if (context.surfaceSealed === null)
    inquiry.missing.push('Whether the box stands clear of the surface that a repair treated')
  examineCommon(inquiry, test, readings, context)
  noteSameAsRoom(inquiry, test, last)
  return last?.rhPercent ?? null
}

/** Examines a humidity probe in a drilled and sleeved hole and returns its last reading [% RH]. */
export function examineProbe(inquiry: Inquiry, test: MoistureTest, context: TestContext): number | null {
  const { rules, thicknessMm, faces = 1 } = context
  const readings = readingsOf(test)
  const last = readings.at(-1)
  demand(
    inquiry,
    'Hours from drilling to the last reading',
    hoursBetween(test.setAt, last?.at),
    rules.limits['test.sleeveHours'],
  )
  const departure =
    thicknessMm === undefined || thicknessMm === null || test.holeDepthMm === undefined
      ? null
      : rounded((100 * Math.abs(test.holeDepthMm - probeDepthMm({ thicknessMm, faces }))) / thicknessMm)
  demand(
    inquiry,
    'Departure of the hole from its depth',
    departure,
    rules.limits['test.sleeveDepthTolerancePercent'],
  )
  if (context.heated && test.pipesLocated !== true) {
    inquiry.cautions.push('It is not recorded that the heating pipes were located before drilling.')
  }
  examineCommon(inquiry, test, readings, context)
  return last?.rhPercent ?? null
}

/** Examines the humidity above a crushed sample and returns its last reading [% RH]. */
export function examineSample(inquiry: Inquiry, test: MoistureTest, context: TestContext): number | null {
  const last = readingsOf(test).at(-1)
  demand(inquiry, 'Probe with the sample', test.probeSoakMin, context.rules.limits['test.soakMinutes'])
  examineProbeCheck(inquiry, test, context)
  if (last === undefined) inquiry.missing.push('A reading')
  inquiry.cautions.push('Screed makers do not accept this test alone; agree it before.')
  return last?.rhPercent ?? null
}

function examineCommon(
  inquiry: Inquiry,
  test: MoistureTest,
  readings: readonly Reading[],
  context: TestContext,
): void {
  const { rules } = context
  examineSettled(inquiry, readings, context)
  examineHeatingOff(inquiry, test, context)
  if (rules.ruleSet === 'american') examineConditioning(inquiry, test, readings.at(-1)?.at, context)
  demandFact(inquiry, 'Seal unbroken', test.sealOk, 'The seal was broken.')
  demand(inquiry, 'Probe in place before the reading', test.probeSoakMin, rules.limits['test.soakMinutes'])
  examineProbeCheck(inquiry, test, context)
  noteRoom(inquiry, test, context)
}

/** The humidity has settled when the last reading equals one made at least a day before it. */
function examineSettled(inquiry: Inquiry, readings: readonly Reading[], { rules }: TestContext): void {
  const last = readings.at(-1)
  if (last === undefined) {
    inquiry.missing.push('A reading')
    return
  }
  const apart = rules.limits['test.settleHours']
  if (apart.value <= 0) return
  const before = readings.findLast(({ at }) => hoursBetween(at, last.at)! >= apart.value)
  const difference = before === undefined ? null : rounded(Math.abs(last.rhPercent - before.rhPercent))
  demand(
    inquiry,
    `Difference of two readings ${apart.value} h apart`,
    difference,
    rules.limits['test.settleRh'],
  )
}

function boxHours({ finish, construction, thicknessMm, rules: { limits } }: TestContext): Limit {
  if (finish === 'power') return limits['test.boxPowerFloatedHours']
  const thin =
    construction === 'unbonded' && typeof thicknessMm === 'number' && thicknessMm >= 50 && thicknessMm <= 75
  return thin ? limits['test.boxThinHours'] : limits['test.boxHours']
}

function noteSameAsRoom(inquiry: Inquiry, { roomRhPercent }: MoistureTest, last: Reading | undefined): void {
  if (roomRhPercent === undefined || last === undefined) return
  if (Math.abs(last.rhPercent - roomRhPercent) >= 1) return
  inquiry.cautions.push('The box reads the same as the room: look whether its seal leaks.')
}

function readingsOf({ readings = [] }: MoistureTest): Reading[] {
  const list = readings.map(({ at, rhPercent }, i) => ({
    at: requireInstant(`readings[${i}].at`, at),
    rhPercent,
  }))
  requireOrdered(
    'readings',
    list.map(({ at }) => at),
  )
  return list
}

/** Without the digits that binary arithmetic adds: 61.1 − 60.1 is 1, and keeps a limit of 1. */
function rounded(value: number): number {
  return Math.round(value * 1e9) / 1e9
}
