import { describe, expect, it } from 'vitest'
import {
  diagnose,
  illustrativeRates,
  type RateRange,
  type RepairOptionId,
  type RepairQuestion,
  type RepairRates,
  repairDecision,
  repairOptions,
  repairQuestionFromStory,
} from '#model/faults/index.ts'
import { day, storyOf } from '../../support/story.ts'
import { now, readyBay, t0 } from '../readiness/ready-bay.ts'
import { withDefect } from './support.ts'

/** A still crack across a sound bay of 40 m² under textile; its cause is named and gone. */
const crack: RepairQuestion = {
  symptoms: ['S06'],
  causes: [{ id: 'BAY', probability: 0.86, band: 'supported' }],
  recordStrengthPercent: 70,
  causeNamed: 'BAY',
  causeRemoved: true,
  extent: { bayAreaM2: 40, lengthM: 14.2, widthMm: 0.5, stepMm: 0 },
  movement: 'dormant',
  construction: 'unbonded',
  screed: 'cement-sand',
  thicknessMm: 68,
  heated: false,
  covering: 'textile',
  soundnessCategory: 'B',
  soundness: 'pass',
  moisture: 'dry',
}
/** Friable screed of 70 mm, floating, unheated; the depth and the extent are for each case. */
const weak: RepairQuestion = {
  ...crack,
  symptoms: ['S02'],
  causes: [{ id: 'LEAN', probability: 0.9, band: 'supported' }],
  causeNamed: 'LEAN',
  extent: { bayAreaM2: 40 },
  movement: 'not known',
  construction: 'floating',
  thicknessMm: 70,
  minThicknessMm: 65,
  soundnessCategory: 'C',
  soundness: 'fail',
}

const option = (question: RepairQuestion, id: RepairOptionId) =>
  repairOptions(question).find((each) => each.option === id)!
const verdicts = (question: RepairQuestion) =>
  Object.fromEntries(repairOptions(question).map(({ option: id, verdict }) => [id, verdict]))
const allowed = (question: RepairQuestion) =>
  repairOptions(question)
    .filter(({ feasible }) => feasible)
    .map(({ option: id }) => id)
const extended = (
  question: RepairQuestion,
  extent: Partial<RepairQuestion['extent']>,
  change = {},
): RepairQuestion => ({
  ...question,
  ...change,
  extent: { ...question.extent, ...extent },
})
const fixedRates = (change: Partial<Record<keyof RepairRates['rates'], number>>): RepairRates => ({
  ...illustrativeRates,
  rates: {
    ...illustrativeRates.rates,
    ...(Object.fromEntries(
      Object.entries(change).map(([item, rate]) => [item, { low: rate, high: rate }]),
    ) as Record<keyof RepairRates['rates'], RateRange>),
  },
})

/** Worked by hand; rates are invented for demonstration, rules are our judgement after common practice. */
describe('REP: worked examples', () => {
  it('REP-1: a still mid-bay crack: filled with 0.83 L for 562 at 22 a metre and 250 a visit, two days', () => {
    const fill = option({ ...crack, rates: fixedRates({ setUp: 250, crackFillPerM: 22 }) }, 'fill')
    expect(fill).toMatchObject({ verdict: 'allowed', rule: 'R08', daysLost: { p50: 2 } })
    expect(fill.quantities[0]).toMatchObject({ what: 'Resin to order', amount: 0.83, unit: 'L' })
    expect(fill.cost!.low).toBeCloseTo(562.4, 6)
    expect(fill.cost!.high).toBeCloseTo(562.4, 6)
    expect(allowed(crack)).toEqual(['fill'])
    expect(option(crack, 'leave').excludedBecause).toMatch(
      /0\.5 mm wide; a still crack may stay below 0\.3 mm/,
    )
    expect(allowed(extended(crack, { widthMm: 0.25 }))).toContain('leave')
    expect(option(extended(crack, { widthMm: 0.25, stepMm: 1 }), 'leave').verdict).toBe('allowed')
    expect(option(extended(crack, { widthMm: 0.25, stepMm: 1.1 }), 'leave').verdict).toBe('excluded')
    for (const id of ['patch', 'replace'] as const) expect(option(crack, id).verdict).toBe('excluded')
    expect(option(crack, 'patch')).toMatchObject({
      rule: 'R05',
      excludedBecause: expect.stringMatching(/sound/),
    })
    expect(option(crack, 'replace')).toMatchObject({ rule: 'R04' })
  })

  it('REP-2: a heated threshold crack that moves becomes a joint for 300; filling is excluded', () => {
    const threshold: RepairQuestion = {
      ...extended(crack, { lengthM: 1.1, widthMm: 2.5 }),
      symptoms: ['S07'],
      movement: 'live',
      whereJointBelongs: true,
      heated: true,
      thicknessMm: 65,
      rates: fixedRates({ setUp: 250, jointPerM: 45 }),
    }
    const joint = option(threshold, 'turn into joint')
    expect(joint).toMatchObject({ verdict: 'allowed', rule: 'R08' })
    expect(joint.cost!.low).toBeCloseTo(299.5, 6)
    expect(joint.cautions.join(' ')).toMatch(/sleeves/)
    expect(option(threshold, 'fill').excludedBecause).toMatch(/moves/)
    expect(allowed(threshold)).toEqual(['turn into joint'])
    const dead = { ...threshold, movement: 'dormant' as const, construction: 'unbonded' as const }
    expect(option(dead, 'fill').quantities.map(({ what, amount }) => [what, amount])).toEqual([
      ['Resin to order', 0.12],
      ['Dry fine sand in the crack', 0.27],
      ['Sand to blind', 0.55],
    ])
  })
})

describe('REP: rules in their order', () => {
  it('REP-3: R01: a stepped base crack stops everything and calls the engineer', () => {
    const doubt: RepairQuestion = { ...crack, structuralSigns: 'stepped base crack' }
    expect(repairDecision(doubt)).toMatchObject({
      rule: 'R01',
      outcome: 'stop: engineer',
      next: expect.stringMatching(/engineer/),
    })
    expect(new Set(Object.values(verdicts(doubt)))).toEqual(new Set(['excluded']))
    expect(repairDecision({ ...crack, structuralSigns: 'none' }).outcome).toBe('choose')
  })

  it('REP-4: R02: no named cause, or a record below 40 %, asks for tests; "not known, treated as" goes on', () => {
    expect(repairDecision({ ...crack, causeNamed: null })).toMatchObject({
      rule: 'R02',
      outcome: 'tests first',
    })
    expect(repairDecision({ ...crack, recordStrengthPercent: 39 }).rule).toBe('R02')
    expect(repairDecision({ ...crack, recordStrengthPercent: 40 }).outcome).toBe('choose')
    expect(repairDecision({ ...crack, recordStrengthPercent: null }).rule).toBe('R02')
    expect(repairDecision({ ...crack, recordStrengthPercent: 20, causeNamed: 'unknown' }).outcome).toBe(
      'choose',
    )
    expect(allowed({ ...crack, causeNamed: null })).toEqual([])
  })

  it('REP-4b: while a rule holds all options back, each still gives its own reason, with that rule named once beside it', () => {
    const unnamed = repairOptions({ ...crack, causeNamed: null })
    const by = (id: RepairOptionId) => unnamed.find(({ option: one }) => one === id)!
    expect(unnamed.map(({ heldBy }) => heldBy)).toEqual(unnamed.map(() => 'R02'))
    expect(by('fill')).toMatchObject({
      verdict: 'measure first',
      rule: 'R08',
      because: option(crack, 'fill').because,
    })
    expect(by('patch')).toMatchObject({
      verdict: 'excluded',
      rule: 'R05',
      because: option(crack, 'patch').because,
    })
    expect(new Set(unnamed.map(({ because }) => because)).size).toBeGreaterThan(4)
    for (const each of repairOptions({ ...crack, structuralSigns: 'deflection' })) {
      expect(each).toMatchObject({
        verdict: 'excluded',
        heldBy: 'R01',
        because: option(crack, each.option).because,
      })
      expect(each.because).not.toMatch(/structure/)
    }
    for (const each of repairOptions({ ...crack, leakActive: true })) expect(each.heldBy).toBe('R03')
    for (const each of repairOptions(crack)) expect(each.heldBy).toBeNull()
  })

  it('REP-5: R03: a leak is stopped first, and bloom whose source nobody has stopped too', () => {
    expect(repairDecision({ ...crack, leakActive: true })).toMatchObject({
      rule: 'R03',
      outcome: 'stop the source',
    })
    expect(repairDecision({ ...crack, symptoms: ['S14'], leakActive: null }).rule).toBe('R03')
    expect(repairDecision({ ...crack, symptoms: ['S14'], leakActive: false }).outcome).toBe('choose')
  })

  it('REP-6: weak screed gets no repair until its depth is known, and the test is named', () => {
    expect(allowed(extended(weak, { areaM2: 4 }))).toEqual([])
    expect(option(extended(weak, { areaM2: 4 }), 'patch')).toMatchObject({
      verdict: 'measure first',
      measure: expect.stringMatching(/Grind/),
    })
    const cracked = { ...weak, symptoms: ['S02', 'S06'], movement: 'dormant' } as RepairQuestion
    expect(allowed(extended(cracked, { lengthM: 3, widthMm: 1 }))).toEqual([])
  })

  it('REP-7: R04, R05: full depth over 40 % is replaced, over 10 % with a sound ring is patched', () => {
    const full = (areaM2: number, change = {}) =>
      extended(weak, { weakToMm: 70, areaM2, boundaryProven: true, ...change })
    expect(repairDecision(full(16)).rule).toBe('R04')
    expect(allowed(full(16))).toContain('replace')
    expect(allowed(full(16, { boundaryProven: null }))).toEqual(['replace'])
    expect(repairDecision(full(4)).rule).toBe('R05')
    expect(allowed(full(4))).toEqual(['patch'])
    expect(option(full(4, { boundaryProven: null }), 'patch')).toMatchObject({
      verdict: 'measure first',
      measure: expect.stringMatching(/ring/),
    })
    expect(option(full(4, { patches: 6 }), 'patch').verdict).toBe('excluded')
  })

  it('REP-8: a patch in a heated bay waits for the pipes to be located', () => {
    const heated = { ...extended(weak, { weakToMm: 70, areaM2: 4, boundaryProven: true }), heated: true }
    expect(option(heated, 'patch')).toMatchObject({
      verdict: 'measure first',
      measure: expect.stringMatching(/pipe/),
    })
    expect(option({ ...heated, pipesLocated: true }, 'patch').verdict).toBe('allowed')
    expect(option({ ...heated, pipesLocated: false }, 'patch').verdict).toBe('excluded')
  })

  it('REP-9: R06: 6 mm weak and dry: a trial first, then consolidation; wet, category A or a hard top exclude it', () => {
    const six = extended(weak, { weakToMm: 6, areaM2: 8 })
    const consolidate = (change: Partial<RepairQuestion>) => option({ ...six, ...change }, 'consolidate')
    expect(consolidate({})).toMatchObject({
      verdict: 'measure first',
      rule: 'R06',
      measure: expect.stringMatching(/^Trial on 0\.5 m²/),
    })
    expect(consolidate({ trialPassed: true }).verdict).toBe('allowed')
    expect(consolidate({ trialPassed: false }).verdict).toBe('excluded')
    expect(consolidate({ moisture: 'wet' }).excludedBecause).toMatch(/Wet pores/)
    expect(consolidate({ moisture: 'not known' }).measure).toMatch(/Moisture/)
    expect(consolidate({ soundnessCategory: 'A' }).excludedBecause).toMatch(/Category A/)
    expect(consolidate({ symptoms: ['S03'] }).excludedBecause).toMatch(/hard top/)
    expect(consolidate({ surfaceSealed: true }).verdict).toBe('excluded')
    expect(
      consolidate({ causes: [{ id: 'FROST', probability: 0.97, band: 'supported' }] }).excludedBecause,
    ).toMatch(/Frost/)
    const deep = (weakToMm: number) =>
      option(extended({ ...six, trialPassed: true }, { weakToMm }), 'consolidate').verdict
    expect([10, 15, 16].map(deep)).toEqual(['allowed', 'allowed', 'excluded'])
    // 8 m² · 6 mm · 0.22 · 0.6 · 1.1 kg/L, and a tenth more.
    expect(consolidate({}).quantities[0]!.amount).toBeCloseTo(8 * 6 * 0.22 * 0.6 * 1.1 * 1.1, 2)
  })

  it('REP-10: R07: a skin of 2 mm comes off, unless too little screed is left', () => {
    const skin = {
      ...extended(weak, { weakToMm: 2, areaM2: 10, pullOffMPa: 1.1 }),
      symptoms: ['S01'],
      soundness: 'pass',
    } as RepairQuestion
    expect(repairDecision(skin).rule).toBe('R07')
    expect(option(skin, 'remove skin')).toMatchObject({ verdict: 'allowed', rule: 'R07' })
    expect(option({ ...skin, minThicknessMm: 69 }, 'remove skin').excludedBecause).toMatch(
      /68 mm would be left of the 69 mm/,
    )
    expect([3, 3.5].map((weakToMm) => option(extended(skin, { weakToMm }), 'remove skin').verdict)).toEqual([
      'allowed',
      'excluded',
    ])
    expect(option(skin, 'patch').verdict).toBe('excluded')
  })

  it('REP-11: R08: movement not known is gauged first, and nothing is allowed before', () => {
    const unknown = { ...crack, movement: 'not known' as const }
    expect(allowed(unknown)).toEqual([])
    expect(option(unknown, 'fill')).toMatchObject({
      verdict: 'measure first',
      measure: expect.stringMatching(/gauge/),
    })
    expect(option(extended(crack, { widthMm: null }), 'fill').verdict).toBe('measure first')
    expect(
      [0.19, 0.2, 5, 5.1].map((widthMm) => option(extended(crack, { widthMm }), 'fill').verdict),
    ).toEqual(['excluded', 'allowed', 'allowed', 'excluded'])
    expect(option(extended(crack, { stepMm: 3 }), 'fill').quantities.map(({ what }) => what)).toContain(
      'Ties',
    )
    expect(option({ ...crack, moisture: 'wet' }, 'fill').verdict).toBe('excluded')
    expect(option({ ...crack, movement: 'live', straight: false }, 'turn into joint').because).toMatch(
      /saw a line beside it/,
    )
  })

  it('REP-12: R09: a stable hollow patch below 0.25 m² may stay under light use; one that rocks may not', () => {
    const hollow = (hollowM2: number, rocks: boolean | null, change: Partial<RepairQuestion> = {}) =>
      option(
        {
          ...extended(crack, { hollowM2, rocks }),
          symptoms: ['S11'],
          construction: 'bonded',
          soundnessCategory: 'C',
          thicknessMm: 35,
          ...change,
        },
        'leave',
      )
    expect(hollow(0.2, false)).toMatchObject({ verdict: 'allowed', rule: 'R09' })
    expect(hollow(0.25, false).verdict).toBe('excluded')
    expect(hollow(0.2, true).verdict).toBe('excluded')
    expect(hollow(0.2, null)).toMatchObject({
      verdict: 'measure first',
      measure: expect.stringMatching(/walk/),
    })
    expect(hollow(0.2, false, { soundnessCategory: 'B' }).verdict).toBe('excluded')
  })

  it('REP-13: R10: a curled edge is never ground before drying has ended', () => {
    const curl = {
      ...extended(crack, { stepMm: 1, areaM2: 2, weakToMm: 1 }),
      symptoms: ['S10'],
    } as RepairQuestion
    for (const dryingEnded of [false, null]) {
      expect(option({ ...curl, dryingEnded }, 'remove skin')).toMatchObject({
        verdict: 'excluded',
        rule: 'R10',
      })
    }
    expect(option({ ...curl, dryingEnded: true }, 'remove skin').verdict).toBe('allowed')
  })

  it('REP-14: R11: every repair names its re-test, and resin asks for a probe instead of a box', () => {
    for (const each of repairOptions(crack)) expect(each.retest.length, each.option).toBeGreaterThan(0)
    for (const id of ['remove skin', 'fill', 'consolidate'] as const)
      expect(option(crack, id).retest.join(' ')).toMatch(/probe in untreated depth/)
  })

  it('REP-15: every excluded option says why, every "measure first" names its test', () => {
    const questions = [
      crack,
      weak,
      { ...crack, causeNamed: null },
      { ...crack, symptoms: ['S15'] },
      { ...crack, symptoms: ['S04'] },
    ]
    for (const question of questions as RepairQuestion[]) {
      const options = repairOptions(question)
      expect(options).toHaveLength(7)
      for (const each of options) {
        expect(each.because.length).toBeGreaterThan(10)
        expect(each.excludedBecause === undefined).toBe(each.verdict !== 'excluded')
        expect(each.measure === null, `${each.option} ${each.verdict}`).toBe(each.verdict !== 'measure first')
        expect(each.feasible).toBe(each.verdict === 'allowed')
      }
    }
  })
})

describe('REP: money, days and what may come back', () => {
  const full = extended(weak, { weakToMm: 70, areaM2: 16, boundaryProven: true })

  it('REP-16: new screed of 70 mm loses its work, 7 days of curing, 3 of testing and 90 of drying', () => {
    const replace = option(full, 'replace')
    // 40 m² at 20 m² a day.
    expect(replace.daysLost).toMatchObject({ p50: 2 + 7 + 3 + 90 })
    expect(replace.daysLost!.p90).toBeGreaterThan(replace.daysLost!.p50)
    expect(replace.quantities.find(({ what }) => what === 'Waste')!.amount).toBeCloseTo(40 * 0.07 * 2050, 6)
    // 250 + 40 · (45 + 55) + 5.74 t · 90 + 300.
    expect(replace.cost!.low).toBeCloseTo(250 + 40 * 100 + 5.74 * 90 + 300, 6)
    expect(replace.cost!.high).toBeCloseTo(600 + 40 * 150 + 5.74 * 150 + 500, 6)
  })

  it('REP-16b: the forecast for the room takes the place of the rule of thumb, curing among its days', () => {
    const days = (newScreedDays: RepairQuestion['newScreedDays']) =>
      option({ ...full, newScreedDays }, 'replace').daysLost!
    const rule = days(null)
    expect(rule.how).toMatch(/rule of thumb for 70 mm/)
    const workDays = rule.p50 - 7 - 3 - 90
    const forecast = days({ p50: 61, p90: 120.2 })
    expect(forecast.p50).toBe(workDays + 61 + 3)
    expect(forecast.p90).toBe(Math.ceil((workDays + 3) * 1.5 + 120.2))
    expect(forecast.how).toMatch(/61 to 121 from laying to its limit by the forecast for this room/)
    expect(option({ ...full, newScreedDays: { p50: 61, p90: 120 } }, 'fill').daysLost).toEqual(
      option(full, 'fill').daysLost,
    )
  })

  it('REP-17: rates that nobody entered say that they are illustrative; own rates do not', () => {
    expect(option(full, 'replace').cost!.assumptions[0]).toMatch(/illustrative/)
    const own = { ...full, rates: { ...illustrativeRates, basis: 'own' as const } }
    expect(option(own, 'replace').cost!.assumptions[0]).toBe('Your own unit rates.')
  })

  it('REP-18: the chance that it comes back is tripled while its cause may still be there', () => {
    expect(option(crack, 'fill').residualPercent).toBe(10)
    expect(option({ ...crack, causeRemoved: false }, 'fill').residualPercent).toBe(30)
    expect(option({ ...crack, causeRemoved: null }, 'fill')).toMatchObject({
      residualPercent: 30,
      residualHow: expect.stringMatching(/nobody has said that its cause is gone/),
    })
    expect(option({ ...crack, movement: 'live' }, 'fill').residualPercent).toBe(60)
    expect(option({ ...crack, movement: 'live', causeRemoved: false }, 'fill').residualPercent).toBe(100)
    const edited = {
      ...illustrativeRates,
      residualPercent: { ...illustrativeRates.residualPercent, fill: 4 },
    }
    expect(option({ ...crack, rates: edited }, 'fill').residualPercent).toBe(4)
  })

  it('REP-19: options that fit come first, cheapest over the life of the floor first', () => {
    const options = repairOptions(full)
    expect(options.slice(0, 2).map(({ verdict }) => verdict)).toEqual(['allowed', 'allowed'])
    const middles = options.slice(0, 2).map(({ wholeLife }) => wholeLife!.low + wholeLife!.high)
    expect(middles[0]).toBeLessThanOrEqual(middles[1]!)
  })

  it('REP-20: works, delay beyond the spare days and the share of a recurrence add up', () => {
    const rates: RepairRates = {
      ...fixedRates({ setUp: 250, crackFillPerM: 22 }),
      delayPerDay: 400,
      recurrenceCost: 3000,
    }
    const life = (daysLeft: number | null) =>
      option({ ...crack, rates, programme: { daysLeft } }, 'fill').wholeLife!
    expect(life(null).low).toBe(Math.round(562.4 + 2 * 400 + 0.1 * 3000))
    expect(life(1).low).toBe(Math.round(562.4 + 1 * 400 + 0.1 * 3000))
    expect(life(10).low).toBe(Math.round(562.4 + 0.1 * 3000))
    expect(life(null).how).toMatch(/nobody said how many the programme has left/)
    expect(() => life(-1)).toThrow(/programme\.daysLeft is -1/)
  })

  it('REP-21: without a length or an area there is no cost and no guess', () => {
    const fill = option(extended(crack, { lengthM: null }), 'fill')
    expect(fill).toMatchObject({ cost: null, daysLost: null, wholeLife: null, quantities: [] })
  })

  it('REP-22: bad input names its field', () => {
    const ask = (question: RepairQuestion) => () => repairOptions(question)
    expect(ask({ ...crack, symptoms: [] })).toThrow(/symptoms is empty/)
    expect(ask({ ...crack, symptoms: ['S77' as never] })).toThrow(/S77 is not a symptom/)
    expect(ask({ ...crack, thicknessMm: Number.NaN })).toThrow(/thicknessMm is NaN/)
    expect(ask(extended(crack, { widthMm: 31 }))).toThrow(/extent\.widthMm is 31/)
    expect(ask(extended(crack, { bayAreaM2: 0 }))).toThrow(/extent\.bayAreaM2 is 0/)
    expect(ask({ ...crack, recordStrengthPercent: 101 })).toThrow(/recordStrengthPercent is 101/)
  })
})

describe('REP: the question read out of the record', () => {
  const asked = (story: ReturnType<typeof readyBay>, defect: string) => {
    const built = story.build()
    const diagnosis = diagnose({ symptoms: ['S06'], defect, story: built, asOf: now })
    return repairQuestionFromStory({ defect, story: built, asOf: now }, diagnosis)
  }

  it('REP-23: measures, gauge, named cause, dryness and soundness come from their entries', () => {
    const story = withDefect(readyBay(), 'S06', t0 + 60 * day, { lengthM: 4, widthMm: 0.4 })
    const defect = story.last
    for (const [d, widthMm] of [
      [60, 0.4],
      [67, 0.42],
      [75, 0.4],
    ] as const)
      story.note('crack-gauged', t0 + d * day, { defect, widthMm, place: 'middle' })
    story.note('defect-measured', t0 + 76 * day, { defect, method: 'gauge', widthMm: 0.45 })
    const before = asked(story, defect)
    expect(before).toMatchObject({
      causeNamed: null,
      causeRemoved: null,
      movement: 'dormant',
      moisture: 'dry',
      soundness: 'pass',
      soundnessCategory: 'C',
      thicknessMm: 70,
      covering: 'vinyl',
      extent: { bayAreaM2: 20, lengthM: 4, widthMm: 0.45, weakToMm: null },
      rates: { basis: 'illustrative' },
    })
    expect(repairDecision(before).rule).toBe('R02')
    story.note('cause-named', t0 + 80 * day, {
      defects: [{ defect }],
      cause: 'unknown',
      treatedAs: 'dormant shrinkage crack',
      reason: 'Gauge still for 15 days',
      causeRemoved: 'yes',
      weightsVersion: '1',
      shown: [{ cause: 'BAY', examined: true, probability: 0.2, logOdds: -1.4 }],
    })
    const after = asked(story, defect)
    expect(after).toMatchObject({ causeNamed: 'unknown', causeRemoved: true })
    expect(allowed(after)).toEqual(['fill'])
  })

  it('REP-23b: located pipes and the result of the trial are read from what was measured, the last answer counts', () => {
    const story = withDefect(readyBay(), 'S02', t0 + 60 * day)
    const defect = story.last
    expect(asked(story, defect)).toMatchObject({ pipesLocated: null, trialPassed: null })
    const measured = (after: number, body: object) =>
      story.note('defect-measured', t0 + after * day, { defect, method: 'core', ...body })
    measured(61, { pipesLocated: false })
    measured(62, { weakToMm: 6, trialPassed: false })
    expect(asked(story, defect)).toMatchObject({ pipesLocated: false, trialPassed: false })
    measured(63, { pipesLocated: true })
    measured(64, { trialPassed: true })
    expect(asked(story, defect)).toMatchObject({
      pipesLocated: true,
      trialPassed: true,
      extent: { weakToMm: 6 },
    })
  })

  it('REP-23c: what is known of a further symptom of the same fault counts: depth, gauge, cause, signs in the structure', () => {
    const story = withDefect(readyBay(), 'S02', t0 + 60 * day, { structuralSigns: 'none', areaM2: 3 })
    const main = story.last
    withDefect(story, 'S06', t0 + 60 * day, { structuralSigns: 'deflection', areaM2: 5, extent: 'spot' })
    const also = story.last
    story.note('defect-measured', t0 + 61 * day, { defect: also, method: 'core', weakToMm: 8 })
    for (const [d, widthMm] of [
      [60, 0.4],
      [67, 0.41],
      [75, 0.4],
    ] as const)
      story.note('crack-gauged', t0 + d * day, { defect: also, widthMm, place: 'middle' })
    story.note('cause-named', t0 + 76 * day, {
      defects: [{ defect: also }],
      cause: 'LEAN',
      reason: 'Lean through',
      weightsVersion: '1',
      shown: [{ cause: 'LEAN', examined: true }],
    })
    const built = story.build()
    const ask = (further: string[]) => {
      const question = { defect: main, further, story: built, asOf: now }
      return repairQuestionFromStory(question, diagnose({ ...question, symptoms: ['S02', 'S06'] }))
    }
    expect(ask([])).toMatchObject({ causeNamed: null, movement: 'not known', structuralSigns: 'none' })
    expect(ask([also])).toMatchObject({
      symptoms: ['S02', 'S06'],
      causeNamed: 'LEAN',
      movement: 'dormant',
      structuralSigns: 'deflection',
      extent: { weakToMm: 8, areaM2: 5 },
    })
  })

  it('REP-24: the project’s own rates are used; what it left out keeps the table illustrative', () => {
    const story = withDefect(readyBay(), 'S06', t0 + 60 * day)
    const defect = story.last
    story.note('repair-rates-set', t0 + 61 * day, {
      basis: 'own',
      rates: [{ item: 'setUp', low: 300, high: 300 }],
      delayPerDay: 500,
      residual: [{ option: 'fill', percent: 6 }],
    })
    const { rates } = asked(story, defect)
    expect(rates).toMatchObject({
      basis: 'illustrative',
      delayPerDay: 500,
      residualPercent: { fill: 6, patch: 8 },
    })
    expect(rates!.rates.setUp).toEqual({ low: 300, high: 300 })
    expect(rates!.rates.jointPerM).toEqual({ low: 30, high: 60 })
  })

  it('REP-25: without a defect there is nothing to repair', () => {
    const story = storyOf().finished(t0).build()
    const diagnosis = diagnose({ symptoms: ['S06'], story, asOf: now })
    expect(() => repairQuestionFromStory({ defect: null, story, asOf: now }, diagnosis)).toThrow(
      /defect is missing/,
    )
  })
})
