import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { timeTicks } from '#renderer/charts/time-ticks.ts'
import { instantAt, moved, visiblePart, within, xOf, zoomed } from '#renderer/charts/time-view.ts'
import { roundStep, valueScale } from '#renderer/charts/value-ticks.ts'

const at = (text: string) => Date.parse(text)

describe('the time axis', () => {
  it('CHART-7: marks stand at midnights of the site, also across a clock change', () => {
    // Europe/London went back to GMT on 25 October 2026 at 01:00 UTC (IANA tz database, rule EU).
    const ticks = timeTicks(at('2026-10-24T00:00:00+01:00'), at('2026-10-27T00:00:00Z'), 'Europe/London', 4)
    expect(ticks.map((tick) => new Date(tick.at).toISOString())).toEqual([
      '2026-10-23T23:00:00.000Z',
      '2026-10-24T23:00:00.000Z',
      '2026-10-26T00:00:00.000Z',
      '2026-10-27T00:00:00.000Z',
    ])
    expect(ticks.map(({ label }) => label)).toEqual(['Sat 24 Oct', 'Sun 25 Oct', 'Mon 26 Oct', 'Tue 27 Oct'])
  })

  it('CHART-8: the hour that the clocks skip has no mark', () => {
    // Clocks went forward on 29 March 2026 at 01:00 UTC: 01:00 was never shown.
    const ticks = timeTicks(at('2026-03-29T00:00:00Z'), at('2026-03-29T04:00:00Z'), 'Europe/London', 6)
    expect(ticks.map(({ label }) => label)).toEqual(['Sun 29 Mar', '02:00', '03:00', '04:00', '05:00'])
  })

  it('CHART-9: there are never more marks than fit, all inside the span and rising', () => {
    const start = at('2026-01-01T00:00:00Z')
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 20_000 }), fc.integer({ min: 2, max: 16 }), (hours, most) => {
        const until = start + hours * 3_600_000
        const ticks = timeTicks(start, until, 'Europe/Berlin', most)
        expect(ticks.length).toBeLessThanOrEqual(most + 2)
        expect(ticks.every((tick) => tick.at >= start && tick.at <= until)).toBe(true)
        expect(ticks.every((tick, i) => i === 0 || tick.at > ticks[i - 1]!.at)).toBe(true)
      }),
    )
  })
})

describe('moving about in time', () => {
  const whole = { from: 0, until: 100 * 3_600_000 }

  it('CHART-10: place and instant are each other’s inverse', () => {
    expect(xOf(25, { from: 0, until: 100 }, 800)).toBe(200)
    expect(instantAt(200, { from: 0, until: 100 }, 800)).toBe(25)
  })

  it('CHART-11: zooming keeps the instant under the cursor where it is', () => {
    const about = 30 * 3_600_000
    const view = zoomed(whole, whole, 0.5, about)
    expect(xOf(about, view, 1000)).toBeCloseTo(300, 6)
    expect(view.until - view.from).toBe(50 * 3_600_000)
  })

  it('CHART-12: no zoom and no step leaves the whole', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 9, noNaN: true }),
        fc.double({ min: -3, max: 3, noNaN: true }),
        (factor, share) => {
          const view = moved(
            zoomed({ from: 10 * 3_600_000, until: 20 * 3_600_000 }, whole, factor, 15 * 3_600_000),
            whole,
            share,
          )
          expect(view.from).toBeGreaterThanOrEqual(whole.from)
          expect(view.until).toBeLessThanOrEqual(whole.until + 1e-6)
          expect(view.until).toBeGreaterThan(view.from)
        },
      ),
    )
    expect(within({ from: -50, until: 999 * 3_600_000 }, whole)).toEqual(whole)
  })

  it('CHART-13: what lies outside is not shown, and what has no end runs to the edge', () => {
    const view = { from: 10, until: 20 }
    expect(visiblePart(0, 5, view)).toBeNull()
    expect(visiblePart(12, null, view)).toEqual({ from: 12, until: 20 })
    expect(visiblePart(0, 15, view)).toEqual({ from: 10, until: 15 })
  })
})

describe('the value axis', () => {
  it('CHART-14: it holds every value and the limit, between round numbers', () => {
    expect(valueScale([4.2, 11.7], [0, 5], 4)).toEqual({ low: 0, high: 15, ticks: [0, 5, 10, 15] })
    expect(valueScale([-6.4, 18], [0], 5)).toEqual({ low: -10, high: 20, ticks: [-10, -5, 0, 5, 10, 15, 20] })
    expect(valueScale([], [75], 4).ticks).toHaveLength(2)
    expect(valueScale([Number.NaN], [], 4)).toEqual({ low: 0, high: 1, ticks: [0, 1] })
  })

  it('CHART-14: any values are held and every step is 1, 2 or 5 times a power of ten', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -500, max: 500, noNaN: true }), { minLength: 1, maxLength: 30 }),
        (values) => {
          const { low, high, ticks } = valueScale(values, [0], 5)
          for (const value of values) {
            expect(value).toBeGreaterThanOrEqual(low - 1e-6)
            expect(value).toBeLessThanOrEqual(high + 1e-6)
          }
          expect(ticks.length).toBeLessThanOrEqual(8)
        },
      ),
    )
    expect([0.3, 1, 1.1, 3, 70].map(roundStep)).toEqual([0.5, 1, 2, 5, 100])
  })
})
