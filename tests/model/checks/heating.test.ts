import { describe, expect, test } from 'vitest'
import {
  checkHeating,
  type HeatingPlanId,
  type HeatingReading,
  heatingPlans,
  holdDaysByThickness,
  levelsOf,
} from '#model/checks/index.ts'
import { InputError } from '#model/errors.ts'
import { effectiveRules } from '#model/rules/index.ts'

const day = 86_400_000
const laidAt = Date.parse('2026-03-02T12:00:00+01:00')

/** One reading a day, from the given day after laying; a last reading ends the last day. */
function daily(firstDay: number, flows: readonly (number | null)[]): HeatingReading[] {
  return [...flows, flows.at(-1) ?? null].map((flowC, i) => ({ at: laidAt + (firstDay + i) * day, flowC }))
}
const cement = { plan: 'H1', screed: 'cement-sand', laidAt, thicknessMm: 65 } as const
const sulfate = { plan: 'H1', screed: 'calcium sulfate', laidAt, thicknessMm: 50 } as const
const functional = [25, 25, 25, 55, 55, 55, 55]

describe('HEAT: heating log against a plan (published plans, quoted second-hand)', () => {
  test('HEAT-1: EN 1264-4: cement at day 20 is too early, at day 21 it passes', () => {
    expect(checkHeating(daily(20, functional), cement).verdict).toBe('fail')
    expect(checkHeating(daily(21, functional), cement).verdict).toBe('pass')
  })
  test('HEAT-2: calcium sulfate at day 6 is too early, at day 7 it passes', () => {
    expect(checkHeating(daily(6, functional), sulfate).verdict).toBe('fail')
    expect(checkHeating(daily(7, functional), sulfate).verdict).toBe('pass')
  })
  test('HEAT-3: two days at 25 °C, or three at the highest, are short', () => {
    const short = checkHeating(daily(21, [25, 25, 55, 55, 55, 55]), cement)
    expect(short.verdict).toBe('fail')
    expect(short.steps.map(({ state, heldHours }) => [state, heldHours])).toEqual([
      ['short', 48],
      ['kept', 96],
    ])
    expect(checkHeating(daily(21, [25, 25, 25, 55, 55, 55]), cement).steps[1]).toMatchObject({
      state: 'short',
      heldHours: 72,
    })
  })
  test('HEAT-4: a step that was left out is missing', () => {
    const result = checkHeating(daily(21, [55, 55, 55, 55]), cement)
    expect(result.steps.map(({ state }) => state)).toEqual(['missing', 'kept'])
    expect(result.verdict).toBe('fail')
  })
  test('HEAT-5: 56 °C is above the highest flow', () => {
    const result = checkHeating(daily(21, [25, 25, 25, 56, 56, 56, 56]), cement)
    expect(result.verdict).toBe('fail')
    expect(result.findings.find(({ what }) => what === 'Highest flow')).toMatchObject({
      value: 56,
      limit: { value: 55 },
    })
  })
  test('HEAT-6: keeping frost out with 20 °C before day 21 is no first heat', () => {
    const winter = [...daily(3, [18, 20]).slice(0, 2), { at: laidAt + 5 * day, flowC: null }]
    const nights = Array.from({ length: 15 }, (_, i) => ({ at: laidAt + (6 + i) * day, flowC: null }))
    const result = checkHeating([...winter, ...nights, ...daily(21, functional)], cement)
    expect(result.verdict).toBe('pass')
    expect(result.firstHeatAt).toBe(laidAt + 21 * day)
  })
  test('HEAT-7: a gap of two days hides a step: not known, neither kept nor missing', () => {
    const log = daily(21, functional).filter((_, i) => i !== 1)
    const result = checkHeating(log, cement)
    expect(result.steps[0]).toMatchObject({ state: 'not known' })
    expect(result.verdict).toBe('not known')
  })
  test('HEAT-8: an empty log, or an unknown laying day, is not known', () => {
    expect(checkHeating([], cement).verdict).toBe('not known')
    expect(checkHeating(daily(21, functional), { ...cement, laidAt: null }).verdict).toBe('not known')
  })
  test('HEAT-9: EN 1264-4 names no rate, so a rise of 30 K in a day is remarked on and does not fail', () => {
    const result = checkHeating(daily(21, functional), cement)
    expect(result.cautions).toEqual([
      { what: 'Largest rise', value: 30, limit: expect.objectContaining({ value: 5 }) },
    ])
  })
  test('HEAT-10: H2 holds 55 °C for 5 days at 50 mm, 7 at 65 mm (rounded up) and 8 at 80 mm', () => {
    expect([40, 50, 51, 60, 65, 80].map(holdDaysByThickness)).toEqual([5, 5, 6, 6, 7, 8])
    const up = [25, 35, 45]
    const flows = (hold: number) => [...up, ...Array.from({ length: hold }, () => 55), ...up.toReversed()]
    expect(checkHeating(daily(7, flows(7)), { ...sulfate, plan: 'H2', thicknessMm: 65 }).verdict).toBe('pass')
    const short = checkHeating(daily(7, flows(6)), { ...sulfate, plan: 'H2', thicknessMm: 65 })
    expect(short.steps.find(({ state }) => state === 'short')).toMatchObject({
      flowC: 55,
      neededHours: 168,
      heldHours: 144,
    })
  })
  test('HEAT-11: H4 rises by 5 K and falls by 10 K; a jump of 10 K breaks it', () => {
    const good = [20, 25, 30, 35, 40, 45, 35, 25, 15, 15, 15]
    const programme = { ...cement, plan: 'H4', designMaxC: 45 } as const
    expect(checkHeating(daily(21, good), programme).verdict).toBe('pass')
    const jump = checkHeating(daily(21, [20, 30, 35, 40, 45, 35, 25, 15, 15, 15, 15]), programme)
    expect(jump.verdict).toBe('fail')
    expect(jump.findings.find(({ what }) => what === 'Largest rise')).toMatchObject({ value: 10 })
    expect(jump.steps.find(({ flowC }) => flowC === 25)?.state).toBe('missing')
    expect(checkHeating(daily(21, good.slice(0, 9)), programme).verdict).toBe('fail')
  })
  test('HEAT-12: each plan, followed to the letter, passes; each with its hottest day left out does not', () => {
    for (const [id, plan] of Object.entries(heatingPlans)) {
      const screed = plan.screeds[0]
      const levels = levelsOf(plan, plan.mostC, 65)
      const flows = levels.flatMap(({ flowC, days, cooling }) =>
        Array.from({ length: Math.max(1, days) }, () => (cooling ? null : flowC)),
      )
      const padded =
        plan.leastTotalDays === null ? flows : [...flows, ...Array.from({ length: 11 }, () => flows.at(-1)!)]
      const programme = { plan: id as HeatingPlanId, screed, laidAt, thicknessMm: 65, designMaxC: plan.mostC }
      expect(checkHeating(daily(21, padded), programme).verdict, id).toBe('pass')
      const hottest = Math.max(...levels.map(({ flowC }) => flowC))
      const cooler = padded.filter((flowC) => flowC !== hottest)
      expect(checkHeating(daily(21, cooler), programme).verdict, `${id} without ${hottest} °C`).toBe('fail')
    }
  })
  test('HEAT-13: readings at 07:10 and 07:00 are still days', () => {
    const log = daily(21, functional).map(({ at, flowC }, i) => ({
      at: (at as number) + (i % 2) * 10 * 60_000,
      flowC,
    }))
    expect(checkHeating(log, cement).verdict).toBe('pass')
  })
  test('HEAT-14: a logger that leaves the band for an hour does not end the step; six hours off do', () => {
    const hourly = (offHours: number) =>
      Array.from({ length: 24 * 7 + offHours + 1 }, (_, i): HeatingReading => {
        const off = i >= 30 && i < 30 + offHours
        return { at: laidAt + 21 * day + i * 3_600_000, flowC: off ? 21 : i < 72 + offHours ? 25 : 55 }
      })
    expect(checkHeating(hourly(1), cement).verdict).toBe('pass')
    expect(checkHeating(hourly(6), cement).verdict).toBe('fail')
  })
  test('HEAT-15: the same log in another time zone gives the same answer', () => {
    const log = daily(21, functional)
    const there = log.map(({ at, flowC }) => ({
      at: `${new Date((at as number) - 5 * 3_600_000).toISOString().slice(0, 19)}-05:00`,
      flowC,
    }))
    expect(checkHeating(there, cement)).toEqual(checkHeating(log, cement))
  })
  test('HEAT-16: a plan for another screed, an unknown plan, or times that step back are refused', () => {
    expect(() => checkHeating([], { ...cement, plan: 'H2' })).toThrow(/not for cement-sand/)
    expect(() => checkHeating([], { ...cement, plan: 'H9' as HeatingPlanId })).toThrow(InputError)
    expect(() => checkHeating(daily(21, functional).toReversed(), cement)).toThrow(/out of order/)
  })
})

test('HEAT-17: a company rule moves the day of first heat', () => {
  const rules = effectiveRules('british', {}, [
    { id: 'heat.firstCementDays', value: 10, reason: 'Maker’s sheet' },
  ])
  expect(checkHeating(daily(10, functional), { ...cement, rules }).verdict).toBe('pass')
})

test('HEAT-18: a heating designed for less than the plan asks is judged at its own highest temperature', () => {
  const levels = levelsOf(heatingPlans.H2, 45, 50).map(({ flowC, days }) => [flowC, days])
  expect(levels).toEqual([
    [25, 1],
    [35, 1],
    [45, 5],
    [35, 1],
    [25, 1],
  ])
  expect(checkHeating(daily(21, [25, 25, 25, 40, 40, 40, 40]), { ...cement, designMaxC: 40 }).verdict).toBe(
    'pass',
  )
})
