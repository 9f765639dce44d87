import { describe, expect, it } from 'vitest'
import { type CrackQuestion, crackAdvice, type GaugeReading, liveOrDormant } from '#model/faults/index.ts'

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

const still: CrackQuestion = {
  widthMm: 0.5,
  stable: true,
  floating: true,
  heated: false,
  covering: 'textile',
}
const advice = (change: Partial<CrackQuestion>) => crackAdvice({ ...still, ...change }).advice

/** No screed standard gives a width that must be filled; the widths are our judgement. */
describe('CRK: advice on one crack', () => {
  it('CRK-1: a moving crack becomes a joint, whatever its width', () => {
    for (const widthMm of [0.1, 0.5, 3, null])
      expect(advice({ widthMm, stable: false })).toBe('turn into joint')
  })

  it('CRK-2: nobody knows whether it moves: measure first, with the gauge', () => {
    expect(crackAdvice({ ...still, stable: null })).toMatchObject({
      advice: 'measure first',
      measure: expect.stringMatching(/gauge/),
    })
  })

  it('CRK-3: below 0.3 mm it stays, from 0.3 to 5 mm it is filled, beyond that cut out', () => {
    expect([0.29, 0.3, 5, 5.1].map((widthMm) => advice({ widthMm }))).toEqual([
      'leave',
      'fill',
      'fill',
      'cut out',
    ])
  })

  it('CRK-4: a card that slides in shows enough to fill; one that does not leaves it open', () => {
    expect(crackAdvice({ ...still, widthMm: null, card: 'slides in' })).toMatchObject({
      advice: 'fill',
      widthMm: { atLeast: 0.68, atMost: null },
      measure: expect.stringMatching(/five places/),
    })
    expect(advice({ widthMm: null, card: 'does not' })).toBe('measure first')
    expect(advice({ widthMm: null })).toBe('measure first')
  })

  it('CRK-5: a step above 2 mm is tied; a piece that rocks comes out', () => {
    expect([2, 2.1].map((stepMm) => advice({ stepMm }))).toEqual(['fill', 'fill and tie'])
    expect(advice({ isolatedPiece: true })).toBe('cut out')
  })

  it('CRK-6: the cautions of the work stand with the advice', () => {
    const heated = crackAdvice({ ...still, stable: false, heated: true }).cautions.join(' ')
    expect(heated).toMatch(/pipes/)
    expect(heated).toMatch(/silica/)
    expect(crackAdvice({ ...still, widthMm: 1.5 }).cautions.join(' ')).toMatch(/insulation/)
  })

  it('CRK-7: bad input names its field', () => {
    expect(() => crackAdvice({ ...still, widthMm: Number.NaN })).toThrow(/widthMm is NaN/)
    expect(() => crackAdvice({ ...still, stepMm: -1 })).toThrow(/stepMm/)
    expect(() => crackAdvice({ ...still, stable: 'yes' as never })).toThrow(/stable must be/)
  })
})
