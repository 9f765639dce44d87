import { bayRules, recordRules } from './bays.ts'
import { cureRules, evaporationRules, frostRules, trafficRules } from './early-age.ts'
import { climateRules, dryingRules, heatRules } from './heat-and-dry.ts'
import { mixRules } from './mix.ts'
import { moistureTestRules, regularityRules, soundnessRules } from './tests.ts'
import { thicknessRules } from './thickness.ts'

/** Every question with the answer that stands unless a rule set, a choice or a project says otherwise. */
export const commonRules = {
  ...thicknessRules,
  ...mixRules,
  ...frostRules,
  ...evaporationRules,
  ...cureRules,
  ...trafficRules,
  ...heatRules,
  ...dryingRules,
  ...climateRules,
  ...moistureTestRules,
  ...soundnessRules,
  ...regularityRules,
  ...bayRules,
  ...recordRules,
}

export type RuleId = keyof typeof commonRules
export const ruleIds = Object.keys(commonRules) as RuleId[]
