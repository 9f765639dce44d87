import { describe, expect, test } from 'vitest'
import { effectiveRules } from '#model/rules/index.ts'
import { trafficGate, trafficKinds } from '#model/strength/index.ts'
import { held, hour, midnight } from './series.ts'

const rules = effectiveRules('british')
const day = 24 * hour

describe('TRAF: who may go on the bay', () => {
  test('TRAF-1: at 20 °C the days of the rule decide: foot 4, boards 5, wheels 7, points 28', () => {
    const answer = trafficGate({ series: held([[20, 240]]), laidAt: midnight, rules })
    expect(trafficKinds.map((kind) => (answer[kind].from! - midnight) / day)).toEqual([4, 5, 7, 28])
  })
  test('TRAF-2: at 2 °C the maturity decides: foot after 1100/12 h is before day 4, wheels after 5000/12 h are past day 7', () => {
    const answer = trafficGate({ series: held([[2, 24 * 20]]), laidAt: midnight, rules })
    expect(answer.foot.from).toBe(midnight + 4 * day)
    expect((answer.wheels.from! - midnight) / hour).toBeCloseTo(5000 / 12, 6)
    expect(answer.wheels.because).toContain('after the days')
  })
  test('TRAF-3: without temperatures nothing is permitted, and the reason says so', () => {
    const answer = trafficGate({ series: [], laidAt: midnight, rules })
    for (const kind of trafficKinds) expect(answer[kind]).toMatchObject({ from: null, state: 'not known' })
    expect(answer.foot.because).toBe('No temperatures in the screed were recorded.')
  })
  test('TRAF-4: unmeasured hours count as nothing, so a gap delays and never hastens', () => {
    const whole = trafficGate({ series: held([[5, 24 * 20]]), laidAt: midnight, rules })
    const gapped = trafficGate({
      series: [...held([[5, 24]]), ...held([[5, 24 * 18]], midnight + 48 * hour)],
      laidAt: midnight,
      rules,
    })
    expect(gapped.unknownHours).toBe(24)
    expect(gapped.provenCh).toBe(19 * 24 * 15)
    expect(gapped.wheels.from! - whole.wheels.from!).toBe(24 * hour)
  })
  test('TRAF-5: not yet mature is told from not known', () => {
    const short = trafficGate({ series: held([[20, 24]]), laidAt: midnight, rules })
    expect(short.foot).toMatchObject({
      state: 'not yet mature',
      from: null,
      because: '720 of 1100 °C·h are proven.',
    })
    const late = trafficGate({ series: held([[20, 24]], midnight + 10 * hour), laidAt: midnight, rules })
    expect(late.foot).toMatchObject({ state: 'not known', from: null })
  })
  test('TRAF-6: readings before laying do not count', () => {
    const answer = trafficGate({ series: held([[20, 48]], midnight - 24 * hour), laidAt: midnight, rules })
    expect(answer.provenCh).toBeCloseTo(720, 6)
  })
  test('TRAF-7: for calcium sulfate only the days count', () => {
    const answer = trafficGate({ series: [], laidAt: midnight, rules, screed: 'calcium sulfate' })
    expect(answer.foot.from).toBe(midnight + 4 * day)
    expect(answer.foot.limits.maturityCh).toBeNull()
  })
  test('TRAF-8: the choice of the project moves the gate', () => {
    const two = effectiveRules('british', { footTraffic: 'two' })
    const answer = trafficGate({ series: held([[20, 96]]), laidAt: midnight, rules: two })
    expect((answer.foot.from! - midnight) / day).toBe(2)
  })
})
