// Limits: ≤ 75 % RH for resilient (BS 8203), ≤ 65 % for timber (BS 8201:2011 Annex A), box 72 h and 96 h without heating
// (BS 8203 annex), soundness 2.5 mm floating C (BS 8204-1 Table 4), SR2 5 mm (Table 5): all quoted second-hand.
// 14 days for a stale test, 1 % RH between readings, 28 days of drying before flatness: our judgement.
import { describe, expect, it } from 'vitest'
import { type Condition, readinessOf } from '#model/readiness/index.ts'
import type { BayStory } from '#model/record/story.ts'
import type { Covering } from '#model/record/words.ts'
import { effectiveRules } from '#model/rules/index.ts'
import { day, hour, type StoryBuilder } from '../../support/story.ts'
import { boxTest, now, readyBay, t0 } from './ready-bay.ts'

const british = effectiveRules('british')

function judged(
  story: StoryBuilder | BayStory,
  { covering = 'vinyl' as Covering, asOf = now, rules = british } = {},
) {
  return readinessOf('build' in story ? story.build() : story, covering, asOf, rules)
}

function state(name: string, readiness: ReturnType<typeof judged>): Condition['state'] | 'not asked' {
  return readiness.conditions.find((condition) => condition.name === name)?.state ?? 'not asked'
}

describe('READY', () => {
  it('READY-1: a bay on which everything was done and recorded is ready', () => {
    const readiness = judged(readyBay())
    expect(readiness.conditions.filter(({ state }) => state !== 'met')).toEqual([])
    expect(readiness.verdict).toBe('ready')
    expect(readiness.governing).toMatchObject({
      test: { value: 72, unit: '% RH', ageDays: 3 },
      limit: { value: 75, provenance: 'quoted second-hand' },
    })
    expect(readiness.why.map(({ what }) => what)).toContain('Governing reading')
  })

  it('READY-2: an empty story is not ready, and says why for every condition', () => {
    const readiness = judged(
      readyBay({ without: ['finish', 'sheet', 'thickness', 'soundness', 'regularity', 'box', 'climate'] }),
      { asOf: t0 - day },
    )
    expect(readiness.verdict).toBe('not ready')
    for (const { because } of readiness.conditions) expect(because.length).toBeGreaterThan(5)
  })
})

describe('READY-3: leaving one thing out never gives ready', () => {
  it.each([
    ['finish', 'Age and curing', 'unknown', 'not proven'],
    ['thickness', 'Thickness', 'unknown', 'not proven'],
    ['soundness', 'Soundness', 'unknown', 'not proven'],
    ['regularity', 'Surface regularity', 'unknown', 'not proven'],
    ['box', 'Valid moisture test', 'unknown', 'not proven'],
    ['climate', 'Surface climate now', 'unknown', 'not proven'],
    ['temperature', 'Age and curing', 'unknown', 'not proven'],
    ['instrument', 'Valid moisture test', 'unknown', 'not proven'],
    ['sheet', 'Age and curing', 'not met', 'not ready'],
  ] as const)('without %s: %s is %s', (part, name, expected, verdict) => {
    const readiness = judged(readyBay({ without: [part] }))
    expect(state(name, readiness)).toBe(expected)
    expect(readiness.verdict).toBe(verdict)
  })
})

describe('READY-4: the moisture limit of the covering', () => {
  it.each([
    ['vinyl', 75, 'met'],
    ['vinyl', 75.1, 'not met'],
    ['timber bonded', 65, 'met'],
    ['timber bonded', 65.1, 'not met'],
    ['ceramic tile', 75, 'met'],
  ] as const)('%s at %s %% RH: %s', (covering, rhPercent, expected) => {
    const readiness = judged(readyBay({ rhPercent }), { covering })
    expect(state('Within the moisture limit', readiness)).toBe(expected)
    expect(readiness.verdict).toBe(expected === 'met' ? 'ready' : 'not ready')
  })

  it('the wettest point governs, not the mean and not the last', () => {
    const story = readyBay({ points: ['P1', 'P2'] })
    const instrument = story.build().entries.find(({ kind }) => kind === 'instrument-added')!.id
    boxTest(story, now - 4 * day, 78, { point: 'P3', instrument: instrument as never })
    expect(judged(story).governing?.test).toMatchObject({ point: 'P3', value: 78 })
    expect(judged(story).verdict).toBe('not ready')
  })

  it('a later valid test at the same point replaces the earlier one', () => {
    const story = readyBay({ rhPercent: 78, testedAt: now - 10 * day })
    const instrument = story.build().entries.find(({ kind }) => kind === 'instrument-added')!.id as never
    for (const point of ['P1', 'p2 ', 'P3']) boxTest(story, now - 2 * day, 73, { point, instrument })
    expect(judged(story).verdict).toBe('ready')
    expect(judged(story, { asOf: now - 5 * day }).verdict).toBe('not ready')
  })

  it('a contract limit holds for the covering it was agreed for', () => {
    const setting = { zone: { limitByContract: 70, limitReason: 'Clause M50/210' } }
    expect(judged(readyBay({ setting })).verdict).toBe('not ready')
    expect(judged(readyBay({ setting }), { covering: 'ceramic tile' }).verdict).toBe('ready')
  })
})

describe('READY-5: an invalid test proves nothing, however dry', () => {
  const iso = (at: number) => new Date(at).toISOString()
  const testedAt = now - 3 * day
  it.each([
    ['71 h in place', { setAt: iso(testedAt - 71 * hour) }],
    ['one reading only', { readings: [{ at: iso(testedAt), rhPercent: 60 }] }],
    [
      'last two readings 1.1 % apart',
      {
        readings: [
          { at: iso(testedAt - day), rhPercent: 70.9 },
          { at: iso(testedAt), rhPercent: 72 },
        ],
      },
    ],
    ['seal broken', { sealOk: false }],
    ['heating not said', { neverHeated: undefined }],
    ['electrical meter', { method: 'electrical survey' as const, meterReading: 12 }],
    ['carbide where the box was agreed', { method: 'carbide' as const, cmPercent: 1.2, sampleG: 50 }],
  ])('%s', (_, test) => {
    const readiness = judged(readyBay({ test }))
    expect(state('Valid moisture test', readiness)).toBe('unknown')
    expect(readiness.verdict).toBe('not proven')
    expect(readiness.governing?.test).toBeNull()
  })

  it('a drier that the record shows on within 96 h is believed over the test sheet', () => {
    const story = readyBay()
      .note('protection-on', testedAt - 120 * hour, { what: 'dehumidifier' })
      .note('protection-off', testedAt - 100 * hour, { what: 'dehumidifier' })
    expect(judged(story).verdict).toBe('not proven')
  })
})

describe('READY-6: places, age and wetting', () => {
  it.each([
    ['two of three places', readyBay({ points: ['P1', 'P2'] }), 'Enough places tested', 'unknown'],
    [
      'nobody chose the wettest place',
      readyBay({ test: { wettestPoint: false } }),
      'Wettest place tested',
      'unknown',
    ],
    ['tested exactly 14 days ago', readyBay({ testedAt: now - 14 * day }), 'Test not stale', 'met'],
    ['tested 14.1 days ago', readyBay({ testedAt: now - 14.1 * day }), 'Test not stale', 'unknown'],
    [
      'a flood after the test',
      readyBay().note('wet-event-noted', now - day, { what: 'flood', stopped: true }),
      'No wetting since the test',
      'unknown',
    ],
    [
      'a flood before the test',
      readyBay().note('wet-event-noted', now - 20 * day, { what: 'flood', stopped: true }),
      'No wetting since the test',
      'met',
    ],
    [
      'a leak that runs on',
      readyBay().note('wet-event-noted', now - 20 * day, { what: 'leak', stopped: false }),
      'No wetting since the test',
      'not met',
    ],
  ] as const)('%s', (_, story, name, expected) => {
    const readiness = judged(story)
    expect(state(name, readiness)).toBe(expected)
    expect(readiness.verdict).toBe(
      expected === 'met' ? 'ready' : expected === 'unknown' ? 'not proven' : 'not ready',
    )
  })

  it('a flood between the tests of two places spoils the earlier one, and one an hour after a test spoils it too', () => {
    const flood = { what: 'flood', stopped: true } as const
    const between = readyBay({ testedAt: now - 10 * day, points: ['P1'] })
    const instrument = between.build().entries.find(({ kind }) => kind === 'instrument-added')!.id as never
    between.note('wet-event-noted', now - 6 * day, flood)
    for (const point of ['P2', 'P3']) boxTest(between, now - 2 * day, 72, { point, instrument })
    const soonAfter = readyBay().note('wet-event-noted', now - 3 * day + hour, flood)
    for (const story of [between, soonAfter]) {
      expect(state('No wetting since the test', judged(story))).toBe('unknown')
      expect(judged(story).verdict).toBe('not proven')
    }
  })

  it('three fresh places do not make up for a wettest place that was tested too long ago', () => {
    const story = readyBay({ testedAt: now - 20 * day, points: ['P1'] })
    const instrument = story.build().entries.find(({ kind }) => kind === 'instrument-added')!.id as never
    for (const point of ['P2', 'P3', 'P4'])
      boxTest(story, now - 2 * day, 72, { point, instrument, wettestPoint: false })
    expect(state('Enough places tested', judged(story))).toBe('met')
    expect(state('Test not stale', judged(story))).toBe('unknown')
  })

  it('a small bay of a large zone needs its share of the places, and one at least', () => {
    const story = readyBay({ points: ['P1'] })
    const corner = (x: number, y: number) => ({ x, y })
    for (let i = 1; i <= 5; i++) {
      story.neighbour({
        outline: [corner(5 * i, 0), corner(5 * i + 5, 0), corner(5 * i + 5, 4), corner(5 * i, 4)],
      })
    }
    expect(judged(story).verdict).toBe('ready')
  })
})

describe('READY-7: body, climate and open matters', () => {
  it.each([
    [
      '64 mm where 65 is asked',
      readyBay({ without: ['thickness'] }).thickness(t0, 70, 64, 70),
      'Thickness',
      'not met',
    ],
    ['65 mm', readyBay({ without: ['thickness'] }).thickness(t0, 70, 65), 'Thickness', 'met'],
    ['one point for 20 m²', readyBay({ without: ['thickness'] }).thickness(t0, 70), 'Thickness', 'unknown'],
    [
      'flatness checked after 10 days of drying',
      readyBay({ without: ['regularity'] }).note('regularity-checked', t0 + 18 * day, {
        straightedgeM: 2,
        gapsMm: [{ mm: 1 }],
      }),
      'Surface regularity',
      'unknown',
    ],
    [
      'gap of 5.1 mm in SR2',
      readyBay().note('regularity-checked', t0 + 50 * day, { straightedgeM: 2, gapsMm: [{ mm: 5.1 }] }),
      'Surface regularity',
      'not met',
    ],
    [
      'indentation of 2.6 mm, floating C',
      readyBay().note('soundness-tested', t0 + 20 * day, {
        weightKg: '2',
        blows: 4,
        points: [{ indentationMm: 2.6 }],
      }),
      'Soundness',
      'not met',
    ],
    [
      'the wrong weight proves nothing',
      readyBay({ without: ['soundness'] }).note('soundness-tested', t0 + 20 * day, {
        weightKg: '4',
        blows: 4,
        points: [{ indentationMm: 1 }, { indentationMm: 1 }, { indentationMm: 1 }],
      }),
      'Soundness',
      'unknown',
    ],
    [
      'surface 2 K above the dew point',
      readyBay().air(now - hour, { airC: 20, rhPercent: 60, surfaceC: 14 }),
      'Surface climate now',
      'not met',
    ],
    [
      'surface not read',
      readyBay({ without: ['climate'] }).air(now - hour, { airC: 20, rhPercent: 50 }),
      'Surface climate now',
      'unknown',
    ],
    [
      'an open defect',
      readyBay().note('defect-found', now - 5 * day, {
        symptom: 'S06',
        firstSeenOn: '2026-04-30',
        extent: 'part',
      }),
      'No open defect',
      'not met',
    ],
    [
      'an open non-conformance',
      readyBay().note('nonconformance-raised', now - 5 * day, { rule: 'C2', what: 'Thickness at the door' }),
      'No open non-conformance',
      'not met',
    ],
    ['frozen on the first night', readyBay().screedC(t0 + 10 * hour, -1), 'No open stop alert', 'not met'],
  ] as const)('%s', (_, story, name, expected) => {
    const readiness = judged(story)
    expect(state(name, readiness)).toBe(expected)
    expect(readiness.verdict === 'ready').toBe(expected === 'met')
  })

  it('a closed defect and a closed non-conformance no longer stand in the way', () => {
    const story = readyBay().note('defect-found', now - 9 * day, {
      symptom: 'S06',
      firstSeenOn: '2026-04-26',
      extent: 'part',
    })
    story.note('defect-closed', now - 4 * day, {
      defect: story.last,
      how: 'repaired',
      note: 'Filled, 14 days without movement',
    })
    story.note('nonconformance-raised', now - 9 * day, { rule: 'C2', what: 'Thickness at the door' })
    story.note('nonconformance-closed', now - 4 * day, {
      raised: story.last,
      cause: 'High slab',
      action: 'Designer agreed',
    })
    expect(judged(story).verdict).toBe('ready')
  })

  it('thin screed that the designer accepted at the hold point is met, and says who saw what', () => {
    const story = readyBay({ without: ['thickness'] }).thickness(t0, 70, 64)
    story.note('hold-point-released', t0 + day, {
      point: 'thickness',
      decision: 'waived',
      saw: 'Designer’s note 14',
    })
    expect(judged(story).conditions.find(({ name }) => name === 'Thickness')).toMatchObject({
      state: 'met',
      because: expect.stringContaining('Designer’s note 14'),
    })
  })
})

describe('READY-8: replay', () => {
  it('a verdict of the past knows nothing of what came after', () => {
    const story = readyBay().note('wet-event-noted', now + day, { what: 'flood', stopped: true })
    expect(judged(story).verdict).toBe('ready')
    expect(judged(story, { asOf: now + 2 * day }).verdict).not.toBe('ready')
  })

  it('withdrawing a test takes the verdict back; correcting its value changes it', () => {
    const story = readyBay({ points: ['P1'], setting: {} })
    const single = effectiveRules('british', {}, [{ id: 'test.pointsFirst', value: 1, reason: 'One room' }])
    const test = story.build().entries.find(({ kind }) => kind === 'moisture-read')!
    expect(judged(story, { rules: single }).verdict).toBe('ready')
    const withdrawn = readyBay({ points: ['P1'] })
    withdrawn.withdraw(withdrawn.build().entries.find(({ kind }) => kind === 'moisture-read')!.id, now)
    expect(judged(withdrawn, { rules: single }).verdict).toBe('not proven')
    const body = test.body as Parameters<typeof boxTest>[3]
    const wet = body!.readings!.map((reading) => ({ ...reading, rhPercent: 80 }))
    story.correct<'moisture-read'>(test.id, now, { ...(body as object), readings: wet } as never)
    expect(judged(story, { rules: single }).verdict).toBe('not ready')
  })
})
