import type { MoistureMethod } from '#model/record/words.ts'
import { limitText, type Verdict } from '#model/rules/index.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'
import { judgedTests } from '#model/watch/facts/moisture.ts'
import { rounded } from '#model/watch/facts/time.ts'

/** A moisture test with the judgement on it: a valid test, or just a number. */
export interface TestLine {
  entry: string
  method: MoistureMethod
  point: string
  at: number
  person: string
  verdict: Verdict
  /** It was carried out as its method demands, and nothing in the record speaks against it. */
  valid: boolean
  value: number | null
  unit: string
  limit: string | null
  reasons: string[]
}

/** Returns the moisture tests of a bay, judged for the covering of its zone, the newest first. */
export function testLinesOf(facts: BayFacts): TestLine[] {
  return judgedTests(facts, facts.story.zone.body.covering)
    .map(({ entry, at, limit, acceptance, contradictions, valid }) => ({
      entry: entry.id as string,
      method: entry.body.method,
      point: entry.body.point,
      at,
      person: entry.person as string,
      verdict: contradictions.length > 0 ? ('invalid' as const) : acceptance.verdict,
      valid,
      value: acceptance.value === null ? null : rounded(acceptance.value, 2),
      unit: acceptance.unit,
      limit: limit === null ? null : limitText(limit),
      reasons: [...contradictions, ...acceptance.reasons],
    }))
    .sort((a, b) => b.at - a.at)
}
