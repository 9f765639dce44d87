import { whyMoistureLimit } from '#model/checks/index.ts'
import { InputError } from '#model/errors.ts'
import { type BayStory, storyAsOf } from '#model/record/story.ts'
import type { Covering } from '#model/record/words.ts'
import { type EffectiveRules, limitText } from '#model/rules/index.ts'
import { alertsOf } from '#model/watch/alerts.ts'
import { type BayFacts, factsOf } from '#model/watch/facts/index.ts'
import { rounded } from '#model/watch/facts/time.ts'
import type { Why } from '#model/why.ts'
import { ageAndCuring, regularity, soundness, thickness } from './conditions/body.ts'
import { unknown } from './conditions/condition.ts'
import { heatingOff, heatingRun } from './conditions/heating.ts'
import { governingTest, type MoistureAnswer, moisture } from './conditions/moisture.ts'
import { noOpenDefect, noOpenNonconformance, noOpenStop, surfaceClimate } from './conditions/now.ts'
import type { Condition, Readiness } from './verdict.ts'
import { verdictOf } from './verdict-of.ts'

/**
 * Returns whether a bay may be covered with a covering now, condition by condition with the reasons.
 *
 * READY only when every condition is met; NOT READY when one is not met; NOT PROVEN when none is failed and one is unknown.
 * The wettest valid reading by the agreed method governs. A forecast never enters: only a valid test releases a bay.
 *
 * @param covering the covering to be laid, which decides the moisture limit and the climate.
 * @param asOf epoch milliseconds; the story is cut there, so a replay knows nothing of what came after.
 * @param rules the limits in force.
 * @param knownAt forget what had not been recorded by then.
 * @source each limit names its own (BS 8203, BS 8204-1, EN 1264-4, ASTM F2170 …) and how well it is known.
 */
export function readinessOf(
  story: BayStory,
  covering: Covering,
  asOf: number,
  rules: EffectiveRules,
  knownAt?: number,
): Readiness {
  return readinessFrom(factsOf(storyAsOf(story, asOf, knownAt), asOf, rules), covering)
}

/** The verdict from facts that were already read. */
export function readinessFrom(facts: BayFacts, covering: Covering): Readiness {
  const alerts = alertsOf(facts)
  const tested = moisture(facts, covering)
  const conditions = [
    ageAndCuring(facts),
    judged('Thickness', () => thickness(facts)),
    judged('Soundness', () => soundness(facts)),
    judged('Surface regularity', () => regularity(facts)),
    judged('Heating run up and down', () => heatingRun(facts)),
    heatingOff(facts),
    ...tested.conditions,
    judged('Surface climate now', () => surfaceClimate(facts, covering)),
    noOpenStop(alerts),
    noOpenNonconformance(facts, alerts),
    noOpenDefect(facts),
  ].filter((condition) => condition !== null)
  return {
    verdict: verdictOf(conditions),
    covering,
    asOf: facts.asOf,
    governing:
      tested.limit === null
        ? null
        : {
            test: tested.governing === null ? null : governingTest(tested.governing, facts.asOf),
            limit: tested.limit,
          },
    conditions,
    why: reasons(facts, covering, tested),
  }
}

/** A fact that no check can use leaves its condition unknown, and says which fact. */
function judged(name: string, judge: () => Condition | null): Condition | null {
  try {
    return judge()
  } catch (cause) {
    if (cause instanceof InputError) return unknown(name, `It could not be judged: ${cause.message}`)
    throw cause
  }
}

function reasons(facts: BayFacts, covering: Covering, { governing, limit }: MoistureAnswer): Why[] {
  const { story, rules, curing } = facts
  const why: Why[] = [
    whyMoistureLimit({
      covering,
      method: story.zone.body.moistureMethod,
      screed: story.bay.body.screed,
      heated: story.zone.body.heated,
      ruleSet: rules,
    }),
  ]
  if (limit !== null) {
    why.push({
      what: 'Governing reading',
      value: governing === null ? null : rounded(governing.acceptance.value ?? Number.NaN, 2),
      unit: limit.unit,
      inputs: (governing?.acceptance.findings ?? []).map(({ what, value, limit: asked }) => ({
        name: asked === null ? what : `${what} (${limitText(asked)})`,
        value: typeof value === 'number' ? rounded(value, 2) : value,
        unit: asked?.unit ?? '',
      })),
      formula: `the wettest valid reading by the agreed test, compared with ${limitText(limit)}`,
      source: limit.source,
      provenance: limit.provenance,
    })
  }
  if (curing !== null) {
    const needed = rules.limits['cure.days']
    why.push({
      what: 'Days of curing that count',
      value: rounded(curing.provenHours / 24, 2),
      unit: 'days',
      inputs: [
        { name: 'Under a whole sheet', value: rounded(curing.coveredHours, 1), unit: 'h' },
        { name: 'Too cold to count', value: rounded(curing.coldHours, 1), unit: 'h' },
        { name: 'Temperature nobody read', value: rounded(curing.unknownHours, 1), unit: 'h' },
      ],
      formula: `hours under the sheet less cold and unknown hours, compared with ${limitText(needed)}`,
      source: needed.source,
      provenance: needed.provenance,
    })
  }
  return why
}
