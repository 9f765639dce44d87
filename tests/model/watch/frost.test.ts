// Limits: ≥ 5 °C for 4 days (BS 8204-1, quoted second-hand); 1 100 °C·h, 1 h and 0 °C (our judgement).
import { describe, expect, it } from 'vitest'
import { effectiveRules } from '#model/rules/index.ts'
import { day, hour, instant, storyOf } from '../../support/story.ts'
import { hourly, outcome, raised } from './support.ts'

const t0 = instant('2026-01-05T14:00:00Z')
const finished = () => storyOf().finished(t0)

describe('A01 cold pour', () => {
  const planned = () => storyOf({ bay: { plannedFor: '2026-01-05T08:00:00Z' } })
  const noted = instant('2026-01-04T15:00:00Z')
  const forecast = (lowestC: number, from = '2026-01-05T08:00:00Z', until = '2026-01-09T08:00:00Z') =>
    planned().note('weather-forecast-noted', noted, {
      from,
      until,
      lowestC,
      highestC: 12,
      givenBy: 'Weather desk',
    })

  it.each([
    ['forecast of 4.9 °C, nothing planned', () => forecast(4.9), 'stop'],
    ['forecast of exactly 5 °C', () => forecast(5), 'none'],
    ['no forecast at all: not shown to be cold', () => planned(), 'none'],
    ['cold only after 96 h', () => forecast(-3, '2026-01-09T08:00:00Z', '2026-01-10T08:00:00Z'), 'none'],
    [
      'forecast of −2 °C with an electric heater planned',
      () => forecast(-2).note('protection-on', noted, { what: 'electric heater', planned: true }),
      'act',
    ],
    [
      'an unflued burner planned is no protection',
      () => forecast(-2).note('protection-on', noted, { what: 'unflued heater', planned: true }),
      'stop',
    ],
    [
      'base at 4.5 °C',
      () =>
        planned().note('base-surveyed', noted, { prepared: 'membrane', dry: true, clean: true, baseC: 4.5 }),
      'stop',
    ],
    [
      'base at 5.0 °C',
      () =>
        planned().note('base-surveyed', noted, { prepared: 'membrane', dry: true, clean: true, baseC: 5 }),
      'none',
    ],
    ['mix at 4.9 °C', () => planned().batch('2026-01-04T15:30:00Z', { mixC: 4.9 }), 'stop'],
  ])('FROST-1: %s', (_, story, expected) => {
    expect(outcome('A01', story(), '2026-01-04T16:00:00Z')).toBe(expected)
  })

  it('FROST-1: a cold base that was entered in error raises nothing', () => {
    const survey = { prepared: 'membrane', dry: true, clean: true, baseC: 4.5 } as const
    const story = planned().note('base-surveyed', noted, survey)
    story.withdraw(story.last, noted + hour)
    expect(outcome('A01', story, noted + 2 * hour)).toBe('none')
  })

  it('FROST-1: a later forecast replaces an earlier one', () => {
    const story = forecast(-4).note('weather-forecast-noted', noted + 2 * hour, {
      from: '2026-01-05T00:00:00Z',
      until: '2026-01-10T00:00:00Z',
      lowestC: 6,
      highestC: 12,
      givenBy: 'Weather desk',
    })
    expect(outcome('A01', story, noted + hour)).toBe('stop')
    expect(outcome('A01', story, noted + 3 * hour)).toBe('none')
  })
})

describe('A02 screed too cold', () => {
  it.each([
    ['2 h below 5 °C', [6, 4, 4, 6, 8], 'act ended'],
    ['below for exactly one hour: 6 → 4 → 6 crosses at ± 30 min', [8, 6, 4, 6, 8], 'none'],
    ['exactly 5.0 °C all night', [6, 5, 5, 5, 6], 'none'],
    ['still cold at the last reading', [8, 6, 4, 3, 3], 'act'],
  ])('FROST-2: %s', (_, screedC, expected) => {
    const story = finished().logger(t0, { screedC })
    expect(outcome('A02', story, t0 + 5 * hour)).toBe(expected)
  })

  it('FROST-2: a cold reading alone in ten hours is not proven, because nobody knows how long it lasted', () => {
    const story = finished()
      .screedC(t0 + hour, 9)
      .screedC(t0 + 11 * hour, 4)
      .screedC(t0 + 21 * hour, 9)
    expect(outcome('A02', story, t0 + day)).toBe('not proven ended')
  })

  it('FROST-2: no temperature in the screed raises nothing and claims nothing', () => {
    expect(outcome('A02', finished(), t0 + day)).toBe('none')
  })

  it('FROST-2: cold after the fourth day is no longer its business', () => {
    const story = finished().logger(t0 + 4 * day + hour, { screedC: hourly(12, 2) })
    expect(outcome('A02', story, t0 + 6 * day)).toBe('none')
  })

  it('FROST-2: one cold night of three dips is one alert with the coldest point', () => {
    const dips = hourly(20, (i) => (i % 6 < 3 ? 3 - i / 10 : 6))
    const alerts = raised('A02', finished().logger(t0, { screedC: dips }), t0 + 20 * hour)
    expect(alerts).toHaveLength(1)
    expect(alerts[0]!.evidence[0]).toMatchObject({ what: 'Coldest in the screed', value: 1.1, unit: '°C' })
  })

  it('FROST-2: two cold nights with a warm day between are two alerts', () => {
    const nights = hourly(48, (i) => (i % 24 < 6 ? 3 : 9))
    expect(raised('A02', finished().logger(t0, { screedC: nights }), t0 + 2 * day)).toHaveLength(2)
  })

  it('FROST-2: a company rule of 8 °C acts', () => {
    const rules = effectiveRules('british', {}, [{ id: 'frost.screedC', value: 8, reason: 'Slow cement' }])
    const story = finished().logger(t0, { screedC: [9, 7, 7, 7, 9] })
    expect(outcome('A02', story, t0 + 5 * hour)).toBe('none')
    const [alert] = raised('A02', story, t0 + 5 * hour, { rules })
    expect(alert).toMatchObject({ limit: { value: 8, provenance: 'company rule' } })
    expect(alert!.source).toContain('company rule: Slow cement')
  })

  it('FROST-2: knows nothing of the night to come', () => {
    const story = finished().logger(t0, { screedC: [8, 8, 8, 4, 4, 4] })
    expect(outcome('A02', story, t0 + 3.5 * hour)).toBe('none')
    expect(outcome('A02', story, t0 + 5 * hour)).toBe('act')
  })

  it('FROST-2: a logger read late shows the night from then on, not before', () => {
    const story = finished().logger(t0, { screedC: hourly(12, 2) }, { recordedAt: t0 + 3 * day })
    const asOf = t0 + 4 * day
    expect(outcome('A02', story, asOf)).toBe('act')
    expect(outcome('A02', story, asOf, { knownAt: t0 + 2 * day })).toBe('none')
  })

  it('FROST-2: withdrawing the logger file withdraws the alert', () => {
    const story = finished().logger(t0, { screedC: hourly(12, 2) })
    story.withdraw(story.last, t0 + 2 * day)
    expect(outcome('A02', story, t0 + 3 * day)).toBe('none')
    expect(outcome('A02', story, t0 + 3 * day, { knownAt: t0 + day })).toBe('act')
  })
})

describe('A03 frozen early', () => {
  const night = (warmHours: number, coldC: number) =>
    finished().logger(t0, { screedC: [...hourly(warmHours, 20), coldC, coldC, 8, 8] })

  it.each([
    ['0.0 °C on night one counts as frozen', night(10, 0), 'stop'],
    ['0.1 °C does not', night(10, 0.1), 'none'],
    ['frost after 36.7 h at 20 °C (1 100 °C·h) does no harm', night(40, -2), 'none'],
    ['frost after 30 h at 20 °C (870 °C·h) does', night(30, -2), 'stop'],
  ])('FROST-3: %s', (_, story, expected) => {
    expect(outcome('A03', story, t0 + 60 * hour)).toBe(expected)
  })

  it('FROST-3: the maturity at that hour is in the evidence: 24 h at 20 °C are 720 °C·h', () => {
    // Table value: (20 + 10) · 24 = 720 °C·h (Nurse-Saul, datum −10 °C, from memory).
    const story = finished()
      .logger(t0, { screedC: hourly(25, 20) })
      .logger(t0 + 24 * hour, { screedC: [20, -1, 5] }, { everyMin: 1 })
    const [alert] = raised('A03', story, t0 + 30 * hour)
    expect(alert!.evidence.find(({ what }) => what === 'Maturity then')!.value).toBeCloseTo(720, -1)
  })

  it.each([
    ['on the second day is frozen', 2 * day, 'stop'],
    ['on the fifth day, after its four days, is not', 5 * day, 'none'],
  ])('FROST-3: calcium sulfate has no maturity: a frost %s', (_, after, expected) => {
    const story = storyOf({ bay: { screed: 'calcium sulfate' } }).finished(t0)
    expect(outcome('A03', story.screedC(t0 + after, -1), t0 + 6 * day)).toBe(expected)
  })

  it('FROST-3: with hours that nobody measured before it, it is not proven', () => {
    const story = finished().logger(t0 + 60 * hour, { screedC: [3, -1, -1, 3] })
    expect(outcome('A03', story, t0 + 70 * hour)).toBe('not proven')
  })

  it('FROST-3: a frost of three readings is one alert', () => {
    const alerts = raised('A03', finished().logger(t0, { screedC: [5, 3, -1, -2, -1, 3, 5] }), t0 + 8 * hour)
    expect(alerts).toHaveLength(1)
    expect(alerts[0]!.evidence).toContainEqual(expect.objectContaining({ what: 'Readings below', value: 3 }))
    expect(alerts[0]!.id).toBe(`A03:${alerts[0]!.id.split(':')[1]}:${alerts[0]!.since}`)
  })

  it('FROST-3: a correction of the reading withdraws it', () => {
    const story = finished().screedC(t0 + 6 * hour, -1)
    expect(outcome('A03', story, t0 + day)).toBe('stop')
    story.correct<'screed-temperature-read'>(story.last, t0 + day, { screedC: 11 })
    expect(outcome('A03', story, t0 + day)).toBe('none')
  })

  it('FROST-3: an answer answers it, by its id', () => {
    const story = finished().screedC(t0 + 6 * hour, -1)
    const [alert] = raised('A03', story, t0 + day)
    story.note('alert-answered', t0 + 30 * hour, { alert: alert!.id, answer: 'Edge cut out and relaid' })
    const [answered] = raised('A03', story, t0 + 2 * day)
    expect(answered!.answeredBy).toMatchObject({ answer: 'Edge cut out and relaid', at: t0 + 30 * hour })
    expect(raised('A03', story, t0 + day)[0]!.answeredBy).toBeNull()
  })

  it('FROST-3: the coldest of two loggers counts', () => {
    const story = finished()
      .logger(t0, { screedC: hourly(12, 9) })
      .logger(t0, { screedC: [...hourly(6, 4), -1, -1, ...hourly(4, 4)] })
    expect(outcome('A03', story, t0 + day)).toBe('stop')
  })
})

describe('A04 frost likely, not measured', () => {
  it.each([
    ['air at 0 °C', finished().air(t0 + 15 * hour, { airC: 0 }), 'act'],
    ['air at 0.1 °C', finished().air(t0 + 15 * hour, { airC: 0.1 }), 'none'],
    [
      'air at −3 °C and the screed measured at 6 °C',
      finished()
        .air(t0 + 15 * hour, { airC: -3 })
        .logger(t0, { screedC: hourly(30, 6) }),
      'none',
    ],
    ['air at −3 °C on the fifth day', finished().air(t0 + 4.2 * day, { airC: -3 }), 'none'],
    [
      'outside at −3 °C and the room unread',
      finished().air(t0 + 15 * hour, { airC: -3, place: 'outside' }),
      'act',
    ],
    [
      'outside at −3 °C and the room read at 7 °C',
      finished()
        .air(t0 + 15 * hour, { airC: -3, place: 'outside' })
        .air(t0 + 15 * hour, { airC: 7 }),
      'none',
    ],
    ['nothing read', finished(), 'none'],
    [
      'air at −3 °C after 40 h at 20 °C (1 200 °C·h) that a logger showed',
      finished()
        .logger(t0, { screedC: hourly(41, 20) })
        .air(t0 + 60 * hour, { airC: -3 }),
      'none',
    ],
  ])('FROST-4: %s', (_, story, expected) => {
    expect(outcome('A04', story, t0 + 5 * day)).toBe(expected)
  })
})
