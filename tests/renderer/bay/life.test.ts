import { describe, expect, it } from 'vitest'
import type { ReadyForecast } from '#model/drying/forecast-shape.ts'
import { storyAsOf } from '#model/record/story.ts'
import { effectiveRules } from '#model/rules/index.ts'
import type { Alert } from '#model/watch/alert.ts'
import { factsOf } from '#model/watch/facts/index.ts'
import { bayWords } from '#renderer/app/words/bay.ts'
import { siteIso } from '#renderer/parts/site-time.ts'
import { rangeText, shortDay } from '#renderer/screens/bay/date-range.ts'
import { inRows, type LaneItem, lanesOf } from '#renderer/screens/bay/life-axis/lanes.ts'
import { pinsOf } from '#renderer/screens/bay/life-axis/pins.ts'
import { readingAt, readingsOf } from '#renderer/screens/bay/life-axis/readings.ts'
import { spansOf } from '#renderer/screens/bay/life-axis/span.ts'
import { readingsTable } from '#renderer/screens/bay/life-axis/tables.ts'
import { day, hour, instant, storyOf } from '#tests/support/story.ts'

const asOf = '2026-01-25T12:00:00Z'
const rules = effectiveRules('british')
const sheet = { material: 'polyethylene', coveredPercent: 100, edgesHeld: true } as const
const factsAsOf = (story: ReturnType<ReturnType<typeof storyOf>['build']>, at = asOf) =>
  factsOf(storyAsOf(story, instant(at)), instant(at), rules)
const finished = { startedAt: '2026-01-05T08:00:00Z', finish: 'float' } as const

describe('the lanes of a bay’s life', () => {
  const story = storyOf()
    .note('bay-finished', '2026-01-05T14:00:00Z', finished)
    .note('sheet-on', '2026-01-05T16:00:00Z', { ...sheet, coveredPercent: 60 })
    .note('sheet-on', '2026-01-06T08:00:00Z', sheet)
    .note('sheet-off', '2026-01-13T08:00:00Z', { why: 'end of curing' })
    .note('traffic-seen', '2026-01-08T10:00:00Z', { traffic: 'ladder', boards: false })
    .note('defect-found', '2026-01-20T10:00:00Z', {
      symptom: 'S06',
      firstSeenOn: '2026-01-20',
      extent: 'part',
    })
    .build()
  const lanes = lanesOf(factsAsOf(story), bayWords.axis)
  const items = (name: string) => lanes.find((lane) => lane.name === name)?.rows.flat() ?? []

  it('LIFE-1: a sheet runs from on to off; one that leaves part of the bay open is weak and ends where the next begins', () => {
    expect(items('sheets').map(({ from, until, weak }) => ({ from, until, weak }))).toEqual([
      { from: instant('2026-01-05T16:00:00Z'), until: instant('2026-01-06T08:00:00Z'), weak: true },
      { from: instant('2026-01-06T08:00:00Z'), until: instant('2026-01-13T08:00:00Z'), weak: false },
    ])
  })

  it('LIFE-2: an open defect has no end, and a lane in which nothing happened is not there', () => {
    expect(items('defects')).toMatchObject([{ until: null, label: 'Straight crack mid-bay', drawn: 'bar' }])
    expect(lanes.map(({ name }) => name)).toEqual(['laying', 'sheets', 'traffic', 'defects'])
  })

  it('LIFE-3: what had not happened by the day one looks back to is not drawn', () => {
    const then = lanesOf(factsAsOf(story, '2026-01-07T12:00:00Z'), bayWords.axis)
    expect(then.map(({ name }) => name)).toEqual(['laying', 'sheets'])
    expect(
      then
        .find(({ name }) => name === 'sheets')
        ?.rows.flat()
        .at(-1)?.until,
    ).toBeNull()
  })

  it('LIFE-4: things that last at the same time stand in rows below each other, others share a row', () => {
    const item = (from: number, until: number | null): LaneItem => ({
      entry: `${from}`,
      from,
      until,
      label: '',
      drawn: 'bar',
      weak: false,
    })
    const rows = inRows([item(0, 10), item(5, null), item(10, 20), item(30, 40)])
    expect(rows.map((row) => row.map(({ from }) => from))).toEqual([[0, 10, 30], [5]])
  })

  it('LIFE-5: a withdrawn entry leaves its lane', () => {
    const told = storyOf().note('bay-finished', '2026-01-05T14:00:00Z', finished)
    told.note('traffic-seen', '2026-01-08T10:00:00Z', { traffic: 'stack', boards: false })
    told.withdraw(told.last, '2026-01-09T10:00:00Z')
    expect(lanesOf(factsAsOf(told.build()), bayWords.axis).map(({ name }) => name)).toEqual(['laying'])
  })
})

describe('the stretches one looks at', () => {
  const told = storyOf().note('bay-finished', '2026-01-05T14:00:00Z', finished).build()
  const forecast = {
    p50: '2026-03-20T00:00:00Z',
    p90: '2026-04-10T00:00:00Z',
    band: [{ at: instant('2026-07-01T00:00:00Z'), p10: 60, p50: 65, p90: 70 }],
  } as unknown as ReadyForecast

  it('LIFE-6: without an estimate the axis ends about now; with one it reaches past the cautious date', () => {
    const bare = spansOf(factsAsOf(told), null)
    expect(bare?.all.until).toBeLessThan(instant(asOf) + day)
    expect(bare?.toCovering).toBeNull()
    const estimated = spansOf(factsAsOf(told), forecast)
    expect(estimated?.all.until).toBeGreaterThan(instant('2026-04-10T00:00:00Z'))
    expect(estimated?.all.until).toBeLessThan(instant('2026-05-01T00:00:00Z'))
    expect(estimated?.toCovering?.until).toBe(instant('2026-04-12T00:00:00Z'))
  })

  it('LIFE-7: a bay to which nothing has happened has no axis', () => {
    expect(spansOf(factsAsOf(storyOf().build()), null)).toBeNull()
  })
})

describe('what is read off the axis', () => {
  const at = Array.from({ length: 200 }, (_, i) => instant('2026-01-05T15:00:00Z') + i * hour)
  const value = at.map((_, i) => (i === 77 ? -6.25 : 11.5))
  const story = storyOf()
    .note('bay-finished', '2026-01-05T14:00:00Z', finished)
    .logger('2026-01-05T15:00:00Z', { screedC: value })
    .build()
  const readings = readingsOf(factsAsOf(story))

  it('LIFE-8: the number under the cursor is the reading, and none where nobody measured', () => {
    expect(readingAt(readings, 'screed', at[77]! + 600_000)).toBe(-6.25)
    expect(readingAt(readings, 'screed', at.at(-1)! + 3 * day)).toBeNull()
    expect(readingAt(readings, 'rh', at[77]!)).toBeNull()
  })

  it('LIFE-9: the saved table has every reading with all its digits', () => {
    const { rows } = readingsTable('x', readings, (at) => siteIso(at, 'Europe/London'))
    expect(rows).toHaveLength(200)
    expect(rows[77]).toEqual(['2026-01-08T20:00:00+00:00', null, -6.25, null, null])
  })
})

describe('pins of alerts', () => {
  const alert = (id: string, since: number, severity: Alert['severity']) => ({ id, since, severity }) as Alert

  it('LIFE-10: alerts too close to tell apart share a pin, the most pressing first; none is lost', () => {
    const alerts = [
      alert('a', 0, 'watch'),
      alert('b', 10, 'stop'),
      alert('c', 100, 'act'),
      alert('d', 900, 'act'),
    ]
    const pins = pinsOf(alerts, (since) => (since > 500 ? null : since), 26)
    expect(pins.map(({ alerts: shared }) => shared.map(({ id }) => id))).toEqual([['b', 'a'], ['c']])
  })
})

describe('a range of days', () => {
  const now = instant('2026-11-25T12:00:00Z')
  const text = (from: string, until: string) => rangeText(instant(from), instant(until), 'Europe/London', now)

  it('LIFE-11: month and year are said once where they are the same, and the year where it is not this one', () => {
    expect(text('2026-12-14T12:00:00Z', '2026-12-29T12:00:00Z')).toBe('14–29 Dec')
    expect(text('2026-11-28T12:00:00Z', '2026-12-10T12:00:00Z')).toBe('28 Nov – 10 Dec')
    expect(text('2026-12-20T12:00:00Z', '2027-01-04T12:00:00Z')).toBe('20 Dec – 4 Jan 2027')
    expect(text('2027-01-14T12:00:00Z', '2027-01-29T12:00:00Z')).toBe('14–29 Jan 2027')
    expect(text('2026-12-14T01:00:00Z', '2026-12-14T20:00:00Z')).toBe('14 Dec')
  })

  it('LIFE-12: the day is that of the site, not that of UTC', () => {
    expect(shortDay(instant('2026-07-01T23:30:00Z'), 'Europe/London', now)).toBe('2 Jul')
  })
})
