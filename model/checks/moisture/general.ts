import { format, parseISO } from 'date-fns'
import { dayMs } from '#model/time.ts'
import { requireInstant } from '../../errors.ts'
import { cleanOutline, isInside } from '../../movement/polygon.ts'
import { demand, demandFact, type Inquiry, note } from './inquiry.ts'
import { hoursBetween, type MoistureTest, type TestContext } from './test.ts'

/** The point must lie in the bay that the test is to release. */
export function examinePlace(inquiry: Inquiry, { x, y }: MoistureTest, { outlineM }: TestContext): void {
  if (x === undefined || y === undefined || !outlineM) return
  const inside = isInside({ x, y }, cleanOutline(outlineM))
  demandFact(inquiry, 'Test point inside the bay', inside, 'The test point lies outside this bay.')
}

/** Heating and driers must have been off for long enough before the box was set or the hole was drilled. */
export function examineHeatingOff(
  inquiry: Inquiry,
  test: MoistureTest,
  { rules, heated }: TestContext,
): void {
  const limit = rules.limits['test.heatingOffHours']
  if (limit.value <= 0) return
  if (test.neverHeated === true) {
    inquiry.findings.push({ what: 'Heating and driers in use', value: 'no', limit: null })
    return
  }
  if (heated)
    demand(inquiry, 'Heating off before the test', hoursBetween(test.heatingOffSince, test.setAt), limit)
  demand(inquiry, 'Driers off before the test', hoursBetween(test.driersOffSince, test.setAt), limit)
}

/** The room must have been at service conditions for long enough; asked by the American methods. */
export function examineConditioning(
  inquiry: Inquiry,
  test: MoistureTest,
  until: string | number | undefined,
  { rules }: TestContext,
): void {
  const hours = hoursBetween(test.conditionedSince, until)
  demand(inquiry, 'Room at service conditions before the test', hours, rules.limits['test.conditioningHours'])
}

/** A humidity probe needs a check above salt within its time, and no expired certificate. */
export function examineProbeCheck(
  inquiry: Inquiry,
  test: MoistureTest,
  { instrument, rules }: TestContext,
): void {
  examineCertificate(inquiry, test, instrument?.certificateDueOn)
  const check = instrument?.lastCheck
  const hours = hoursBetween(check?.at, test.at)
  demand(
    inquiry,
    'Age of the last instrument check',
    hours === null ? null : hours / 24,
    rules.limits['test.probeCheckDays'],
  )
  if (hours !== null && hours < 0) inquiry.invalid.push('The instrument was checked only after the test.')
  if (!check) return
  demandFact(inquiry, 'Instrument check passed', check.passed, 'The instrument failed its last check.')
  if (check.foundPercent === undefined || check.foundPercent === null) return
  demand(inquiry, 'Reading above salt', check.foundPercent, rules.limits['test.saltRhLeast'])
  demand(inquiry, 'Reading above salt', check.foundPercent, rules.limits['test.saltRhMost'])
}

/** An instrument whose certificate had expired on the day proves nothing; an unknown certificate is remarked on. */
export function examineCertificate(
  inquiry: Inquiry,
  test: MoistureTest,
  dueOn: string | null | undefined,
): void {
  if (dueOn === undefined || dueOn === null) {
    inquiry.cautions.push('The certificate of the instrument was not recorded.')
    return
  }
  // The whole last day counts, in whatever time zone it was.
  const lastInstant = requireInstant('instrument.certificateDueOn', `${dueOn}T00:00:00-12:00`) + dayMs
  const valid = requireInstant('at', test.at) < lastInstant
  const lastDay = format(parseISO(dueOn), 'd MMM yyyy')
  demandFact(
    inquiry,
    `Certificate valid until ${lastDay}`,
    valid,
    `The certificate of the instrument expired on ${lastDay}.`,
  )
}

/** Room and floor in the range where readings are steady; practice, so it is remarked on and does not decide. */
export function noteRoom(
  inquiry: Inquiry,
  { roomC, floorC }: MoistureTest,
  { rules, roomMovedK }: TestContext,
): void {
  note(inquiry, 'Room temperature', roomC, rules.limits['test.roomLeastC'])
  if (roomC !== undefined) note(inquiry, 'Room temperature', roomC, rules.limits['test.roomMostC'])
  const difference = roomC === undefined || floorC === undefined ? null : Math.abs(roomC - floorC)
  note(inquiry, 'Difference of floor and air', difference, rules.limits['test.floorAirK'])
  if (roomMovedK !== undefined && roomMovedK !== null) {
    note(inquiry, 'Change of the room temperature in 48 h', roomMovedK, rules.limits['test.roomMovedK'])
  }
}
