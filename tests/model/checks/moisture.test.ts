import { describe, expect, test } from 'vitest'
import {
  acceptMoisture,
  emissionRate,
  type MoistureTest,
  moistureLimit,
  probeCount,
  type TestContext,
  whyMoistureLimit,
} from '#model/checks/index.ts'
import { InputError } from '#model/errors.ts'
import { effectiveRules, type Limit } from '#model/rules/index.ts'

const hour = 3_600_000
const start = Date.parse('2026-11-20T08:00:00+00:00')
const at = (hours: number) => new Date(start + hours * hour).toISOString()

const context: TestContext = {
  rules: effectiveRules('british'),
  screed: 'cement-sand',
  construction: 'floating',
  heated: true,
  thicknessMm: 65,
  finish: 'float',
  instrument: {
    certificateDueOn: '2027-03-01',
    lastCheck: { at: at(-100), foundPercent: 75.2, passed: true },
  },
}
const box = (last: number, before = last): MoistureTest => ({
  method: 'hygrometer box',
  at: at(72),
  setAt: at(0),
  readings: [
    { at: at(48), rhPercent: before },
    { at: at(72), rhPercent: last },
  ],
  probeSoakMin: 45,
  sealOk: true,
  heatingOffSince: at(-97),
  driersOffSince: at(-120),
  roomC: 19,
  floorC: 18,
  roomRhPercent: 55,
})
const limit = moistureLimit({
  covering: 'vinyl',
  method: 'hygrometer box',
  screed: 'cement-sand',
  heated: true,
  ruleSet: 'british',
})

describe('ACC: hygrometer box', () => {
  test('ACC-1: 75.0 % passes and 75.1 % fails (BS 8203, quoted second-hand)', () => {
    expect(acceptMoisture(box(75), limit, context)).toMatchObject({ verdict: 'pass', value: 75 })
    expect(acceptMoisture(box(75.1), limit, context).verdict).toBe('fail')
  })
  test('ACC-2: timber: 65.0 % passes and 65.1 % fails (BS 8201:2011, quoted second-hand)', () => {
    const timber = moistureLimit({
      covering: 'timber bonded',
      method: 'hygrometer box',
      screed: 'cement-sand',
      heated: false,
      ruleSet: 'british',
    })
    expect(acceptMoisture(box(65), timber, context).verdict).toBe('pass')
    expect(acceptMoisture(box(65.1), timber, context).verdict).toBe('fail')
  })
  test.each([
    [
      'box only 71 h old',
      {
        at: at(71),
        readings: [
          { at: at(40), rhPercent: 60 },
          { at: at(71), rhPercent: 60 },
        ],
      },
      {},
      /72 h/,
    ],
    ['reading still moving by 1.1 %', box(60, 61.1), {}, /two readings 24 h apart/],
    ['heating off for 95 h', { heatingOffSince: at(-95) }, {}, /Heating off/],
    ['driers switched off after the box was set', { driersOffSince: at(1) }, {}, /Driers off/],
    ['a broken seal', { sealOk: false }, {}, /seal was broken/],
    ['a soak of 29 min', { probeSoakMin: 29 }, {}, /29 against ≥ 30 min/],
    [
      'an instrument checked 31 days ago',
      {},
      { instrument: { lastCheck: { at: at(72 - 31 * 24), passed: true } } },
      /Age of the last instrument check/,
    ],
    [
      'a salt reading of 72.9 %',
      {},
      { instrument: { lastCheck: { at: at(-10), foundPercent: 72.9, passed: true } } },
      /Reading above salt/,
    ],
    [
      'a salt reading of 77.1 %',
      {},
      { instrument: { lastCheck: { at: at(-10), foundPercent: 77.1, passed: true } } },
      /Reading above salt/,
    ],
    [
      'a failed instrument check',
      {},
      { instrument: { lastCheck: { at: at(-10), passed: false } } },
      /failed its last check/,
    ],
    [
      'an instrument checked only afterwards',
      {},
      { instrument: { lastCheck: { at: at(80), passed: true } } },
      /only after the test/,
    ],
    [
      'an expired certificate',
      {},
      { instrument: { ...context.instrument, certificateDueOn: '2026-11-01' } },
      /expired on 1 Nov 2026/,
    ],
    ['a power-floated surface after 72 h', {}, { finish: 'power' }, /168 h/],
    ['a sealed surface', {}, { surfaceSealed: true }, /cannot see the screed/],
    [
      'a point outside the bay',
      { x: 9, y: 1 },
      {
        outlineM: [
          [0, 0],
          [5, 0],
          [5, 4],
          [0, 4],
        ],
      },
      /outside this bay/,
    ],
  ] as [string, Partial<MoistureTest>, Partial<TestContext>, RegExp][])(
    'ACC-3: %s proves nothing, however dry',
    (_, test_, context_, reason) => {
      const result = acceptMoisture({ ...box(60), ...test_ }, limit, { ...context, ...context_ })
      expect(result.verdict).toBe('invalid')
      expect(result.reasons.join(' ')).toMatch(reason)
    },
  )
  test.each(['setAt', 'probeSoakMin', 'sealOk', 'heatingOffSince', 'driersOffSince', 'readings'] as const)(
    'ACC-4: without %s it is not known, never a pass',
    (field) => {
      const result = acceptMoisture({ ...box(60), [field]: undefined }, limit, context)
      expect(result.verdict).toBe('not known')
      expect(result.reasons.join(' ')).toContain('Not recorded')
    },
  )
  test('ACC-5: an unknown instrument is not known; so is a single reading', () => {
    expect(acceptMoisture(box(60), limit, { ...context, instrument: null }).verdict).toBe('not known')
    const single = { ...box(60), readings: [{ at: at(80), rhPercent: 60 }] }
    expect(acceptMoisture(single, limit, context).verdict).toBe('not known')
  })
  test('ACC-6: validity comes before value: an invalid test that reads wet is invalid, not failed', () => {
    expect(acceptMoisture({ ...box(95), sealOk: false }, limit, context).verdict).toBe('invalid')
  })
  test('ACC-7: 50 to 75 mm on a separating layer settle in 24 h; 76 mm do not', () => {
    const short = {
      ...box(60),
      setAt: at(0),
      at: at(30),
      readings: [
        { at: at(5), rhPercent: 60 },
        { at: at(30), rhPercent: 60 },
      ],
    }
    const unbonded = { ...context, construction: 'unbonded' } as const
    expect(acceptMoisture(short, limit, unbonded).verdict).toBe('pass')
    expect(acceptMoisture(short, limit, { ...unbonded, thicknessMm: 76 }).verdict).toBe('invalid')
    for (const thicknessMm of [50, 75])
      expect(acceptMoisture(short, limit, { ...unbonded, thicknessMm }).verdict).toBe('pass')
    expect(acceptMoisture(short, limit, { ...unbonded, thicknessMm: 49 }).verdict).toBe('invalid')
    expect(acceptMoisture(short, limit, context).verdict).toBe('invalid')
  })
  test('ACC-8: never heated stands in for the hours off', () => {
    const never = { ...box(60), heatingOffSince: undefined, driersOffSince: undefined, neverHeated: true }
    expect(acceptMoisture(never, limit, context).verdict).toBe('pass')
  })
  test('ACC-9: room and seal remarks are made and do not decide', () => {
    const odd = { ...box(60), roomC: 14, floorC: 10, roomRhPercent: 60.4 }
    const result = acceptMoisture(odd, limit, context)
    expect(result.verdict).toBe('pass')
    expect(result.cautions).toHaveLength(3)
  })
  test('ACC-10: a value a hair above the limit is not rounded into a pass, nor shown as one', () => {
    const result = acceptMoisture(box(75.001), limit, context)
    expect(result.verdict).toBe('fail')
    expect(result.reasons[0]).toContain('75.001')
  })
  test('ACC-11: without a limit it is not known', () => {
    expect(acceptMoisture(box(60), null, context)).toMatchObject({ verdict: 'not known', value: 60 })
  })
  test('ACC-12: readings out of order, or an instant without an offset, are refused', () => {
    const reversed = {
      ...box(60),
      readings: [
        { at: at(72), rhPercent: 60 },
        { at: at(48), rhPercent: 60 },
      ],
    }
    expect(() => acceptMoisture(reversed, limit, context)).toThrow(InputError)
    expect(() => acceptMoisture({ ...box(60), setAt: '2026-11-20T08:00' }, limit, context)).toThrow(
      expect.objectContaining({ field: 'setAt' }),
    )
  })
  test('ACC-13: the same instants written in another time zone give the same verdict', () => {
    const shifted = (iso: string) =>
      `${new Date(Date.parse(iso) + 9 * hour).toISOString().slice(0, 19)}+09:00`
    const test_ = box(74)
    const there: MoistureTest = {
      ...test_,
      at: shifted(test_.at as string),
      setAt: shifted(test_.setAt!),
      heatingOffSince: shifted(test_.heatingOffSince!),
      driersOffSince: shifted(test_.driersOffSince!),
      readings: test_.readings!.map((reading) => ({ ...reading, at: shifted(reading.at) })),
    }
    expect(acceptMoisture(there, limit, context)).toEqual(acceptMoisture(test_, limit, context))
  })
})

describe('ACC: probe in a drilled hole', () => {
  const probe = (last: number): MoistureTest => ({
    ...box(last),
    method: 'probe',
    holeDepthMm: 26,
    pipesLocated: true,
  })
  test('ACC-14: a hole at 40 % of 65 mm passes; 2 % of the thickness off is allowed, 3 % is not', () => {
    expect(acceptMoisture(probe(70), limit, context).verdict).toBe('pass')
    expect(acceptMoisture({ ...probe(70), holeDepthMm: 27.3 }, limit, context).verdict).toBe('pass')
    expect(acceptMoisture({ ...probe(70), holeDepthMm: 28 }, limit, context).verdict).toBe('invalid')
    expect(acceptMoisture({ ...probe(70), holeDepthMm: 13 }, limit, { ...context, faces: 2 }).verdict).toBe(
      'pass',
    )
  })
  test('ACC-15: without thickness or depth it is not known', () => {
    expect(acceptMoisture(probe(70), limit, { ...context, thicknessMm: null }).verdict).toBe('not known')
    expect(acceptMoisture({ ...probe(70), holeDepthMm: undefined }, limit, context).verdict).toBe('not known')
  })
  test('ACC-16: American rules: 23 h after drilling is too early, 24 h is not, and before 2018 it took 72 h (ASTM F2170)', () => {
    const american = { ...context, rules: effectiveRules('american') }
    const readAfter = (hours: number): MoistureTest => ({
      ...probe(70),
      at: at(hours),
      readings: [{ at: at(hours), rhPercent: 70 }],
      conditionedSince: at(hours - 48),
    })
    expect(acceptMoisture(readAfter(23), limit, american).verdict).toBe('invalid')
    expect(acceptMoisture(readAfter(24), limit, american).verdict).toBe('pass')
    const old = { ...context, rules: effectiveRules('american', { probeWait: 'before2018' }) }
    expect(acceptMoisture(readAfter(24), limit, old).verdict).toBe('invalid')
    expect(acceptMoisture(readAfter(72), limit, old).verdict).toBe('pass')
    expect(acceptMoisture({ ...readAfter(24), conditionedSince: at(-23) }, limit, american).verdict).toBe(
      'invalid',
    )
    expect(acceptMoisture({ ...readAfter(24), conditionedSince: undefined }, limit, american).verdict).toBe(
      'not known',
    )
  })
  test('ACC-17: drilling into a heated bay without locating its pipes is remarked on', () => {
    expect(
      acceptMoisture({ ...probe(70), pipesLocated: undefined }, limit, context).cautions.join(),
    ).toContain('pipes')
  })
})

describe('ACC: samples', () => {
  const german = { ...context, rules: effectiveRules('german') }
  const carbideLimit = (screed: TestContext['screed'], heated: boolean, choices = {}) =>
    moistureLimit({
      covering: 'vinyl',
      method: 'carbide',
      screed,
      heated,
      ruleSet: effectiveRules('german', choices),
    })
  const carbide = (cmPercent: number, sampleG = 50): MoistureTest => ({
    method: 'carbide',
    at: at(0),
    cmPercent,
    sampleG,
    depthFromMm: 0,
    depthToMm: 65,
    pressureBar: 0.8,
  })

  test('ACC-29: a carbide test with an instrument out of its certificate proves nothing, however dry', () => {
    const instrument = { ...context.instrument, certificateDueOn: '2026-11-01' }
    const limitOfFloor = carbideLimit('cement-sand', false)
    const expired = acceptMoisture(carbide(1), limitOfFloor, { ...german, heated: false, instrument })
    expect(expired.verdict).toBe('invalid')
    expect(expired.reasons.join(' ')).toMatch(/expired on 1 Nov 2026/)
    expect(acceptMoisture(carbide(1), limitOfFloor, { ...german, heated: false }).verdict).toBe('pass')
  })
  test('ACC-18: cement 2.0 / 2.1 unheated and 1.8 / 1.9 heated (DIN 18560-1, quoted second-hand)', () => {
    const verdictOf = (value: number, heated: boolean) =>
      acceptMoisture(carbide(value), carbideLimit('cement-sand', heated), { ...german, heated }).verdict
    expect([verdictOf(2, false), verdictOf(2.1, false), verdictOf(1.8, true), verdictOf(1.9, true)]).toEqual([
      'pass',
      'fail',
      'pass',
      'fail',
    ])
  })
  test('ACC-19: heated calcium sulfate at 0.4 passes by DIN 18560-1 and fails by the rule of the trades', () => {
    const floor = { ...german, screed: 'calcium sulfate' } as const
    expect(acceptMoisture(carbide(0.4, 100), carbideLimit('calcium sulfate', true), floor).verdict).toBe(
      'pass',
    )
    expect(
      acceptMoisture(
        carbide(0.4, 100),
        carbideLimit('calcium sulfate', true, { calciumSulfateHeated: 'trade' }),
        floor,
      ).verdict,
    ).toBe('fail')
  })
  test('ACC-20: too small a sample proves nothing, an unknown one is not known', () => {
    const floor = { ...german, screed: 'calcium sulfate' } as const
    expect(acceptMoisture(carbide(0.2, 50), carbideLimit('calcium sulfate', true), floor).verdict).toBe(
      'invalid',
    )
    expect(
      acceptMoisture({ ...carbide(1), sampleG: undefined }, carbideLimit('cement-sand', true), german)
        .verdict,
    ).toBe('not known')
    expect(
      acceptMoisture({ ...carbide(1), cmPercent: undefined }, carbideLimit('cement-sand', true), german)
        .verdict,
    ).toBe('not known')
  })
  test('ACC-21: a limit for another test proves nothing', () => {
    const result = acceptMoisture(box(60), carbideLimit('cement-sand', false), context)
    expect(result.verdict).toBe('invalid')
    expect(result.reasons.join()).toContain('limit for another test')
  })
  test('ACC-22: oven: moisture is on the dry mass without the tin, and calcium sulfate dried at 105 °C proves nothing', () => {
    const own: Limit = {
      value: 0.5,
      unit: '% by mass',
      operator: '<=',
      source: 'Contract',
      provenance: 'company rule',
    }
    const oven: MoistureTest = {
      method: 'oven dry',
      at: at(0),
      wetG: 201,
      dryG: 200.5,
      tareG: 100.5,
      ovenC: 40,
    }
    const floor = { ...context, screed: 'calcium sulfate' } as const
    expect(acceptMoisture(oven, own, floor)).toMatchObject({ verdict: 'pass', value: expect.closeTo(0.5, 9) })
    expect(acceptMoisture({ ...oven, ovenC: 105 }, own, floor).verdict).toBe('invalid')
    expect(acceptMoisture({ ...oven, ovenC: 105 }, own, context).verdict).toBe('pass')
    expect(acceptMoisture({ ...oven, tareG: undefined }, own, floor).verdict).toBe('not known')
    expect(() => acceptMoisture({ ...oven, dryG: 202 }, own, floor)).toThrow(
      expect.objectContaining({ field: 'dryG' }),
    )
  })
  test('ACC-23: crushed sample: 80 % passes unheated since 2021 and fails by the rule before (quoted second-hand)', () => {
    const sample: MoistureTest = { ...box(80), method: 'crushed sample' }
    const limitOf = (choices = {}) =>
      moistureLimit({
        covering: 'vinyl',
        method: 'crushed sample',
        screed: 'cement-sand',
        heated: false,
        ruleSet: effectiveRules('german', choices),
      })
    expect(acceptMoisture(sample, limitOf(), german).verdict).toBe('pass')
    expect(acceptMoisture(sample, limitOf({ sampleHumidity: 'before2021' }), german).verdict).toBe('fail')
  })
})

describe('ACC: calcium chloride dish and meter', () => {
  const american = { ...context, heated: false, rules: effectiveRules('american') }
  const dishLimit = moistureLimit({
    covering: 'vinyl',
    method: 'calcium chloride',
    screed: 'cement-sand',
    heated: false,
    ruleSet: 'american',
  })
  const dish = (gainG: number, hours = 72): MoistureTest => ({
    method: 'calcium chloride',
    at: at(hours),
    setAt: at(0),
    groundAt: at(-24),
    conditionedSince: at(-48),
    gainG,
    exposedAreaM2: 0.04133,
    roomC: 23,
    roomRhPercent: 50,
  })
  test('ACC-24: 1.8 g in 72 h is 2.97 lb and passes 3 lb; 1.9 g fails (ASTM F1869, F710, quoted second-hand)', () => {
    expect(acceptMoisture(dish(1.8), dishLimit, american)).toMatchObject({
      verdict: 'pass',
      value: expect.closeTo(2.973, 2),
    })
    expect(acceptMoisture(dish(1.9), dishLimit, american).verdict).toBe('fail')
  })
  test.each([
    ['59 h', { at: at(59) }],
    ['73 h', { at: at(73) }],
    ['air at 18.3 °C', { roomC: 18.3 }],
    ['air at 61 %', { roomRhPercent: 61 }],
    ['a spot ground 23 h before', { groundAt: at(-23) }],
    ['a room conditioned for 47 h', { conditionedSince: at(-47) }],
  ] as [string, Partial<MoistureTest>][])('ACC-25: %s proves nothing', (_, change) => {
    expect(acceptMoisture({ ...dish(1), ...change }, dishLimit, american).verdict).toBe('invalid')
  })
  test('ACC-26: on calcium sulfate the dish is no test at all, and without the area it is not known', () => {
    expect(acceptMoisture(dish(1), dishLimit, { ...american, screed: 'calcium sulfate' }).verdict).toBe(
      'invalid',
    )
    expect(acceptMoisture({ ...dish(1), exposedAreaM2: undefined }, dishLimit, american).verdict).toBe(
      'not known',
    )
  })
  test('ACC-27: a limit in g/(m²·24 h) is compared in that unit', () => {
    const metric: Limit = {
      value: 14.6,
      unit: 'g/(m²·24 h)',
      operator: '<=',
      source: 'Maker',
      provenance: 'company rule',
    }
    expect(acceptMoisture(dish(1.8), metric, american)).toMatchObject({
      verdict: 'pass',
      unit: 'g/(m²·24 h)',
    })
    expect(acceptMoisture(dish(1.82), metric, american).verdict).toBe('fail')
  })
  test('ACC-28: an electrical meter never accepts a floor', () => {
    const meter: MoistureTest = { method: 'electrical survey', at: at(0), meterReading: 1 }
    expect(acceptMoisture(meter, limit, context).verdict).toBe('invalid')
    expect(
      moistureLimit({
        covering: 'vinyl',
        method: 'electrical survey',
        screed: 'cement-sand',
        heated: false,
        ruleSet: 'british',
      }),
    ).toBeNull()
  })
})

describe('LIM: limits and points', () => {
  test('LIM-1: rules without a limit for a test say so with null', () => {
    expect(
      moistureLimit({
        covering: 'vinyl',
        method: 'carbide',
        screed: 'cement-sand',
        heated: false,
        ruleSet: 'british',
      }),
    ).toBeNull()
    expect(
      moistureLimit({
        covering: 'vinyl',
        method: 'calcium chloride',
        screed: 'calcium sulfate',
        heated: false,
        ruleSet: 'american',
      }),
    ).toBeNull()
  })
  test('LIM-2: the why names the rule set, its choices and the source', () => {
    const why = whyMoistureLimit({
      covering: 'vinyl',
      method: 'carbide',
      screed: 'calcium sulfate',
      heated: true,
      ruleSet: effectiveRules('german', { calciumSulfateHeated: 'trade' }),
    })
    expect(why).toMatchObject({ value: 0.3, unit: '% CM', provenance: 'quoted second-hand' })
    expect(why.inputs).toContainEqual({ name: 'calciumSulfateHeated', value: 'trade', unit: 'choice' })
    expect(why.source).toContain('covering trades')
  })
  test('LIM-3: an unknown test is refused', () => {
    expect(() =>
      moistureLimit({
        covering: 'vinyl',
        method: 'lick' as 'probe',
        screed: 'cement-sand',
        heated: false,
        ruleSet: 'british',
      }),
    ).toThrow(InputError)
  })
  test('LIM-4: points in square metres: 100 need 3, 101 need 4, 300 need 5', () => {
    expect([100, 101, 300].map((areaM2) => probeCount({ areaM2 }))).toEqual([3, 4, 5])
  })
  test('LIM-5: an area must be given once', () => {
    expect(() => probeCount({} as { areaM2: number })).toThrow(/either in m² .* or in ft²/)
    expect(() => emissionRate({ gainG: 1, hours: 72, areaM2: 0.04, areaFt2: 0.4 } as never)).toThrow(
      InputError,
    )
  })
})
