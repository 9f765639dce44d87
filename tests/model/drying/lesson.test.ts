import { describe, expect, test } from 'vitest'
import { forecastDates } from '#model/drying/forecast/forecast.ts'
import { lessonOf } from '#model/drying/forecast/lesson.ts'
import { forecastOfStory, forecastReady, lessonOfStory, materials, poolLessons } from '#model/drying/index.ts'
import { day, hour, instant, storyOf } from '../../support/story.ts'
import { DAY_MS, HOUR_MS, LAID_MS, ordinaryForecast, probe } from './bay.ts'

const { limit: _, ...ordinary } = ordinaryForecast()
const readings = [probe(20, 93), probe(30, 88), probe(40, 86)]
const airUntil = (untilDay: number) =>
  Array.from({ length: untilDay }, (_, i) => ({
    at: LAID_MS + i * DAY_MS + HOUR_MS,
    airC: 20,
    rhPercent: 60,
  }))

describe('DRY-16: what a bay teaches', () => {
  test('is the posterior of its own forecast, mean and spread, from a fifth of the runs', () => {
    const lesson = lessonOf({ ...ordinary, readings })!
    const own = forecastDates(ordinaryForecast({ readings }))
    if ('missing' in own) throw new Error('There is a forecast.')
    const mean = own.nodes.reduce((sum, { weight, lnKappa }) => sum + weight * lnKappa, 0)
    const square = own.nodes.reduce((sum, { weight, lnKappa }) => sum + weight * lnKappa ** 2, 0)
    expect(lesson.readings).toBe(3)
    expect(lesson.lnKappaMean).toBeCloseTo(mean, 9)
    expect(lesson.lnKappaSd).toBeCloseTo(Math.sqrt(square - mean * mean), 9)
  })

  test('a wetter bay teaches a slower mix, and one read three times is surer than one read once', () => {
    const wet = lessonOf({
      ...ordinary,
      readings: readings.map((one) => ({ ...one, value: one.value + 5 })),
    })!
    const usual = lessonOf({ ...ordinary, readings })!
    expect(wet.lnKappaMean).toBeLessThan(usual.lnKappaMean - 0.2)
    expect(usual.lnKappaSd).toBeLessThan(lessonOf({ ...ordinary, readings: readings.slice(0, 1) })!.lnKappaSd)
    expect(usual.lnKappaSd).toBeLessThan(materials.cementSandScreed.constants.lnKappaSd.value)
  })

  test.each([
    ['no reading', { readings: [] }],
    ['readings after the day only', { readings: [probe(41, 80)] }],
    ['air that nobody recorded', { readings, pastClimate: [] }],
    ['air recorded in less than half of the drying', { readings, pastClimate: airUntil(20) }],
  ])('from %s it teaches nothing', (_, change) => {
    expect(lessonOf({ ...ordinary, ...change })).toBeNull()
  })

  test('air recorded in most of the drying is enough', () => {
    expect(lessonOf({ ...ordinary, readings, pastClimate: airUntil(32) })).not.toBeNull()
  })
})

const laid = instant('2026-01-06T15:00Z')
const read = (rhPercent: number, atDay: number, designation = 'CT-C25-F4') => {
  const at = laid + atDay * day
  const builder = storyOf({ zone: { moistureMethod: 'probe' }, bay: { designation } })
  builder.finished(laid).sheetOn(laid + hour)
  builder.sheetOff(laid + 7 * day)
  for (let i = 0; i < 60; i++) builder.air(laid + i * day, { airC: 20, rhPercent: 55 })
  builder.note('moisture-read', at, {
    method: 'probe',
    point: 'P1',
    setAt: new Date(at - 80 * hour).toISOString(),
    readings: [
      { at: new Date(at - 8 * hour).toISOString(), rhPercent },
      { at: new Date(at).toISOString(), rhPercent },
    ],
    holeDepthMm: 28,
  })
  return builder.build()
}
const asOf = laid + 45 * day
const question = { covering: 'vinyl', asOf } as const
const lessonsFrom = (...values: number[]) =>
  values.map((value, i) => lessonOfStory(read(value, 40), asOf, `G${i + 1}`)!)

describe('DRY-17: what a forecast says of who taught it', () => {
  const story = read(85, 12)
  const sentences = (lessons: ReturnType<typeof lessonsFrom>, of = story) =>
    forecastOfStory(of, { ...question, lessons }).assumptions.filter((one) => /how fast it dries/.test(one))

  test('nobody, one, or a mix that the record does not name: the spread of the material, and why', () => {
    const alone = 'the spread of the material is used: a factor of 1.00 × ÷ 1.57.'
    expect(sentences([])).toEqual([
      `No other bay of this mix has yet taught by valid tests how fast it dries; ${alone}`,
    ])
    expect(sentences(lessonsFrom(90))).toEqual([
      `Only 1 of the 3 bays of this mix that are needed taught by valid tests how fast it dries (G1); ${alone}`,
    ])
    expect(sentences([], read(85, 12, ' '))).toEqual([
      `The record does not say which mix this bay is (no designation, no cement type of a batch), so no other bay can teach how fast it dries; ${alone}`,
    ])
  })

  test('three bays are named with their factors, and the numbers in “why” are those that were used', () => {
    const lessons = lessonsFrom(88, 89, 90)
    const pooled = poolLessons(lessons, 0.45)!
    const factors = pooled.teachers.map(({ name, factor }) => `${name} ${factor.toFixed(2)}`).join(', ')
    expect(sentences(lessons)).toEqual([
      `3 other bays of the same mix taught how fast it dries (${factors}): before its own readings the diffusivity factor of this bay is taken as ${Math.exp(pooled.lnKappaMean).toFixed(2)} × ÷ ${Math.exp(pooled.lnKappaSd).toFixed(2)}, instead of 1.00 × ÷ 1.57 for the material.`,
    ])
    const { why } = forecastOfStory(story, { ...question, lessons })
    const before = why[0]!.inputs.find(({ name }) => name === 'diffusivity factor before any reading')!
    expect(before.value).toBeCloseTo(Math.exp(pooled.lnKappaMean), 12)
    expect(
      why[0]!.inputs.filter(({ name }) => name.startsWith('factor of bay G')).map(({ value }) => value),
    ).toEqual(pooled.teachers.map(({ factor }) => factor))
    expect(why[0]!.source).toMatch(/Bayesian Data Analysis, ch. 5 \(from memory\)/)
  })

  test('a bay handed its own lesson does not listen to it', () => {
    const own = lessonOfStory(read(85, 12), asOf, 'self')!
    const lessons = [...lessonsFrom(90, 90), { ...own, bay: story.bay.id }]
    expect(sentences(lessons)[0]).toMatch(/^Only 2 of the 3/)
  })

  test('without a prior the answer says that no other bay taught', () => {
    const none = forecastReady(ordinaryForecast()).why[0]!.inputs
    expect(none).toContainEqual({
      name: 'other bays of the mix that taught it',
      value: 'none: the spread of the material',
      unit: '',
    })
  })
})
