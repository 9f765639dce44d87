import { checkRegularity, checkSoundness, checkThickness, soundnessPoints } from '#model/checks/index.ts'
import type { StoryEntryOf } from '#model/record/entry.ts'
import { entriesOf } from '#model/record/story.ts'
import { keepsLimit, limitText } from '#model/rules/index.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'
import { daysBetween, rounded } from '#model/watch/facts/time.ts'
import type { Condition } from '../verdict.ts'
import { findingText, met, notMet, unknown, waived } from './condition.ts'

const days = (hours: number) => rounded(hours / 24, 1)

/** Finished, and kept damp and warm for long enough. */
export function ageAndCuring(facts: BayFacts): Condition {
  const name = 'Age and curing'
  const { life, curing, rules, cover } = facts
  if (life.t0 === null || curing === null) return notMet(name, 'The bay has not been laid.')
  if (life.t0From !== 'finish') return unknown(name, 'Nobody recorded when the bay was finished.')
  const entries = [
    life.finish!.id,
    ...cover.flatMap(({ on, off }) => [on.id, ...(off === null ? [] : [off.id])]),
  ]
  const age = `${rounded(life.ageDays ?? 0, 1)} days old`
  if (!life.cementBound) return met(name, `${age}; a calcium sulfate screed is left to dry.`, entries)
  const needed = rules.limits['cure.days']
  const counted = `${days(curing.provenHours)} days of curing count (${limitText(needed)})`
  if (curing.state === 'enough') return met(name, `${age}; ${counted}.`, entries)
  if (curing.state === 'not known') {
    return unknown(
      name,
      `${counted}; ${Math.round(curing.unknownHours)} h under the sheet have no temperature, so nobody knows whether they count.`,
      entries,
    )
  }
  const lying = cover.at(-1)?.until === null
  const because = lying ? `Still curing: ${counted}.` : `${age}; only ${counted}.`
  const since = facts.open.at(-1)?.from ?? facts.asOf
  return waived(facts, notMet(name, because, entries), 'curing day 7', since)
}

/** Measured at enough places, nowhere too thin. */
export function thickness(facts: BayFacts): Condition {
  const name = 'Thickness'
  const { story, rules, areaM2 } = facts
  const { body } = story.bay
  const points = facts.thickness
  if (points.length === 0) return unknown(name, 'Nobody measured the thickness.')
  const entries = [...new Set(points.map(({ entry }) => entry))]
  const result = checkThickness({
    screed: body.screed,
    construction: body.construction,
    loading: story.zone.body.loading,
    heated: story.zone.body.heated,
    measuredMm: points.map(({ mm }) => mm),
    pipeCoverMm: body.pipeCoverMm,
    makerLeastMm: body.screed === 'fast drying' ? body.minThicknessMm : undefined,
    rules,
  })
  const least = Math.min(...points.map(({ mm }) => mm))
  const belowOwn = body.minThicknessMm !== undefined && least < body.minThicknessMm
  const lastAt = Math.max(...points.map(({ at }) => at))
  if (result.verdict === 'fail' || belowOwn) {
    const own = belowOwn ? ` The bay’s own least thickness is ${body.minThicknessMm} mm.` : ''
    return waived(facts, notMet(name, `${findingText(result)}.${own}`, entries), 'thickness', lastAt)
  }
  if (result.verdict !== 'pass') return unknown(name, `${findingText(result)}.`, entries)
  const needed = Math.ceil(areaM2 / rules.limits['thickness.areaPerPointM2'].value - 1e-9)
  if (points.length < needed) {
    return unknown(name, `${points.length} of ${needed} points were measured.`, entries)
  }
  return met(name, `${findingText(result)}, at ${points.length} points.`, entries)
}

/** Drop-weight tests since the last that failed: valid, enough points, none too deep. */
export function soundness(facts: BayFacts): Condition {
  const name = 'Soundness'
  const { story, rules, areaM2, life } = facts
  const tests = entriesOf(story, 'soundness-tested').map((entry) => ({ entry, result: judge(facts, entry) }))
  if (tests.length === 0) return unknown(name, 'No drop-weight test was made.')
  const valid = tests.filter(({ result }) => result.verdict === 'pass' || result.verdict === 'fail')
  const entries = tests.map(({ entry }) => entry.id)
  if (life.t0 === null || valid.length === 0) {
    return unknown(name, `No valid drop-weight test: ${findingText(tests.at(-1)!.result)}.`, entries)
  }
  const last = valid.at(-1)!
  if (last.result.verdict === 'fail') return notMet(name, `${findingText(last.result)}.`, [last.entry.id])
  const lastFailed = valid.findLastIndex(({ result }) => result.verdict === 'fail')
  const since = valid.slice(lastFailed + 1)
  const readings = since.flatMap(({ entry }) => entry.body.points.map(({ indentationMm }) => indentationMm))
  const needed = soundnessPoints({ areaM2, rules })
  if (readings.length < needed)
    return unknown(name, `${readings.length} of ${needed} points were tested.`, entries)
  return met(name, `Deepest of ${readings.length}: ${Math.max(...readings)} mm.`, entries)
}

function judge({ story, rules, life }: BayFacts, { body, happenedAt }: StoryEntryOf<'soundness-tested'>) {
  return checkSoundness({
    category: story.zone.body.soundness,
    construction: story.bay.body.construction,
    weightKg: Number(body.weightKg),
    blows: body.blows,
    ageDays: Math.max(0, daysBetween(life.t0 ?? happenedAt, happenedAt)),
    indentationsMm: body.points.map(({ indentationMm }) => indentationMm),
    rules,
  })
}

/** The last check of flatness, made after curling had time to show. */
export function regularity(facts: BayFacts): Condition {
  const name = 'Surface regularity'
  const { story, rules } = facts
  const last = entriesOf(story, 'regularity-checked').at(-1)
  if (last === undefined) return unknown(name, 'Flatness was not checked.')
  const result = checkRegularity({
    class: story.zone.body.regularity,
    gapsMm: last.body.gapsMm.map(({ mm }) => mm),
    straightedgeM: last.body.straightedgeM,
    rules,
  })
  if (result.verdict === 'fail') {
    return waived(facts, notMet(name, `${findingText(result)}.`, [last.id]), 'regularity', last.happenedAt)
  }
  if (result.verdict !== 'pass') return unknown(name, `${findingText(result)}.`, [last.id])
  const dryingDays = rules.limits['regularity.dryingDays']
  const dryingFrom = dryingStart(facts)
  const dried = dryingFrom === null ? null : daysBetween(dryingFrom, last.happenedAt)
  if (dried === null || !keepsLimit(dried, dryingDays)) {
    return unknown(
      name,
      `Checked after ${rounded(Math.max(0, dried ?? 0), 0)} days of drying (${limitText(dryingDays)}): edges may have curled since.`,
      [last.id],
    )
  }
  return met(name, `${findingText(result)}.`, [last.id])
}

/** When the drying clock began: the sheet taken off for good; for calcium sulfate the finish. */
export function dryingStart({ life, open }: BayFacts): number | null {
  if (life.t0 === null) return null
  if (!life.cementBound) return life.t0
  const last = open.at(-1)
  return last !== undefined && last.until === null ? last.from : null
}
