import type { BodyOf } from '#model/record/kinds.ts'
import { checkUnits } from '#model/record/people.ts'
import { type Covering, moistureMethods } from '#model/record/words.ts'
import { keepsLimit, limitText } from '#model/rules/index.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'
import { limitFor } from '#model/watch/facts/moisture.ts'

type OwnCheck = NonNullable<BodyOf<'bay-decided'>['ownChecks']>[number]

/**
 * Returns why the check readings of whoever accepts a bay speak against accepting it, as a sentence that says what to do;
 * null when none does. Each is compared with the limit for its own method. A check proves nothing by itself and makes no
 * bay READY; but who has read it too wet themselves cannot sign that it may be covered. A method without a limit under
 * these rules, such as a meter on its own scale, is not judged.
 * @provenance our judgement
 */
export function ownCheckProblem(
  facts: BayFacts,
  covering: Covering,
  checks: readonly OwnCheck[],
): string | null {
  const tooWet = checks.flatMap(({ value, unit, method, place }) => {
    const limit = limitFor(facts, covering, method)
    if (limit === null || limit.unit !== checkUnits[unit] || keepsLimit(value, limit)) return []
    return [
      `${value} ${limit.unit} at ${place} by ${moistureMethods[method].toLowerCase()} (${limitText(limit)})`,
    ]
  })
  if (tooWet.length === 0) return null
  return `Your own check is too wet: ${tooWet.join('; ')}. Who has read it too wet does not accept the bay. Record that it is not accepted, and have it tested again.`
}
