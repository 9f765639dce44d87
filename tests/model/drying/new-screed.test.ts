// No outside values: how a forecast for new screed follows from the bay's own. The model behind it is checked elsewhere.
import { describe, expect, it } from 'vitest'
import { forecastInputOfStory } from '#model/drying/from-story/forecast-input.ts'
import { forecastReady, newScreedDrying } from '#model/drying/index.ts'
import { day, storyOf } from '../../support/story.ts'
import { now, readyBay, t0 } from '../readiness/ready-bay.ts'

describe('NEW: new screed in place of a bay', () => {
  it('NEW-1: it is the forecast of a bay without readings that is laid today and sealed for its usual days', () => {
    const story = readyBay().build()
    const question = { covering: story.zone.body.covering, asOf: now }
    const found = newScreedDrying(story, question)
    const { input } = forecastInputOfStory(story, question)
    const sealedDays = input!.material.constants.sealedDays.value
    const sealedUntil = now + sealedDays * day
    const forecast = forecastReady({ ...input!, readings: [], curing: { laidAt: now, sealedUntil } })
    const days = (date: string | null) => (date === null ? null : Math.ceil((Date.parse(date) - now) / day))
    expect(found).toEqual({ p50Days: days(forecast.p50), p90Days: days(forecast.p90), missing: [] })
    expect(found.p50Days).toBeGreaterThan(sealedDays)
    if (found.p90Days !== null) expect(found.p90Days).toBeGreaterThanOrEqual(found.p50Days!)
    // The bay itself is dry by now; its readings must not make the new one dry.
    expect(Date.parse(forecastReady(input!).p50 ?? new Date(now).toISOString())).toBeLessThanOrEqual(
      now + found.p50Days! * day,
    )
  })

  it('NEW-2: what is missing is an answer', () => {
    const story = storyOf().build()
    const found = newScreedDrying(story, { covering: story.zone.body.covering, asOf: t0 })
    expect(found).toMatchObject({ p50Days: null, p90Days: null })
    expect(found.missing.length).toBeGreaterThan(0)
  })
})
