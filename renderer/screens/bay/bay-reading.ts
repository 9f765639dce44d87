import { moistureUnit } from '#model/checks/index.ts'
import type { BayLife } from '#model/contract/index.ts'
import type { ReadyForecast } from '#model/drying/forecast-shape.ts'
import { storyAsOf } from '#model/record/story.ts'
import { type EffectiveRules, rulesOfProject } from '#model/rules/index.ts'
import type { Limit } from '#model/rules/limit.ts'
import type { Alert } from '#model/watch/alert.ts'
import { type BayFacts, factsOf } from '#model/watch/facts/index.ts'
import { type JudgedTest, judgedTests, limitFor } from '#model/watch/facts/moisture.ts'
import { bayWords } from '../../app/words/bay.ts'
import { isHumidity, type MoistureScale } from './life-axis/drying-strip.tsx'
import { type Lane, lanesOf } from './life-axis/lanes.ts'
import { type BayReadings, readingsOf } from './life-axis/readings.ts'

/** A bay's story, read once for everything the screen shows. */
export interface BayReading {
  facts: BayFacts
  rules: EffectiveRules
  alerts: readonly Alert[]
  lanes: Lane[]
  readings: BayReadings
  tests: JudgedTest[]
  /** The limit of the agreed test for the planned covering. */
  limit: Limit | null
  scales: MoistureScale[]
  forecast: ReadyForecast | null
}

export function readBay({ story, alerts }: BayLife, asOf: number): Omit<BayReading, 'forecast' | 'scales'> {
  const rules = rulesOfProject(story.project.body)
  const facts = factsOf(storyAsOf(story, asOf), asOf, rules)
  const { covering, moistureMethod } = story.zone.body
  return {
    facts,
    rules,
    alerts,
    lanes: lanesOf(facts, bayWords.axis),
    readings: readingsOf(facts),
    tests: judgedTests(facts, covering),
    limit: limitFor(facts, covering, moistureMethod),
  }
}

/** One drying axis a unit: that of humidity always stands there once the bay is laid, because the estimate is drawn on it. */
export function scalesOf(
  { facts, tests }: Pick<BayReading, 'facts' | 'tests'>,
  forecast: ReadyForecast | null,
): MoistureScale[] {
  const { covering, moistureMethod } = facts.story.zone.body
  const shown = tests.filter(({ acceptance }) => acceptance.value !== null)
  const agreed = moistureUnit(moistureMethod)
  const units = new Set([
    ...shown.map(({ acceptance }) => acceptance.unit),
    agreed,
    forecast === null ? '' : '% RH',
  ])
  return [...units]
    .filter((unit) => unit !== '')
    .map((unit) => {
      const same = shown.filter(({ acceptance }) => acceptance.unit === unit)
      const limit =
        unit === agreed
          ? limitFor(facts, covering, moistureMethod)
          : (same.findLast((test) => test.limit !== null)?.limit ?? null)
      const fromForecast =
        isHumidity(unit) && isHumidity(forecast?.limit?.unit ?? '') ? forecast?.limit : null
      return { unit, tests: same, limit: limit ?? fromForecast ?? null }
    })
    .toSorted((a, b) => Number(isHumidity(b.unit)) - Number(isHumidity(a.unit)))
}
