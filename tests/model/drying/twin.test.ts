import { describe, expect, test } from 'vitest'
import { scoreBay, summarise, type TwinScore } from '#scripts/twin.ts'

/**
 * A small sample of what `node scripts/twin.ts` scores on hundreds of made-up bays whose truth follows other physics;
 * docs/model.md has the large numbers. Here it only guards against a forecast that has stopped learning or boasting.
 */
const scores: TwinScore[] = Array.from({ length: 20 }, (_, i) => scoreBay(1 + i))
const summary = summarise(scores)
const row = (readings: number) => summary.rows.find((one) => one.readings === readings)!

describe('DRY-15: forecasts of bays that follow other physics', () => {
  test('the 80 % range holds between 13 and 19 of 20 truths at every number of readings', () => {
    for (const { coverage } of summary.rows) {
      expect(coverage).toBeGreaterThanOrEqual(0.65)
      expect(coverage).toBeLessThanOrEqual(0.95)
    }
  })
  test.each([1, 3, 5])(
    'with %i readings it is nearer than the rule of thumb and than the material alone',
    (readings) => {
      expect(row(readings).mae).toBeLessThan(summary.ruleMae)
      expect(row(readings).mae).toBeLessThan(row(0).mae)
      expect(row(readings).crps).toBeLessThan(row(0).crps)
      expect(row(readings).crps).toBeLessThan(summary.ruleMae)
      expect(row(readings).width).toBeLessThan(row(0).width)
    },
  )
  test('the score can tell: a range a tenth as wide holds too few', () => {
    const boasting = scores.map((score) => ({
      ...score,
      forecasts: score.forecasts.map((forecast) => ({
        ...forecast,
        p10: forecast.p50 - 0.1 * (forecast.p50 - forecast.p10),
        p90: forecast.p50 + 0.1 * (forecast.p90 - forecast.p50),
      })),
    }))
    expect(summarise(boasting).rows.every(({ coverage }) => coverage < 0.65)).toBe(true)
  })
  test('a bay scored twice is the same bay', () => {
    expect(scoreBay(3)).toEqual(scores[2])
  })
})
