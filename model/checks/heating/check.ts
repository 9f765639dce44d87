import { dayMs, hourMs } from '#model/time.ts'
import { InputError, requireInstant, requireNumber, requireOrdered } from '../../errors.ts'
import { type EffectiveRules, rulesIn } from '../../rules/effective.ts'
import type { CheckResult, Finding } from '../../rules/limit.ts'
import type { Screed } from '../../rules/words.ts'
import { breaks, type CautionedResult } from '../judge.ts'
import { type FollowedStep, followLevels, type Stretch } from './follow.ts'
import { levelsOf } from './levels.ts'
import { type HeatingPlan, type HeatingPlanId, heatingPlans, planLimit } from './plans.ts'

/** One line of the heating log. The flow stands until the next line. */
export interface HeatingReading {
  at: string | number
  /** Flow temperature, 0 to 90; null while the heating is off [°C]. */
  flowC: number | null
}

export interface HeatingProgramme {
  plan: HeatingPlanId
  screed: Screed
  /** When the bay was finished; without it the age at first heat is not known. */
  laidAt: string | number | null
  /** 10 to 300 [mm]. */
  thicknessMm: number
  /** Highest flow temperature that the heating is designed for, 25 to 60; the rule's highest when left out [°C]. */
  designMaxC?: number
  /** British with every choice at its default, unless given. */
  rules?: EffectiveRules
}

export interface HeatingAnswer extends CautionedResult {
  steps: FollowedStep[]
  /** First flow above what keeps frost out. Epoch milliseconds. */
  firstHeatAt: number | null
}

/**
 * Compares a heating log with a commissioning plan, step by step.
 *
 * The flow stands from one line to the next; a longer time between lines than the rule allows is unknown. A step is kept when
 * the log shows its hours (less a small slack) at its temperature (within a small tolerance), in order. Flow up to the
 * frost-keeping temperature does not count as heat.
 *
 * @returns the steps with their hours; `fail` when a step is short or missing, heat came too early, or a limit is broken;
 * `not known` when a gap hides a step or the laying day is missing.
 * @throws InputError when the plan is not for this screed, a value is out of range, or times step back.
 * @source the plan, EN 1264-4 and the heating rules in force.
 * @provenance as each limit says
 */
export function checkHeating(log: readonly HeatingReading[], programme: HeatingProgramme): HeatingAnswer {
  const rules = programme.rules ?? rulesIn('british')
  const plan = planFor(programme)
  const thicknessMm = requireNumber('thicknessMm', programme.thicknessMm, 10, 300, 'mm')
  const highest = rules.limits['heat.maxC']
  const designMaxC = requireNumber('designMaxC', programme.designMaxC ?? highest.value, 25, 65, '°C')
  const stretches = stretchesOf(log, rules.limits['heat.logGapHours'].value)
  const steps = followLevels(levelsOf(plan, designMaxC, thicknessMm), stretches, {
    toleranceK: rules.limits['heat.stepToleranceK'].value,
    slackHours: rules.limits['heat.stepSlackHours'].value,
  })
  const firstHeatAt = firstHeat(stretches, rules)
  const findings = findingsOf(plan, programme, stretches, steps, firstHeatAt, rules)
  return {
    verdict: verdictOf(findings, steps, log),
    findings,
    cautions: cautionsOf(plan, stretches, rules),
    steps,
    firstHeatAt,
  }
}

function planFor({ plan: id, screed }: HeatingProgramme): HeatingPlan {
  if (!Object.hasOwn(heatingPlans, id)) {
    throw new InputError(
      'plan',
      `There is no heating plan “${String(id)}”; choose ${Object.keys(heatingPlans).join(', ')}.`,
    )
  }
  const plan: HeatingPlan = heatingPlans[id]
  if (!plan.screeds.includes(screed)) {
    throw new InputError(
      'plan',
      `Plan ${id} is not for ${screed} screed; it is for ${plan.screeds.join(' and ')}. Choose another, or the maker’s.`,
    )
  }
  return plan
}

function stretchesOf(log: readonly HeatingReading[], gapHours: number): Stretch[] {
  const at = log.map((line, i) => requireInstant(`log[${i}].at`, line.at))
  requireOrdered('log', at)
  for (const [i, { flowC }] of log.entries())
    if (flowC !== null) requireNumber(`log[${i}].flowC`, flowC, 0, 90, '°C')
  return log.map(({ flowC }, i) => {
    const from = at[i]!
    const until = at[i + 1] ?? from
    return { from, until, flowC, known: until - from <= gapHours * hourMs }
  })
}

function firstHeat(stretches: readonly Stretch[], { limits }: EffectiveRules): number | null {
  return (
    stretches.find(({ flowC }) => flowC !== null && flowC > limits['heat.keepWarmMostC'].value)?.from ?? null
  )
}

function findingsOf(
  plan: HeatingPlan,
  { screed, laidAt }: HeatingProgramme,
  stretches: readonly Stretch[],
  steps: readonly FollowedStep[],
  firstHeatAt: number | null,
  { limits }: EffectiveRules,
): Finding[] {
  const firstDays =
    limits[screed === 'calcium sulfate' ? 'heat.firstCalciumSulfateDays' : 'heat.firstCementDays']
  const ageDays =
    laidAt === null || firstHeatAt === null ? null : (firstHeatAt - requireInstant('laidAt', laidAt)) / dayMs
  const flows = stretches.flatMap(({ flowC }) => (flowC === null ? [] : [flowC]))
  const { riseK, fallK } = steepest(stretches)
  const gapHours = Math.max(0, ...stretches.map(({ from, until }) => (until - from) / hourMs))
  const findings: Finding[] = [
    { what: 'Age at first heat', value: ageDays, limit: firstDays },
    {
      what: 'Highest flow',
      value: flows.length === 0 ? null : Math.max(...flows),
      limit: limits['heat.maxC'],
    },
    {
      what: 'Longest gap in the log',
      value: stretches.length === 0 ? null : gapHours,
      limit: limits['heat.logGapHours'],
    },
  ]
  if (plan.riseK !== null)
    findings.push({ what: 'Largest rise', value: riseK, limit: planLimit(plan, plan.riseK, 'K/day', '<=') })
  if (plan.fallK !== null)
    findings.push({ what: 'Largest fall', value: fallK, limit: planLimit(plan, plan.fallK, 'K/day', '<=') })
  if (plan.leastTotalDays !== null) {
    const total = stretches.length === 0 ? null : (stretches.at(-1)!.until - stretches[0]!.from) / dayMs
    findings.push({
      what: 'Days in all',
      value: total,
      limit: planLimit(plan, plan.leastTotalDays, 'days', '>='),
    })
  }
  for (const { step, heldHours, neededHours, state } of steps) {
    findings.push({
      what: `Hours at ${step}`,
      value: state === 'not known' ? null : heldHours,
      limit: planLimit(plan, neededHours, 'h', '>='),
    })
  }
  return findings
}

function verdictOf(
  findings: readonly Finding[],
  steps: readonly FollowedStep[],
  log: readonly HeatingReading[],
): CheckResult['verdict'] {
  if (log.length === 0) return 'not known'
  const judged = findings.filter(
    ({ what }) => !what.startsWith('Hours at') && what !== 'Longest gap in the log',
  )
  if (judged.some(breaks) || steps.some(({ state }) => state === 'short' || state === 'missing'))
    return 'fail'
  const unknown =
    judged.some(({ value }) => value === null) || steps.some(({ state }) => state === 'not known')
  return unknown ? 'not known' : 'pass'
}

function cautionsOf(plan: HeatingPlan, stretches: readonly Stretch[], { limits }: EffectiveRules): Finding[] {
  const { riseK, fallK } = steepest(stretches)
  const cautions: Finding[] = []
  if (plan.riseK === null)
    cautions.push({ what: 'Largest rise', value: riseK, limit: limits['heat.riseWatchK'] })
  if (plan.fallK === null)
    cautions.push({ what: 'Largest fall', value: fallK, limit: limits['heat.fallWatchK'] })
  return cautions.filter(breaks)
}

/** The largest rise and fall of the flow within a day, readings up to two hours late counting as the same day. */
function steepest(stretches: readonly Stretch[]): { riseK: number; fallK: number } {
  const flowing = stretches.flatMap(({ from, flowC }) => (flowC === null ? [] : [{ from, flowC }]))
  let riseK = 0
  let fallK = 0
  for (const [i, later] of flowing.entries()) {
    for (let j = i - 1; j >= 0; j--) {
      const days = (later.from - flowing[j]!.from) / dayMs
      if (days > 26 / 24 && j < i - 1) break
      const change = (later.flowC - flowing[j]!.flowC) / Math.max(1, days)
      riseK = Math.max(riseK, change)
      fallK = Math.max(fallK, -change)
    }
  }
  return { riseK, fallK }
}
