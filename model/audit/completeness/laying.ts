import { thickness } from '#model/readiness/conditions/body.ts'
import { entriesOf } from '#model/record/story.ts'
import { keepsLimit, limitText } from '#model/rules/index.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'
import { massOfBay, massText } from '../mass.ts'
import { pourMapOf } from '../pour-map.ts'
import {
  beforeLaying,
  counted,
  type Finding,
  judgement,
  met,
  notKnown,
  notMet,
  type Requirement,
} from './requirement.ts'

/** C2: measured at enough places, nowhere too thin. */
export const thicknessMeasured: Requirement = {
  id: 'C2',
  title: 'Thickness',
  asks: 'The thickness was measured at enough points, and no point is too thin.',
  whatToDo:
    'Write down the points that were prodded. Where it is too thin, raise a non-conformance for the designer to answer.',
  record: 'thickness-measured',
  mayBeAnswered: true,
  source: 'Thickness rules in force; one point for each 10 m²',
  provenance: 'our judgement',
  find: ({ facts }) => {
    const waiting = beforeLaying(facts)
    if (waiting !== null) return waiting
    const needed = Math.ceil(facts.areaM2 / facts.rules.limits['thickness.areaPerPointM2'].value - 1e-9)
    const { length } = facts.thickness
    if (length < needed) {
      const entries = facts.thickness.map(({ entry }) => entry)
      return notMet(`${length} of ${needed} points were measured on ${facts.areaM2.toFixed(1)} m².`, entries)
    }
    const { state, because, entries } = thickness(facts)
    return { met, 'not met': notMet, unknown: notKnown }[state](because, entries)
  },
}

const wholeMapPercent = 98

/** C3: which batch lies where, and whether what was mixed fills the bay. */
export const batchesCover: Requirement = {
  id: 'C3',
  title: 'Batches',
  asks: 'The batches cover the whole bay on the plan, and their mass agrees with its volume.',
  whatToDo: 'Draw the missing batches on the plan, or write down the loads that are missing.',
  record: 'batch-mixed',
  mayBeAnswered: true,
  ...judgement,
  find: ({ facts }) => beforeLaying(facts) ?? mapFinding(facts),
}

function mapFinding(facts: BayFacts): Finding {
  const mass = massOfBay(facts)
  const limit = facts.rules.limits['mix.massDifferencePercent']
  if ('missing' in mass) {
    return facts.batches.length + facts.loads.length === 0 ? notMet(mass.missing) : notKnown(mass.missing)
  }
  const weighed = `${massText(mass)} (${limitText(limit)}).`
  if (!keepsLimit(Math.abs(mass.differencePercent), limit)) return notMet(weighed, mass.entries)
  // A load of ready-mixed screed is one pour; only batches of the site have to say where they lie.
  if (facts.batches.length === 0) return met(`Laid from ready-mixed loads. ${weighed}`, mass.entries)
  const map = pourMapOf(facts)
  const covered = `The ${map.drawn} drawn batches cover ${map.coveredPercent.toFixed(0)} % of the bay.`
  if (map.coveredPercent >= wholeMapPercent) return met(`${covered} ${weighed}`, mass.entries)
  const nowhere = map.nowhere.map(({ id }) => id as string)
  if (nowhere.length > 0) {
    return notMet(
      `${counted(nowhere.length, 'batch', 'batches')} of ${facts.batches.length} do not say where they lie. ${covered}`,
      nowhere,
    )
  }
  return map.inWords > 0
    ? notKnown(
        `${counted(map.inWords, 'batch', 'batches')} say only in words where they lie. ${covered}`,
        mass.entries,
      )
    : notMet(`${covered} ${weighed}`, mass.entries)
}

/** C4: what each batch was made of, and when it was laid. */
export const batchesDescribed: Requirement = {
  id: 'C4',
  title: 'Mix',
  asks: 'Every batch has its masses, water and the time it was laid; most have the moisture of the sand.',
  whatToDo: 'Complete the batches from the mixing sheet; a value that nobody measured stays unknown.',
  record: null,
  mayBeAnswered: true,
  ...judgement,
  find: ({ facts }) => beforeLaying(facts) ?? mixFinding(facts),
}

function mixFinding({ story, batches, rules }: BayFacts): Finding {
  const loads = entriesOf(story, 'material-delivered').filter(
    ({ body }) => body.material === 'ready-mixed screed',
  )
  if (batches.length + loads.length === 0)
    return notKnown('No batch and no load is recorded, so nobody can say what was laid.')
  const undated = loads.filter(({ body }) => body.batchedAt === undefined)
  const unlaid = batches.filter(({ entry }) => entry.body.laidAt === undefined)
  const missing = [...undated.map(({ id }) => id as string), ...unlaid.map(({ entry }) => entry.id as string)]
  if (missing.length > 0) {
    const words = [
      undated.length > 0 ? `${undated.length} of ${loads.length} loads have no time of batching` : '',
      unlaid.length > 0 ? `${unlaid.length} of ${batches.length} batches have no time of laying` : '',
    ].filter((text) => text !== '')
    return notMet(`${words.join('; ')}.`, missing)
  }
  const all = [...loads.map(({ id }) => id as string), ...batches.map(({ entry }) => entry.id as string)]
  if (batches.length === 0)
    return met(`${counted(loads.length, 'load')} with the time of batching; mixed at the works.`, all)
  const limit = rules.limits['record.sandMoisturePercent']
  const dry = batches.filter(({ entry }) => entry.body.sandMoisturePercent === undefined)
  const share = (100 * (batches.length - dry.length)) / batches.length
  const sand = `${share.toFixed(0)} % of ${counted(batches.length, 'batch', 'batches')} have the moisture of the sand (${limitText(limit)}).`
  return keepsLimit(share, limit)
    ? met(sand, all)
    : notMet(
        sand,
        dry.map(({ entry }) => entry.id),
      )
}

export const laying: readonly Requirement[] = [thicknessMeasured, batchesCover, batchesDescribed]
