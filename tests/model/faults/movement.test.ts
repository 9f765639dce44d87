import { describe, expect, it } from 'vitest'
import { type GaugeReading, liveOrDormant } from '#model/faults/index.ts'

const start = Date.parse('2026-03-02T08:00:00Z')
type Row = [day: number, widthMm: number, surfaceC?: number, place?: string]
const readings = (rows: Row[]): GaugeReading[] =>
  rows.map(([day, widthMm, surfaceC, place]) => ({ at: start + day * 86_400_000, widthMm, surfaceC, place }))
const verdict = (...rows: Row[]) => liveOrDormant(readings(rows)).verdict

/** Limits of 0.1 mm, 7 and 14 days: our judgement. */
describe('MOV: live or dormant', () => {
  it('MOV-1: no reading, or one at each place, tells nothing and names the test', () => {
    expect(liveOrDormant([])).toMatchObject({
      verdict: 'not known',
      changeMm: null,
      measure: expect.stringMatching(/14 days/),
    })
    expect(verdict([0, 0.4, 20, 'a'], [14, 0.8, 20, 'b'])).toBe('not known')
  })

  it('MOV-2: more than 0.1 mm over seven days is live; exactly 0.1 mm, or six days, is not', () => {
    expect(verdict([0, 0.4], [7, 0.55])).toBe('live')
    expect(verdict([0, 0.4], [7, 0.5])).toBe('not known')
    expect(verdict([0, 0.4], [6, 0.55])).toBe('not known')
  })

  it('MOV-3: still over 14 days with three readings is dormant; with two, or 13 days, it is not known', () => {
    expect(verdict([0, 0.5], [7, 0.52], [14, 0.5])).toBe('dormant')
    expect(verdict([0, 0.5], [14, 0.5])).toBe('not known')
    expect(verdict([0, 0.5], [7, 0.5], [13, 0.5])).toBe('not known')
  })

  it('MOV-4: one live place makes the crack live, and one short place keeps it from being dormant', () => {
    const still: Row[] = [
      [0, 0.5, 20, 'a'],
      [7, 0.5, 19, 'a'],
      [14, 0.5, 20, 'a'],
    ]
    expect(verdict(...still, [0, 0.5, 20, 'b'], [9, 0.7, 12, 'b'])).toBe('live')
    expect(verdict(...still, [10, 0.5, 20, 'b'])).toBe('not known')
  })

  it('MOV-5: whether it follows the temperature is told only where the temperature moved', () => {
    const follow = (...rows: Row[]) => liveOrDormant(readings(rows)).followsTemperature
    expect(follow([0, 0.4, 20], [4, 0.6, 12], [8, 0.42, 19])).toBe('yes')
    expect(follow([0, 0.4, 20], [4, 0.5, 12], [8, 0.6, 20])).toBe('no')
    expect(follow([0, 0.4, 20], [4, 0.5, 20.5], [8, 0.6, 20])).toBe('not known')
    expect(follow([0, 0.4], [4, 0.5], [8, 0.6])).toBe('not known')
  })

  it('MOV-6: the order of entry does not matter', () => {
    expect(verdict([14, 0.5], [0, 0.5], [7, 0.52])).toBe('dormant')
  })

  it('MOV-7: bad readings are refused by their name', () => {
    expect(() => liveOrDormant([{ at: start, widthMm: Number.NaN }])).toThrow(/readings\[0\]\.widthMm is NaN/)
    expect(() => liveOrDormant([{ at: 'noon', widthMm: 1 }])).toThrow(/readings\[0\]\.at/)
    expect(() => liveOrDormant([{ at: start, widthMm: 1, surfaceC: 99 }])).toThrow(/readings\[0\]\.surfaceC/)
  })
})
