import type { FaultLine } from '#model/contract/faults.ts'
import { ratesOf } from '#model/faults/rates.ts'
import type { Diagnosis, Movement, RepairExtent, RepairQuestion } from '#model/faults/shapes.ts'
import { areaOf } from '#model/movement/index.ts'
import { readinessOf } from '#model/readiness/index.ts'
import type { StoryEntryOf } from '#model/record/entry.ts'
import { type BayStory, entriesOf } from '#model/record/story.ts'
import type { EffectiveRules } from '#model/rules/index.ts'
import { thicknessPoints } from '#model/watch/facts/thickness.ts'
import type { FaultFacts } from './fault-groups.ts'

interface FaultInHand {
  /** Already cut at `asOf`. */
  story: BayStory
  rules: EffectiveRules
  asOf: number
  fault: FaultLine
  defects: readonly StoryEntryOf<'defect-found'>[]
  facts: FaultFacts
  diagnosis: Diagnosis
  movement: Movement
}

/** What the record of a bay says about one of its faults, as the rules of repair ask for it. What it does not say is null. */
export function repairQuestionOf(hand: FaultInHand): RepairQuestion {
  const { story, rules, asOf, fault, defects, facts, diagnosis, movement } = hand
  const { bay, zone } = story
  const { conditions } = readinessOf(story, zone.body.covering, asOf, rules)
  const stateOf = (wanted: string) => conditions.find(({ name }) => name === wanted)?.state ?? 'unknown'
  const moisture =
    stateOf('Valid moisture test') === 'met' ? dryness[stateOf('Within the moisture limit')] : 'not known'
  const named = facts.named.at(-1)?.body
  return {
    symptoms: fault.symptoms,
    causes: diagnosis.causes,
    recordStrengthPercent: diagnosis.recordStrengthPercent,
    causeNamed: named?.cause ?? null,
    causeRemoved: yesNo(named?.causeRemoved),
    extent: extentOf(hand),
    movement: movement.verdict,
    whereJointBelongs: fault.symptoms.includes('S07') ? true : null,
    structuralSigns:
      defects.find(({ body }) => body.structuralSigns !== undefined)?.body.structuralSigns ?? null,
    construction: bay.body.construction,
    screed: bay.body.screed,
    thicknessMm: meanThickness(story) ?? bay.body.designThicknessMm,
    minThicknessMm: bay.body.minThicknessMm ?? null,
    heated: zone.body.heated,
    covering: zone.body.covering,
    soundnessCategory: zone.body.soundness,
    soundness: passes[stateOf('Soundness')],
    moisture,
    dryingEnded: moisture === 'dry' ? true : null,
    rates: ratesOf(story),
  }
}

const passes = { met: 'pass', 'not met': 'fail', unknown: 'not known' } as const
/** Dry enough for the covering counts as dry for a resin; its data sheet decides. */
const dryness = { met: 'dry', 'not met': 'wet', unknown: 'not known' } as const

/** The size of the fault: the last measure of each number counts, then what was said when it was found. */
function extentOf({ story, fault, defects, facts }: FaultInHand): RepairExtent {
  const found = defects.map(({ body }) => body)
  const measures = facts.measured.map(({ body }) => body)
  type Measured = (typeof measures)[number]
  const last = <K extends keyof Measured>(name: K): Measured[K] | null =>
    measures.findLast((one) => one[name] !== undefined)?.[name] ?? null
  const seen = <K extends 'stepMm' | 'weakToMm' | 'hollowM2' | 'rocks'>(name: K) =>
    last(name) ?? found.find((one) => one[name] !== undefined)?.[name] ?? null
  return {
    bayAreaM2: areaOf(story.bay.body.outline),
    areaM2: fault.areaM2,
    lengthM: fault.lengthM,
    widthMm: fault.widthMm,
    weakToMm: seen('weakToMm') as number | null,
    stepMm: seen('stepMm') as number | null,
    hollowM2: seen('hollowM2') as number | null,
    rocks: seen('rocks') as boolean | null,
    boundaryProven: last('boundaryProven') ?? null,
    pullOffMPa: last('pullOffMPa') ?? null,
    patches: 1 + entriesOf(story, 'repair-done').filter(({ body }) => body.option === 'patch').length,
  }
}

function meanThickness(story: BayStory): number | null {
  const points = thicknessPoints(story)
  return points.length === 0 ? null : points.reduce((sum, { mm }) => sum + mm, 0) / points.length
}

function yesNo(word: 'yes' | 'no' | 'not known' | undefined): boolean | null {
  if (word === 'yes') return true
  return word === 'no' ? false : null
}
