import { hourMs } from '#model/time.ts'
import { acceptMoisture, moistureLimit, type TestContext } from '../../checks/index.ts'
import { areaOf } from '../../movement/index.ts'
import type { StoryEntryOf } from '../../record/entry.ts'
import { type BayStory, entriesOf } from '../../record/story.ts'
import type { EffectiveRules } from '../../rules/index.ts'
import { treatedAt } from '../../watch/facts/treated.ts'
import type { MoistureReading } from '../forecast/readings.ts'

type Test = StoryEntryOf<'moisture-read'>

export interface TakenReadings {
  readings: MoistureReading[]
  /** Tests that were left out or lack something, as sentences. */
  notes: string[]
}

/**
 * Returns the moisture tests that a forecast can learn from. A test that was not carried out as its method demands is
 * left out; one that only lacks a fact is used, because a forecast plans and never releases. Both are told.
 */
export function readingsOf(
  story: BayStory,
  rules: EffectiveRules,
  thicknessMm: number,
  asOf: number,
): TakenReadings {
  const taken: TakenReadings = { readings: [], notes: [] }
  for (const test of entriesOf(story, 'moisture-read')) {
    if (test.happenedAt > asOf) continue
    const reading = readingOf(test, thicknessMm)
    if (reading === null) continue
    const name = `The test at ${test.body.point} of ${new Date(test.happenedAt).toISOString().slice(0, 10)}`
    const { verdict, reasons } = judge(story, test, rules, thicknessMm)
    if (verdict === 'invalid') {
      taken.notes.push(`${name} was not valid and is not used: ${reasons.join(' ')}`)
      continue
    }
    if (verdict === 'not known')
      taken.notes.push(`${name} is used although ${reasons.map(lowerFirst).join(' ')}`)
    taken.readings.push(reading)
  }
  return taken
}

function judge(story: BayStory, test: Test, rules: EffectiveRules, thicknessMm: number) {
  const { screed, construction, outline } = story.bay.body
  const { heated, covering } = story.zone.body
  const { method } = test.body
  const limit = moistureLimit({ covering, method, screed, heated, ruleSet: rules })
  const context: TestContext = {
    rules,
    screed,
    construction,
    heated,
    thicknessMm,
    finish: entriesOf(story, 'bay-finished').at(-1)?.body.finish ?? null,
    instrument: instrumentOn(story, test),
    outlineM: outline,
    surfaceSealed:
      entriesOf(story, 'sheet-on').some(({ body }) => body.material === 'compound') ||
      treatedAt(story, test.body, test.happenedAt, areaOf(outline)),
  }
  const accepted = acceptMoisture({ ...test.body, at: test.happenedAt }, limit, context)
  // Without a limit on this scale the rest is known: the value still says how the bay dries.
  const onlyLimitMissing = accepted.verdict === 'not known' && limit === null && accepted.reasons.length === 1
  return onlyLimitMissing ? { verdict: 'pass' as const, reasons: [] } : accepted
}

/** The instrument's certificate and its last check as known on the day of the test. */
function instrumentOn(story: BayStory, test: Test): TestContext['instrument'] {
  const id = test.body.instrument
  if (id === undefined) return null
  const added = entriesOf(story, 'instrument-added').find(({ subject }) => subject === id)
  const checks = entriesOf(story, 'instrument-checked').filter(
    ({ subject, happenedAt }) => subject === id && happenedAt <= test.happenedAt,
  )
  const lastCheck = checks.at(-1)
  const renewed = checks.findLast(({ body }) => body.dueOn !== undefined)
  return {
    certificateDueOn: renewed?.body.dueOn ?? added?.body.dueOn ?? null,
    lastCheck:
      lastCheck === undefined
        ? null
        : {
            at: lastCheck.happenedAt,
            passed: lastCheck.body.passed,
            foundPercent: lastCheck.body.foundPercent ?? null,
          },
  }
}

/** Returns what a test saw of the layer; null for a method that does not measure the moisture in it. */
function readingOf({ id, happenedAt, body }: Test, thicknessMm: number): MoistureReading | null {
  const last = body.readings?.at(-1)
  switch (body.method) {
    case 'probe': {
      if (last === undefined) return null
      const depthMm = body.holeDepthMm
      const inLayer = depthMm !== undefined && depthMm >= 1 && depthMm <= thicknessMm
      return { id, at: last.at, method: 'probe', value: last.rhPercent, ...(inLayer && { depthMm }) }
    }
    case 'hygrometer box': {
      if (last === undefined) return null
      const hours = body.setAt === undefined ? 0 : (Date.parse(last.at) - Date.parse(body.setAt)) / hourMs
      const known = hours >= 1 && hours <= 2000
      return {
        id,
        at: last.at,
        method: body.method,
        value: last.rhPercent,
        ...(known && { boxHours: hours }),
      }
    }
    case 'carbide':
      if (body.cmPercent === undefined) return null
      return { id, at: happenedAt, method: 'carbide', value: body.cmPercent, ...depths(body, thicknessMm) }
    case 'oven dry': {
      const { wetG, dryG, tareG } = body
      if (wetG === undefined || dryG === undefined || tareG === undefined || !(dryG > tareG)) return null
      const value = (100 * (wetG - dryG)) / (dryG - tareG)
      return value > 30
        ? null
        : { id, at: happenedAt, method: 'oven dry', value, ...depths(body, thicknessMm) }
    }
    case 'crushed sample':
    case 'calcium chloride':
    case 'electrical survey':
      return null
  }
}

function depths({ depthFromMm, depthToMm }: Test['body'], thicknessMm: number) {
  if (depthFromMm === undefined || depthToMm === undefined) return {}
  const toMm = Math.min(depthToMm, thicknessMm)
  return toMm >= depthFromMm + 1 ? { fromMm: depthFromMm, toMm } : {}
}

function lowerFirst(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1)
}
