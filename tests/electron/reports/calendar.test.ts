// Source: RFC 5545 (published), read by a parser of the test's own. What falls due is common practice.
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type CalendarParts, calendarText } from '#electron/reports/calendar.ts'
import type { Reminder } from '#model/watch/index.ts'
import { type Component, instantOf, only, readCalendar, textOf } from './read-calendar.ts'

const now = Date.parse('2026-11-25T10:00:00Z')
const reminder = (part: Partial<Reminder> = {}): Reminder => ({
  about: 'bay',
  subject: '0190a000-0000-7000-8000-000000000001',
  name: 'G4',
  place: 'Ground floor, Flats',
  what: 'Take the sheet off',
  at: Date.parse('2026-11-26T07:00:00Z'),
  overdue: false,
  because: '7 days of curing.',
  record: 'sheet-off',
  recordTitle: 'Sheet taken off',
  ...part,
})
const parts = (part: Partial<CalendarParts> = {}): CalendarParts => ({
  project: { name: 'Winter job', timeZone: 'Europe/London' },
  reminders: [reminder()],
  forecasts: [],
  now,
  ...part,
})
const events = (part: Partial<CalendarParts> = {}): Component[] =>
  readCalendar(calendarText(parts(part))).inside

describe('CAL: the calendar file', () => {
  it('CAL-1: is one calendar of version 2.0 with a product and a name, and one event an act', () => {
    const calendar = readCalendar(calendarText(parts()))
    expect(calendar.name).toBe('VCALENDAR')
    expect(only(calendar, 'VERSION')).toBe('2.0')
    expect(only(calendar, 'PRODID')).toContain('Bayledger')
    const [event, ...more] = calendar.inside
    expect(more).toEqual([])
    expect(event!.name).toBe('VEVENT')
    expect(instantOf(event!, 'DTSTAMP')).toBe(now)
    expect(instantOf(event!, 'DTSTART')).toBe(Date.parse('2026-11-26T07:00:00Z'))
    expect(instantOf(event!, 'DTEND')).toBeGreaterThan(instantOf(event!, 'DTSTART'))
    expect(textOf(event!, 'SUMMARY')).toBe('Bay G4: Take the sheet off')
    expect(textOf(event!, 'DESCRIPTION')).toBe('7 days of curing.')
    expect(textOf(event!, 'LOCATION')).toBe('Ground floor, Flats')
  })

  it('CAL-2: the same act keeps its UID when its time moves; readings and bays do not share one', () => {
    const uid = (part: Partial<Reminder>) => only(events({ reminders: [reminder(part)] })[0]!, 'UID')
    expect(uid({ at: now + 90_000_000 })).toBe(uid({}))
    expect(uid({ because: 'Cold hours added.' })).toBe(uid({}))
    expect(uid({ subject: 'another' })).not.toBe(uid({}))
    expect(uid({ what: 'Lay the sheet' })).not.toBe(uid({}))
    const reading = { what: 'Read air and screed', record: 'air-read' as const }
    expect(uid({ ...reading, at: now + 3_600_000 })).not.toBe(uid({ ...reading, at: now }))
  })

  it('CAL-3: whatever stands in names and reasons comes back as it was, in lines of at most 75 octets', () => {
    const odd = fc
      .array(fc.constantFrom('a', ';', ',', '\\', '\n', ':', '"', 'ä', '°', '漢', '🧱', ' ', 'word'), {
        minLength: 1,
        maxLength: 120,
      })
      .map((signs) => signs.join(''))
    fc.assert(
      fc.property(odd, odd, odd, (name, because, project) => {
        const text = calendarText(
          parts({
            project: { name: project, timeZone: 'Europe/London' },
            reminders: [reminder({ name, because })],
          }),
        )
        const calendar = readCalendar(text)
        expect(textOf(calendar.inside[0]!, 'SUMMARY')).toBe(`Bay ${name}: Take the sheet off`)
        expect(textOf(calendar.inside[0]!, 'DESCRIPTION')).toBe(because)
        expect(textOf(calendar, 'X-WR-CALNAME')).toBe(`${project}, what falls due`)
      }),
      { numRuns: 300, seed: 5545 },
    )
  })

  it('CAL-4: an estimate is a whole day on the site’s calendar, tentative, and says that it never permits covering', () => {
    const dates = { p10: '2026-12-01T12:00:00Z', p50: '2026-12-10T23:30:00Z', p90: '2027-07-01T23:30:00Z' }
    const forecast = { bay: 'b1', name: 'G4', place: 'Ground floor', ...dates }
    const found = events({ reminders: [], forecasts: [forecast] })
    expect(found.map((event) => textOf(event, 'SUMMARY'))).toEqual([
      'Estimate, Bay G4: even chances that it is dry',
      'Estimate, Bay G4: nine chances in ten that it is dry',
    ])
    const days = found.map((event) => event.properties.find(({ name }) => name === 'DTSTART'))
    expect(days.map((day) => [day?.parameters.VALUE, day?.value])).toEqual([
      ['DATE', '20261210'],
      // 23:30 UTC in summer is the next day in London.
      ['DATE', '20270702'],
    ])
    for (const event of found) {
      expect(only(event, 'STATUS')).toBe('TENTATIVE')
      expect(only(event, 'TRANSP')).toBe('TRANSPARENT')
      expect(textOf(event, 'DESCRIPTION')).toContain('It never permits covering: only a valid test does.')
      expect(only(event, 'DTEND') > only(event, 'DTSTART')).toBe(true)
    }
    expect(new Set(found.map((event) => only(event, 'UID'))).size).toBe(2)
  })

  it('CAL-5: a limit that is not reached gives no day, and a day that has passed is none to plan on', () => {
    const never = { bay: 'b1', name: 'G4', place: '', p10: null, p50: null, p90: null }
    expect(events({ reminders: [], forecasts: [never] })).toEqual([])
    const past = { ...never, p50: '2026-11-20T12:00:00Z', p90: '2026-11-25T12:00:00Z' }
    expect(events({ reminders: [], forecasts: [past] }).map((event) => only(event, 'DTSTART'))).toEqual([
      '20261125',
    ])
    const half = events({ reminders: [], forecasts: [{ ...never, p50: '2026-12-20T12:00:00Z' }] })
    expect(textOf(half[0]!, 'DESCRIPTION')).toContain('nine in ten by no day that was looked at')
  })

  it('CAL-6: the reader of this test is not blind', () => {
    const good = calendarText(parts())
    expect(() => readCalendar(good.replaceAll('\r\n', '\n'))).toThrow()
    expect(() => readCalendar(good.replace('END:VEVENT', 'END:VALARM'))).toThrow()
    expect(() => readCalendar(good.replace('SUMMARY:', `SUMMARY:${'x'.repeat(80)}`))).toThrow(/75 octets/)
    const unescaped = readCalendar(good.replace('Ground floor\\, Flats', 'Ground floor, Flats'))
    expect(() => textOf(unescaped.inside[0]!, 'LOCATION')).toThrow(/not escaped/)
  })
})
