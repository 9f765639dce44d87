import { moistureLimit, moistureUnit } from '../../checks/index.ts'
import type { BayStory } from '../../record/story.ts'
import type { Covering } from '../../record/words.ts'
import { type EffectiveRules, type Limit, rulesOfProject } from '../../rules/index.ts'

/**
 * Returns the moisture limit that a bay has to keep for a covering, on the scale of the agreed test: that of the
 * contract for the covering of the contract, else that of the rules; null when neither has one.
 */
export function limitOfStory(
  story: BayStory,
  covering: Covering,
  rules: EffectiveRules = rulesOfProject(story.project.body),
): Limit | null {
  const { limitByContract, limitReason, moistureMethod, heated } = story.zone.body
  if (limitByContract !== undefined && covering === story.zone.body.covering) {
    return {
      value: limitByContract,
      unit: moistureUnit(moistureMethod),
      operator: '<=',
      source: limitReason ?? 'Contract',
      provenance: 'company rule',
    }
  }
  const { screed } = story.bay.body
  return moistureLimit({ covering, method: moistureMethod, screed, heated, ruleSet: rules })
}
