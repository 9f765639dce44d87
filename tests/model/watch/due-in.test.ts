// 07:00 and 15:00 readings, 7 days under the sheet (BS 8204-1, quoted second-hand), a check of humidity instruments every
// 30 days (ASTM F2170, quoted second-hand): the rules in force. No measured values.
import { describe, expect, it } from 'vitest'
import type { InstrumentId } from '#model/record/ids.ts'
import { dueIn, instrumentsDue, type Reminder } from '#model/watch/index.ts'
import { day, hour, minute, type StoryBuilder, storyOf } from '../../support/story.ts'

/** Monday 2 March 2026, 14:00 in London (winter time). */
const t0 = Date.parse('2026-03-02T14:00:00Z')
const said = (reminders: readonly Reminder[]) =>
  reminders.map(({ what, at }) => `${new Date(at).toISOString().slice(0, 16)} ${what}`)
const laid = (setting: Parameters<typeof storyOf>[0] = {}) =>
  storyOf(setting)
    .finished(t0)
    .sheetOn(t0 + hour)
const due = (story: StoryBuilder, asOf: number, days: number) => dueIn([story.build()], asOf, days)

describe('DUE: today and tomorrow', () => {
  it('DUE-1: one day is today only, two are today and tomorrow, every reading on the way is there', () => {
    const asOf = t0 + 2 * hour
    expect(said(due(laid(), asOf, 1))).toEqual(['2026-03-02T15:00 Read air and screed'])
    expect(said(due(laid(), asOf, 2))).toEqual([
      '2026-03-02T15:00 Read air and screed',
      '2026-03-03T07:00 Read air and screed',
      '2026-03-03T15:00 Read air and screed',
    ])
    expect(due(laid(), asOf, 2).map(({ overdue }) => overdue)).toEqual([false, false, false])
  })

  it('DUE-2: a week ahead holds the sheet that comes off and the last reading of the young days, once each', () => {
    const week = said(due(laid(), t0 + 2 * hour, 9))
    expect(week.filter((line) => line.endsWith('Take the sheet off'))).toHaveLength(1)
    expect(week.filter((line) => line.endsWith('Read air and screed'))).toHaveLength(14)
    expect(new Set(week).size).toBe(week.length)
    expect(week).toEqual(week.toSorted())
  })

  it('DUE-3: the day is the site’s: midnight in Auckland, not in London', () => {
    const project = { timeZone: 'Pacific/Auckland' }
    const far = due(laid({ project }), t0 + hour, 1)
    // 15:00 UTC is 04:00 on the 3rd in Auckland (UTC+13); that day ends at 11:00 UTC.
    expect(said(far)).toEqual([
      '2026-03-02T18:00 Read air and screed',
      '2026-03-03T02:00 Read air and screed',
    ])
  })

  it('DUE-4: what is overdue is due today, and a covered bay needs nothing', () => {
    const story = laid().air(t0 + hour, {})
    const late = due(story, t0 + 12 * day, 1).find(({ what }) => what === 'Take the sheet off')
    expect(late).toMatchObject({ overdue: true, about: 'bay', name: 'B1', record: 'sheet-off' })
    const covered = story.note('covering-laid', t0 + 60 * day, { on: '2026-05-01', covering: 'Vinyl' })
    expect(due(covered, t0 + 61 * day, 2)).toEqual([])
  })

  it('DUE-5: a chosen hold point is due on its day until somebody lets it go', () => {
    const story = laid({ project: { holdPoints: [{ point: 'curing day 4' }] } })
    const points = (asOf: number, days: number) =>
      due(story, asOf, days).filter(({ record }) => record === 'hold-point-released')
    expect(points(t0 + 2 * day, 2)).toEqual([])
    expect(said(points(t0 + 3 * day, 2))).toEqual(['2026-03-06T14:00 Hold point: curing, day 4'])
    story.note('hold-point-released', t0 + 4 * day, {
      point: 'curing day 4',
      decision: 'released',
      saw: 'Damp',
    })
    expect(points(t0 + 5 * day, 2)).toEqual([])
  })

  it('DUE-6: nothing that was written later is known', () => {
    const story = laid().sheetOff(t0 + 8 * day)
    expect(said(due(story, t0 + 6 * day, 3)).some((line) => line.endsWith('Take the sheet off'))).toBe(true)
  })
})

describe('DUE: instruments', () => {
  const hygrometer = (check?: { at: number; passed: boolean }, dueOn?: string) => {
    const story = laid().note('instrument-added', t0 - 90 * day, {
      type: 'hygrometer',
      serial: 'H-9',
      ...(dueOn === undefined ? {} : { dueOn }),
    })
    const id = story.last as string as InstrumentId
    if (check !== undefined) {
      const body = { check: 'salt', foundPercent: 75, passed: check.passed } as const
      story.note('instrument-checked', check.at, body, { subject: id })
    }
    return story.build()
  }
  const lines = (story: ReturnType<typeof hygrometer>, asOf = t0, days = 2) =>
    instrumentsDue([story], asOf, days).map(({ what, overdue }) => `${what}${overdue ? ', overdue' : ''}`)

  it.each([
    ['checked 27 days ago', { at: t0 - 27 * day, passed: true }, []],
    ['checked 29 days ago: tomorrow', { at: t0 - 29 * day, passed: true }, ['Check it']],
    ['checked 31 days ago', { at: t0 - 31 * day, passed: true }, ['Check it, overdue']],
    ['failed yesterday', { at: t0 - day, passed: false }, ['Check it again, overdue']],
    ['never checked', undefined, ['Check it, overdue']],
  ])('DUE-7: a hygrometer %s', (_what, check, expected) => {
    expect(lines(hygrometer(check))).toEqual(expected)
  })

  it.each([
    ['2026-03-01', ['Renew the certificate, overdue']],
    ['2026-03-03', ['Renew the certificate']],
    ['2026-03-09', []],
  ])('DUE-8: its certificate is due on %s', (dueOn, expected) => {
    expect(lines(hygrometer({ at: t0 - day, passed: true }, dueOn))).toEqual(expected)
  })

  it('DUE-9: an instrument that two bays used is named once', () => {
    const story = hygrometer()
    expect(instrumentsDue([story, story], t0, 2)).toHaveLength(1)
    expect(instrumentsDue([story], t0, 2)[0]).toMatchObject({
      about: 'instrument',
      name: 'Hygrometer H-9',
      record: 'instrument-checked',
    })
    expect(instrumentsDue([story], t0 - 91 * day + minute, 2)).toEqual([])
  })
})
