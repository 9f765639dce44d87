// Questions that a record may be asked: record forensics as common practice of quality managers, thresholds our judgement.
// The chance of a repetition is the birthday problem (pairs · agreement^numbers); the share of final digits is one in five
// for 0 and 5 (Preece 1981, from memory). Every rule has its control: a record in which nothing is odd is asked nothing.
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  type ClockJump,
  comparedBays,
  corroborationOf,
  type Question,
  questionsOfBay,
} from '#model/audit/index.ts'
import type { BodyOf } from '#model/record/kinds.ts'
import type { BayStory } from '#model/record/story.ts'
import { factsOf } from '#model/watch/facts/index.ts'
import { day, hour, minute, type StoryBuilder, storyOf } from '../../support/story.ts'
import { boxTest } from '../readiness/ready-bay.ts'
import { british, elevenBatches, iso, now, photo, second, t0, wholeBay } from './whole-bay.ts'

const ofBay = (story: StoryBuilder | BayStory, asOf = now): Question[] =>
  questionsOfBay(factsOf('build' in story ? story.build() : story, asOf, british))
const rulesOf = (questions: readonly Question[]) => questions.map(({ rule }) => rule)
function questionsBetweenBays(stories: readonly BayStory[], jumps: readonly ClockJump[]): Question[] {
  const compared = comparedBays()
  for (const story of stories) compared.add(story)
  return compared.questions(jumps)
}
const between = (...stories: StoryBuilder[]) =>
  questionsBetweenBays(
    stories.map((one) => one.build()),
    [],
  )

/** Readings as a logger makes them: a daily swing with a jitter that repeats only after 977 readings. */
const measured = (count: number, seed = 1, step = 0.1) =>
  Array.from({ length: count }, (_, i) => {
    const jitter = (((i + seed * 131) * 7919) % 977) / 977 - 0.5
    return Math.round((17 + 1.5 * Math.sin(((i % 24) / 24) * 2 * Math.PI) + jitter) / step) * step
  })

describe('HONEST-1: the control', () => {
  it('HONEST-1: a bay that was measured and written down in time is asked nothing', () => {
    const story = wholeBay(['screed logger']).logger(t0, {
      screedC: measured(24 * 30),
      airC: measured(24 * 30, 2),
    })
    expect(ofBay(story)).toEqual([])
    expect(
      between(story, wholeBay(['screed logger', 'air', 'thickness', 'soundness', 'moisture', 'flatness'])),
    ).toEqual([])
  })

  it('HONEST-1: every question asks, says what usually explains it, and rests on evidence', () => {
    const story = wholeBay().air(t0 + 10 * day, { airC: 18 }, { recordedAt: t0 + 9 * day })
    const [question] = ofBay(story)
    expect(question?.asks).toMatch(/\?$/)
    expect(question?.innocent.length).toBeGreaterThan(10)
    expect(question?.evidence.length).toBeGreaterThan(0)
  })
})

describe('HONEST-2: mass', () => {
  const batches = (count: number) => {
    const story = wholeBay(['batches'])
    for (let i = 0; i < count; i++) story.batch(t0 - 2 * hour)
    return story
  }
  // 2800 kg expected: nine batches of 260 kg are 16 % short, ten 7 %, twelve 11 % over, thirteen 21 %.
  it.each([
    [9, ['mass']],
    [10, []],
    [12, []],
    [13, ['mass']],
    [0, []],
  ])('HONEST-2: %i batches ask %j', (count, expected) => {
    expect(rulesOf(ofBay(batches(count)))).toEqual(expected)
  })

  it('HONEST-2: without a thickness nothing is asked, because nobody can say what it takes', () => {
    const story = wholeBay(['batches', 'thickness']).batch(t0 - 2 * hour)
    expect(ofBay(story)).toEqual([])
  })

  it('HONEST-2: the missing load written down later answers it', () => {
    const story = batches(9)
    expect(rulesOf(ofBay(story))).toEqual(['mass'])
    story.batch(t0 - hour).batch(t0 - hour)
    expect(ofBay(story)).toEqual([])
  })
})

describe('HONEST-3: instruments', () => {
  type Instrument = BodyOf<'moisture-read'>['instrument']
  function tested(parts: { dueOn?: string; passed?: boolean; renewed?: string }) {
    const story = wholeBay(['moisture', 'release']).note('instrument-added', t0, {
      type: 'hygrometer',
      serial: 'H-9',
      dueOn: parts.dueOn,
    })
    const instrument = story.last as unknown as Instrument
    const check = (body: BodyOf<'instrument-checked'>, at: number) =>
      story.note('instrument-checked', at, body, { subject: String(instrument) })
    if (parts.passed !== undefined)
      check({ check: 'salt', passed: parts.passed, foundPercent: parts.passed ? 75 : 71 }, now - 20 * day)
    if (parts.renewed !== undefined)
      check({ check: 'certificate', passed: true, dueOn: parts.renewed }, now - 25 * day)
    return boxTest(story, now - 3 * day, 70, { instrument })
  }
  const onDay = iso(now - 3 * day).slice(0, 10)
  const before = iso(now - 4 * day).slice(0, 10)
  it.each([
    ['in date', { dueOn: '2027-01-01', passed: true }, []],
    ['out of date since yesterday', { dueOn: before, passed: true }, ['instrument']],
    ['its last day', { dueOn: onDay, passed: true }, []],
    ['renewed since', { dueOn: before, passed: true, renewed: '2027-05-01' }, []],
    ['failed its last check', { dueOn: '2027-01-01', passed: false }, ['instrument']],
    ['nobody knows its certificate', { passed: true }, []],
  ])('HONEST-3: %s', (_, parts, expected) => {
    expect(rulesOf(ofBay(tested(parts)))).toEqual(expected)
  })

  it('HONEST-3: a check that failed only after the test says nothing about it', () => {
    const story = tested({ dueOn: '2027-01-01', passed: true })
    const instrument = story.build().entries.find(({ kind }) => kind === 'instrument-added')!.subject
    story.note(
      'instrument-checked',
      now - day,
      { check: 'salt', passed: false, foundPercent: 70 },
      { subject: instrument },
    )
    expect(ofBay(story)).toEqual([])
  })

  it('HONEST-3: the test withdrawn is not asked about', () => {
    const story = tested({ dueOn: before, passed: true })
    expect(ofBay(story.withdraw(story.last, now))).toEqual([])
  })
})

describe('HONEST-4: clocks', () => {
  it.each([
    [4, []],
    [6, ['before it happened']],
  ])('HONEST-4: written %i min before it happened asks %j', (minutes, expected) => {
    const at = t0 + 10 * day
    const story = wholeBay().air(at, { airC: 18 }, { recordedAt: at - minutes * minute })
    expect(rulesOf(ofBay(story))).toEqual(expected)
  })

  it('HONEST-4: a correction that puts the time right answers it', () => {
    const at = t0 + 10 * day
    const story = wholeBay().air(at, { airC: 18 }, { recordedAt: at - hour })
    story.correct<'air-read'>(story.last, at + day, { airC: 18 }, at - hour)
    expect(ofBay(story)).toEqual([])
  })

  it('HONEST-4: a machine whose clock went back by more than two minutes is asked about', () => {
    const story = wholeBay(['screed logger']).build()
    const jump = (backMin: number) => ({
      device: 'd1',
      entry: 'e1',
      subject: story.bay.id as string,
      before: now,
      at: now - backMin * minute,
    })
    expect(rulesOf(questionsBetweenBays([story], [jump(2)]))).toEqual([])
    const [question] = questionsBetweenBays([story], [jump(60)])
    expect([question?.rule, question?.bays, question?.evidence[0]?.value]).toEqual([
      'clock went back',
      [story.bay.id],
      60,
    ])
  })

  // In London the clock went forward on 29 March 2026 at 01:00 UTC.
  const change = Date.parse('2026-03-29T01:00:00Z')
  const acrossChange = (missing: boolean, timeZone = 'Europe/London') => {
    const built = wholeBay([], { project: { timeZone } })
      .logger(change - 60 * hour, { airC: measured(120) })
      .build()
    const series = built.series.at(-1)!
    // Each reading after the change an hour later: the hour at the change is missing.
    if (missing) series.at = series.at.map((at) => (at >= change ? at + hour : at))
    return built
  }
  it.each([
    ['one hour missing at the change', true, 'Europe/London', ['clock change']],
    ['no hour missing', false, 'Europe/London', []],
    ['the same gap where no clock changes', true, 'UTC', []],
  ])('HONEST-4: %s', (_, missing, timeZone, expected) => {
    expect(rulesOf(ofBay(acrossChange(missing, timeZone)))).toEqual(expected)
  })
})

describe('HONEST-5: series too even to be measured', () => {
  const logged = (airC: number[]) => wholeBay().logger(t0 + 10 * day, { airC })
  const flat = (hours: number, rest = measured(100)) => [
    ...rest,
    ...Array.from({ length: hours + 1 }, () => 17.3),
  ]
  it.each([
    ['measured', measured(400), []],
    ['48 h of one value', flat(48), []],
    ['49 h of one value', flat(49), ['flat series']],
    ['one value from the start', Array.from({ length: 60 }, () => 17), ['flat series']],
    [
      'a coarse logger in a steady room',
      flat(100, [16, 16.5, 17, 17.5, 17.3 - 0.3]).map((value) => Math.round(value * 2) / 2),
      [],
    ],
    [
      'a straight line of 30 readings',
      [...measured(50), ...Array.from({ length: 30 }, (_, i) => Math.round((10 + i * 0.13) * 10) / 10)],
      ['straight series'],
    ],
    [
      'a slow climb that a step hides',
      [...measured(50), ...Array.from({ length: 30 }, (_, i) => Math.round((17 + i * 0.03) * 10) / 10)],
      [],
    ],
  ])('HONEST-5: %s: %#', (_, airC, expected) => {
    expect(rulesOf(ofBay(logged(airC)))).toEqual(expected)
  })

  it('HONEST-5: a series that says it was made by a model is left alone', () => {
    const built = logged(flat(100)).build()
    for (const series of built.series) series.madeBy = 'Invented'
    expect(ofBay(built)).toEqual([])
  })

  it('HONEST-5: a noisy series is never asked about, whatever its noise', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 60, maxLength: 200 }), (noise) => {
        const airC = noise.map(
          (jitter, i) => Math.round((17 + Math.sin(i / 4) + jitter / 10 + (i % 2) / 5) * 10) / 10,
        )
        fc.pre(new Set(noise).size > 5)
        expect(rulesOf(ofBay(logged(airC))).filter((rule) => rule === 'straight series')).toEqual([])
      }),
      { numRuns: 40, seed: 7 },
    )
  })
})

describe('HONEST-6: copied series', () => {
  const one = (values: number[], at = t0) => storyOf().logger(at, { airC: values })
  it('HONEST-6: two loggers alike for a day are asked about once, with the days counted', () => {
    const values = measured(24 * 5)
    const found = between(one(values), one(values))
    expect(rulesOf(found)).toEqual(['copied series'])
    expect(found[0]?.bays).toHaveLength(2)
    // t0 is 14:00, so the span holds four whole days and two halves; a half of ten readings is too little.
    expect(found[0]?.evidence[0]).toMatchObject({ what: 'Days alike', value: 5 })
  })

  it('HONEST-6: two loggers of the same room that measure for themselves are not', () => {
    expect(between(one(measured(24 * 5, 1)), one(measured(24 * 5, 2)))).toEqual([])
  })

  it('HONEST-6: a day that comes again in the same logger is asked about', () => {
    const midnight = Date.parse('2026-01-06T00:00:00Z')
    const first = measured(24)
    expect(rulesOf(between(one([...first, ...measured(24, 5), ...first], midnight)))).toEqual([
      'copied series',
    ])
    expect(between(one([...first, ...measured(24, 5), ...measured(24, 9)], midnight))).toEqual([])
  })

  it('HONEST-6: a steady room at a coarse step is alike by nature and is not asked about', () => {
    const coarse = Array.from({ length: 48 }, (_, i) => (i % 24 < 12 ? 17 : 17.5))
    expect(between(one(coarse), one(coarse))).toEqual([])
  })

  it('HONEST-6: the file withdrawn is no longer asked about', () => {
    const values = measured(24 * 3)
    const copy = one(values)
    const built = copy.withdraw(copy.last, now).build()
    // A withdrawn file gives no series to a story.
    built.series = []
    expect(questionsBetweenBays([one(values).build(), built], [])).toEqual([])
  })
})

describe('HONEST-7: copied values', () => {
  const points = (...mm: number[]) => storyOf().thickness(t0, ...mm)
  it('HONEST-7: six equal points of two bays are asked about', () => {
    const found = between(points(71, 68, 73, 70, 69, 74), points(71, 68, 73, 70, 69, 74))
    expect(rulesOf(found)).toEqual(['copied values'])
    expect(found[0]?.bays).toHaveLength(2)
  })

  it('HONEST-7: one point differs: nothing is asked', () => {
    expect(between(points(71, 68, 73, 70, 69, 74), points(71, 68, 73, 70, 69, 75))).toEqual([])
  })

  it('HONEST-7: three equal points say nothing', () => {
    expect(between(points(71, 68, 73), points(71, 68, 73))).toEqual([])
  })

  it('HONEST-7: what chance explains in a job of two hundred bays is not asked about', () => {
    // Four whole numbers out of three: 1 in 81 agrees, and 200 bays have 19 900 pairs.
    const many = Array.from({ length: 200 }, (_, i) =>
      points(
        69 + (i % 3),
        69 + (Math.floor(i / 3) % 3),
        69 + (Math.floor(i / 9) % 3),
        69 + (Math.floor(i / 27) % 3),
      ),
    )
    expect(between(...many)).toEqual([])
  })

  const dayOfAir = (story: StoryBuilder, at: number, airC: number) => {
    return story
      .air(at, { airC, rhPercent: 47, surfaceC: 16.8 })
      .air(at + 6 * hour, { airC: airC + 0.3, rhPercent: 49, surfaceC: 17.1 })
  }
  const morning = Date.parse('2026-01-07T07:00:00Z')
  it('HONEST-7: the readings of a day written down again on another day are asked about', () => {
    const story = dayOfAir(dayOfAir(storyOf(), morning, 17.4), morning + 2 * day, 17.4)
    expect(rulesOf(between(story))).toEqual(['copied values'])
  })

  it('HONEST-7: one reading of a room written for its two bays on one day is honest', () => {
    expect(between(dayOfAir(storyOf(), morning, 17.4), dayOfAir(storyOf(), morning, 17.4))).toEqual([])
  })

  it('HONEST-7: two zones alike on two days are asked about', () => {
    const twoDays = () => dayOfAir(dayOfAir(storyOf(), morning, 17.4), morning + day, 18.2)
    const found = between(twoDays(), twoDays())
    expect(found.map(({ id }) => id.startsWith('copied values:zones'))).toEqual([true])
  })
})

describe('HONEST-8: digits', () => {
  const written = (values: number[]) => {
    const story = storyOf()
    values.forEach((airC, i) => {
      story.air(t0 + i * hour, { airC })
    })
    return story
  }
  const even = (count: number) =>
    Array.from({ length: count }, (_, i) => Math.round((14 + ((i * 37) % 60) / 10) * 10) / 10)
  const liked = (count: number) =>
    even(count).map((value, i) => (i % 2 === 0 ? Math.round(value * 2) / 2 : value))
  it.each([
    ['evenly spread', even(60), []],
    ['every second ends in 0 or 5', liked(60), ['digit preference']],
    ['the same with 39 values', liked(39), []],
    ['a scale of half degrees', even(60).map((value) => Math.round(value * 2) / 2), []],
    ['a narrow range', liked(60).map((value) => 17 + (value % 1) / 2), []],
  ])('HONEST-8: %s asks %j', (_, values, expected) => {
    expect(rulesOf(between(written(values))).filter((rule) => rule === 'digit preference')).toEqual(expected)
  })
})

describe('HONEST-9: late and in one sitting', () => {
  it.each([
    ['49 h after it happened', 49, ['late and decisive']],
    ['48 h after', 48, []],
  ])('HONEST-9: a thickness written %s', (_, hours, expected) => {
    const noting = { recordedAt: t0 + hours * hour }
    const story = wholeBay(['thickness']).note(
      'thickness-measured',
      t0,
      { points: [{ mm: 70 }, { mm: 71 }] },
      noting,
    )
    expect(rulesOf(ofBay(story))).toEqual(expected)
  })

  it('HONEST-9: a late reading of the air decides nothing and is not asked about', () => {
    expect(ofBay(wholeBay().air(t0 + 9 * day, { airC: 18 }, { recordedAt: t0 + 15 * day }))).toEqual([])
  })

  const sitting = (facts: number, days: number, withinMin: number) => {
    const story = storyOf()
    const writtenAt = t0 + 30 * day
    for (let i = 0; i < facts; i++) {
      const recordedAt = writtenAt + (i * withinMin * minute) / (facts - 1)
      story.air(t0 + (i % days) * day + i * hour, { airC: 15 + ((i * 7) % 30) / 10 }, { recordedAt })
    }
    return between(story)
  }
  it.each([
    [10, 4, 60, ['one sitting']],
    [9, 4, 60, []],
    [10, 3, 60, []],
    [10, 4, 90, []],
  ])('HONEST-9: %i facts of %i days within %i min ask %j', (facts, days, withinMin, expected) => {
    expect(rulesOf(sitting(facts, days, withinMin))).toEqual(expected)
  })

  it('HONEST-9: ten facts of ten days by two people are no sitting', () => {
    const story = storyOf()
    for (let i = 0; i < 10; i++) {
      const person = i % 2 === 0 ? second : undefined
      story.air(
        t0 + i * day,
        { airC: 15 + i / 10 },
        { recordedAt: t0 + 30 * day + i * minute, ...(person && { person }) },
      )
    }
    expect(between(story)).toEqual([])
  })
})

describe('HONEST-10: what bears a fact out', () => {
  const marks = (story: StoryBuilder | BayStory) =>
    Object.fromEntries(
      corroborationOf(factsOf('build' in story ? story.build() : story, now, british)).map(
        ({ fact, mark, by }) => [fact, [mark, ...by.map(({ witness }) => witness)]],
      ),
    )

  it('HONEST-10: a fact that one person wrote down rests on one word', () => {
    expect(marks(storyOf().finished(t0))).toEqual({ 'When it was laid': [0] })
  })

  it('HONEST-10: logger, photo, ticket and a second person count, and three is the most', () => {
    const story = elevenBatches(storyOf())
      .finished(t0)
      .logger(t0 - hour, { screedC: measured(48) })
    expect(marks(story)['When it was laid']).toEqual([1, 'logger'])
    photo(story, t0 + hour, { tag: 'lift' })
    expect(marks(story)['When it was laid']).toEqual([2, 'logger', 'photo'])
    story.note('material-delivered', t0 - 5 * hour, { ticket: 'T-1', material: 'sand', quantity: 5000 })
    expect(marks(story)['When it was laid']).toEqual([3, 'logger', 'photo', 'ticket'])
    story.air(t0 + hour, { airC: 17 }, { person: second })
    expect(marks(story)['When it was laid']).toEqual([3, 'logger', 'photo', 'ticket', 'second person'])
  })

  it('HONEST-10: a photo of the entry itself counts whatever its tag; a withdrawn one does not', () => {
    const story = wholeBay(['strip photos'])
    const test = story.build().entries.findLast(({ kind }) => kind === 'soundness-tested')!
    photo(story, now, { of: test.id as unknown as BodyOf<'photo-added'>['of'] })
    expect(marks(story).Soundness).toEqual([1, 'photo'])
    story.withdraw(story.last, now)
    expect(marks(story).Soundness).toEqual([0])
  })

  it('HONEST-10: a hold point let go by another bears the test out, one by the tester does not', () => {
    const letGo = (person: typeof second | undefined) =>
      marks(
        wholeBay().note(
          'hold-point-released',
          t0 + 17 * day,
          { point: 'soundness', decision: 'released', saw: 'Every point seen' },
          { person },
        ),
      ).Soundness
    expect(letGo(undefined)).toEqual([1, 'second person'])
    expect(letGo(second)).toEqual([0])
  })

  it('HONEST-10: a series made by a model bears nothing out', () => {
    const built = storyOf()
      .finished(t0)
      .logger(t0 - hour, { screedC: measured(48) })
      .build()
    built.series[0]!.madeBy = 'Invented'
    expect(marks(built)['When it was laid']).toEqual([0])
  })
})
