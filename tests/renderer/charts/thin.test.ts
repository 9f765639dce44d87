import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { gapOf, nearestIndex, thinned } from '#renderer/charts/thin.ts'

const hour = 3_600_000
const steady = (count: number, stepMs: number, heightAt: (i: number) => number) => ({
  at: Array.from({ length: count }, (_, i) => i * stepMs),
  value: Array.from({ length: count }, (_, i) => heightAt(i)),
})

describe('thinning a line for drawing', () => {
  it('CHART-1: a frost dip of one reading among a year of five-minute readings is still drawn', () => {
    const readings = steady(105_000, 300_000, (i) => (i === 41_237 ? -6.5 : 8))
    const points = thinned(readings, 0, readings.at.at(-1)!, 600, hour)
    expect(points.length).toBeLessThanOrEqual(4 * 602)
    expect(points.filter(({ value }) => value === -6.5)).toEqual([{ at: 41_237 * 300_000, value: -6.5 }])
  })

  it('CHART-1: taking every n-th reading would lose that dip (control)', () => {
    const { value } = steady(105_000, 300_000, (i) => (i === 41_237 ? -6.5 : 8))
    expect(value.filter((_, i) => i % 175 === 0)).not.toContain(-6.5)
  })

  it('CHART-2: in every column the lowest and the highest reading are kept, in the order of time', () => {
    const series = fc.array(
      fc.record({
        step: fc.integer({ min: 1, max: 900 }),
        value: fc.double({ min: -20, max: 60, noNaN: true }),
      }),
      {
        minLength: 2,
        maxLength: 400,
      },
    )
    fc.assert(
      fc.property(series, fc.integer({ min: 1, max: 60 }), (steps, columns) => {
        let clock = 0
        const at = steps.map(({ step }) => (clock += step))
        const value = steps.map((one) => one.value)
        const [from, until] = [at[0]!, at.at(-1)! + 1]
        const drawn = thinned({ at, value }, from, until, columns, Number.POSITIVE_INFINITY)
        const column = (instant: number) =>
          Math.floor((instant - from) / Math.max(1, (until - from) / columns))
        for (let c = 0; c < columns; c++) {
          const all = value.filter((_, i) => column(at[i]!) === c)
          const kept = drawn.filter((point) => column(point.at) === c).map((point) => point.value!)
          if (all.length === 0) continue
          expect(Math.min(...kept)).toBe(Math.min(...all))
          expect(Math.max(...kept)).toBe(Math.max(...all))
        }
        expect(drawn.every((point, i) => i === 0 || drawn[i - 1]!.at <= point.at)).toBe(true)
      }),
    )
  })

  it('CHART-3: readings further apart than the gap are not joined by a line', () => {
    const points = thinned({ at: [0, 1, 2, 50, 51], value: [1, 2, 3, 4, 5] }, 0, 60, 60, 10)
    expect(points.map(({ value }) => value)).toEqual([1, 2, 3, null, 4, 5])
  })

  it('CHART-4: one reading beyond each end is kept, so that a line leaves the frame and does not stop short', () => {
    const readings = steady(10, 10, (i) => i)
    const points = thinned(readings, 25, 55, 100, 100)
    expect(points.map(({ value }) => value)).toEqual([2, 3, 4, 5, 6])
  })

  it('CHART-5: nothing is drawn of no readings, and the gap of a logger is four of its intervals', () => {
    expect(thinned({ at: [], value: [] }, 0, 10, 10, 1)).toEqual([])
    expect(gapOf(steady(100, 2 * hour, () => 0).at, hour)).toBe(8 * hour)
    expect(gapOf([0], hour)).toBe(hour)
  })

  it('CHART-6: the reading under the cursor is the nearest one within reach, or none', () => {
    expect(nearestIndex([0, 10, 20], 14, 5)).toBe(1)
    expect(nearestIndex([0, 10, 20], 16, 5)).toBe(2)
    expect(nearestIndex([0, 10, 20], 40, 5)).toBe(-1)
    expect(nearestIndex([], 40, 5)).toBe(-1)
  })
})
