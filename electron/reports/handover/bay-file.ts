import { bayStory, canonicalJson, type ReadHandle, sha256Hex } from '#db/index.ts'
import type { BayState } from '#model/contract/shapes.ts'
import type { ReadyForecast } from '#model/drying/forecast-shape.ts'
import { type HoldLink, holdChainFrom } from '#model/hold/index.ts'
import { readinessOf } from '#model/readiness/index.ts'
import type { Readiness } from '#model/readiness/verdict.ts'
import type { BayId } from '#model/record/ids.ts'
import { type BayStory, storyAsOf } from '#model/record/story.ts'
import type { Covering } from '#model/record/words.ts'
import { type EffectiveRules, rulesOfProject } from '#model/rules/index.ts'
import { type BayFacts, factsOf } from '#model/watch/facts/index.ts'
import { type JudgedTest, judgedTests } from '#model/watch/facts/moisture.ts'
import { type Alert, bayStateOf, watchBay } from '#model/watch/index.ts'
import { bayName } from './names.ts'

/** Everything that a file says of one bay, as the record stood at an instant. */
export interface BayFile {
  id: BayId
  name: string
  place: string
  covering: Covering
  story: BayStory
  rules: EffectiveRules
  facts: BayFacts
  alerts: Alert[]
  state: BayState
  readiness: Readiness
  chain: HoldLink[]
  tests: JudgedTest[]
  /** Null where nobody asked for an estimate. */
  forecast: ReadyForecast | null
  /** SHA-256 of the bay's story file as of the same instant; see `storyText`. */
  hash: string
}

export interface BayQuestion {
  bay: BayId
  /** The covering of the contract when left out. */
  covering?: Covering | undefined
  asOf: number
  forecast: ReadyForecast | null
}

/** Reads one bay and works out everything about it. @throws UnknownId when there is no such bay */
export function readBayFile(read: ReadHandle, { bay, covering, asOf, forecast }: BayQuestion): BayFile {
  const story = storyAsOf(bayStory(read, bay), asOf)
  const rules = rulesOfProject(story.project.body)
  const facts = factsOf(story, asOf, rules)
  const laid = covering ?? story.zone.body.covering
  const alerts = watchBay(story, asOf, rules)
  const readiness = readinessOf(story, laid, asOf, rules)
  return {
    id: bay,
    name: bayName(story.bay.body.name),
    place: `${story.floor.body.name}, ${story.zone.body.name}`,
    covering: laid,
    story,
    rules,
    facts,
    alerts,
    state: bayStateOf(story, alerts, readiness, asOf),
    readiness,
    chain: holdChainFrom(facts),
    tests: judgedTests(facts, laid),
    forecast,
    hash: sha256Hex(storyText(story, asOf)),
  }
}

/**
 * Returns the story of a bay as a file: canonical JSON, so that the same facts give the same bytes and its SHA-256 can be
 * compared with the one printed on a page.
 * @source RFC 8785, by `canonicalJson`
 */
export function storyText(story: BayStory, asOf: number): string {
  return canonicalJson({ format: 'bay-story', formatVersion: 1, asOf: new Date(asOf).toISOString(), story })
}
