import { describe, expect, test } from 'vitest'
import {
  agoText,
  calendarDayText,
  clockFromTyped,
  dayOnSite,
  instantFromWall,
  momentText,
  nearText,
  saidOnSite,
  siteDay,
  siteIso,
} from '#renderer/parts/site-time.ts'

const london = 'Europe/London'
const adelaide = 'Australia/Adelaide'
const at = Date.parse('2026-11-24T07:15:00Z')

describe('times as people on site say them', () => {
  test('TIME-1: a moment is printed by the clock of the site, with the year only when it is another one', () => {
    expect(momentText(at, london)).toBe('Tue 24 Nov 07:15')
    expect(momentText(at, adelaide)).toBe('Tue 24 Nov 17:45')
    expect(momentText(at, london, Date.parse('2027-01-02T00:00:00Z'))).toBe('Tue 24 Nov 2026 07:15')
  })

  test('TIME-2: the day of a moment is the site’s day, not the machine’s', () => {
    expect(siteDay(Date.parse('2026-11-24T20:00:00Z'), adelaide)).toBe('2026-11-25')
    expect(calendarDayText('2026-11-24')).toBe('Tue 24 Nov 2026')
  })

  test('TIME-9: instants and days inside a sentence are said by the clock of the site; other numbers stay', () => {
    const sentence = 'Read 2026-10-12T03:52:33.678Z at 65.2 %, box of 2026-10-08, report 2026-1, EN 1264-4'
    expect(saidOnSite(sentence, london)).toBe(
      'Read Mon 12 Oct 2026 04:52 at 65.2 %, box of Thu 8 Oct 2026, report 2026-1, EN 1264-4',
    )
    expect(saidOnSite('since 2026-11-24T20:00Z', adelaide)).toBe('since Wed 25 Nov 2026 06:30')
  })

  test('TIME-3: what is written carries the offset of the site on that day', () => {
    expect(siteIso(at, london)).toBe('2026-11-24T07:15:00+00:00')
    expect(siteIso(Date.parse('2026-07-01T06:00:00Z'), london)).toBe('2026-07-01T07:00:00+01:00')
    expect(siteIso(at, adelaide)).toBe('2026-11-24T17:45:00+10:30')
  })

  test('TIME-4: a clock on site is read back to the instant it showed', () => {
    expect(instantFromWall('2026-11-24', '07:15', london)).toEqual({ kind: 'at', at })
    expect(instantFromWall('2026-11-24', '17:45', adelaide)).toEqual({ kind: 'at', at })
  })

  // Clock changes of the United Kingdom in 2026: 29 March 01:00 and 25 October 02:00 (IANA time zone data).
  test('TIME-5: the hour that the clocks skip is no time, the hour they repeat is two', () => {
    expect(instantFromWall('2026-03-29', '01:30', london)).toEqual({ kind: 'skipped' })
    expect(instantFromWall('2026-10-25', '01:30', london)).toEqual({
      kind: 'twice',
      at: Date.parse('2026-10-25T00:30:00Z'),
      again: Date.parse('2026-10-25T01:30:00Z'),
    })
  })

  test.each([
    ['2026-02-30', '07:15'],
    ['2026-13-01', '07:15'],
    ['2026-11-24', '24:00'],
    ['2026-11-24', '07:60'],
    ['', '07:15'],
    ['2026-11-24', 'soon'],
  ])('TIME-6: “%s %s” is not a day and time', (day, clock) => {
    expect(instantFromWall(day, clock, london)).toBeNull()
  })

  test.each([
    ['7:15', '07:15'],
    ['715', '07:15'],
    ['0715', '07:15'],
    ['7', '07:00'],
    ['17.5', null],
    ['07.15', '07:15'],
    ['25:00', null],
    ['noon', null],
  ])('TIME-7: “%s” typed as a time is %s', (typed, clock) => {
    expect(clockFromTyped(typed)).toBe(clock)
  })

  test('TIME-8: near days are named, and how far a moment lies is said in the largest useful unit', () => {
    expect(nearText(at, at, london)).toBe('Today 07:15')
    expect(nearText(at, at - 86_400_000, london)).toBe('Tomorrow 07:15')
    expect(nearText(at, at + 86_400_000, london)).toBe('Yesterday 07:15')
    expect(agoText(at, at + 12 * 60_000)).toBe('12 min ago')
    expect(agoText(at, at - 3 * 3_600_000)).toBe('in 3 h')
    expect(agoText(at, at + 3 * 86_400_000)).toBe('3 days ago')
  })
})

describe('a day on site', () => {
  const hours = (day: string, zone: string) => {
    const found = dayOnSite(day, zone)
    return found === null ? null : (found.to + 1 - found.from) / 3_600_000
  }
  test('DAY-1: it has 24 hours, 23 or 25 where the clocks change, and none while it is half typed', () => {
    // The last Sundays of March and October: Directive 2000/84/EC and the UK Summer Time Order 2002, from memory.
    expect(hours('2026-11-24', 'Europe/London')).toBe(24)
    expect(hours('2026-03-29', 'Europe/London')).toBe(23)
    expect(hours('2026-10-25', 'Europe/London')).toBe(25)
    for (const day of ['', '2026-1', '2026-02-30']) expect(dayOnSite(day, 'Europe/London')).toBeNull()
  })

  test('DAY-2: where midnight is skipped, the day begins at one o’clock and still counts', () => {
    // Beirut moves its clocks at midnight: IANA time zone database, as the runtime has it.
    expect(hours('2026-03-29', 'Asia/Beirut')).toBe(23)
  })
})
