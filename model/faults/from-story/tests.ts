import { checkSoundness, soundnessLimit } from '../../checks/soundness.ts'
import type { StoryEntryOf } from '../../record/entry.ts'
import { entriesOf } from '../../record/story.ts'
import { keepsLimit } from '../../rules/limit.ts'
import { dayMs, daysBetween, hourMs } from '../../watch/facts/time.ts'
import { measuresOf, movementOf } from './measures.ts'
import { type Answer, ageText, no, notAsked, type Scene, unseen, yes } from './scene.ts'

/** Skins and full depths. Our judgement [mm]. */
const skinMm = 3
const fullDepthWithinMm = 5
/** Drop-weight points that fail: at least this share is everywhere, at most the other is a patch. Our judgement. */
const everywhereShare = 0.75
const patchShare = 1 / 3
const leastPoints = 3
const lateDays = 21

type Ids = 'E45' | 'E46' | 'E47' | 'E48' | 'E49' | 'E50' | 'E51' | 'E52' | 'E64'

/** Answers what the tests and measures in the record tell of the defect itself. */
export function testAnswers(scene: Scene): Record<Ids, Answer> {
  return { ...depth(scene), ...dropWeight(scene), ...time(scene), ...gauge(scene) }
}

function depth({ story, defects }: Scene): Record<'E45' | 'E64', Answer> {
  const none = unseen(
    'Nobody measured how deep it is weak: grind a small patch in 1 mm steps, or take a core.',
  )
  if (defects.length === 0) return { E45: none, E64: none }
  const { weakToMm, entries } = measuresOf(story, defects)
  if (weakToMm === null) return { E45: none, E64: none }
  const thickness = story.bay.body.designThicknessMm
  const shown = `Weak down to ${weakToMm} mm of ${thickness} mm.`
  if (weakToMm === 0)
    return {
      E45: no('Sound from the surface down.', entries),
      E64: no('Sound from the surface down.', entries),
    }
  return {
    E45: weakToMm <= skinMm ? yes(shown, entries) : no(shown, entries),
    E64: weakToMm >= thickness - fullDepthWithinMm ? yes(shown, entries) : no(shown, entries),
  }
}

/** The last valid drop-weight test of the bay and how its failures lie. */
export function soundnessOf(scene: Pick<Scene, 'story' | 'rules' | 't0' | 'facts'>): {
  verdict: 'pass' | 'fail' | 'not known'
  because: string
  entry: StoryEntryOf<'soundness-tested'> | null
  over: number
  points: number
} {
  const { story, rules, t0, facts } = scene
  const tests = entriesOf(story, 'soundness-tested')
  const category = story.zone.body.soundness
  const { construction } = story.bay.body
  const judged = tests.map((entry) => {
    const indentationsMm = entry.body.points.map(({ indentationMm }) => indentationMm)
    const result = checkSoundness({
      category,
      construction,
      weightKg: Number(entry.body.weightKg),
      blows: entry.body.blows,
      ageDays: t0 === null ? 0 : Math.max(0, daysBetween(t0, entry.happenedAt)),
      indentationsMm,
      areaM2: facts.areaM2,
      rules,
    })
    return { entry, indentationsMm, verdict: result.verdict }
  })
  const last = judged.findLast(({ verdict }) => verdict === 'pass' || verdict === 'fail')
  if (last === undefined) {
    const because =
      judged.length === 0
        ? 'No drop-weight test in the record.'
        : 'The drop-weight test in the record proves nothing: weight, blows, age or number of points.'
    return { verdict: 'not known', because, entry: judged.at(-1)?.entry ?? null, over: 0, points: 0 }
  }
  const limit = soundnessLimit(category, construction, rules)
  const over = last.indentationsMm.filter((mm) => !keepsLimit(mm, limit)).length
  const worst = Math.max(...last.indentationsMm)
  return {
    verdict: last.verdict === 'pass' ? 'pass' : 'fail',
    because: `Drop weight: ${over} of ${last.indentationsMm.length} points over ${limit.value} mm (category ${category}), deepest ${worst} mm.`,
    entry: last.entry,
    over,
    points: last.indentationsMm.length,
  }
}

function dropWeight(scene: Scene): Record<'E46' | 'E47' | 'E48', Answer> {
  const { verdict, because, entry, over, points } = soundnessOf(scene)
  const entries = entry === null ? [] : [entry.id]
  if (verdict === 'not known') {
    const none = unseen(because, entries)
    return { E46: none, E47: none, E48: none }
  }
  if (verdict === 'pass')
    return { E46: yes(because, entries), E47: no(because, entries), E48: no(because, entries) }
  const share = over / points
  const told = points >= leastPoints
  const pattern = (holds: boolean): Answer =>
    told
      ? holds
        ? yes(because, entries)
        : no(because, entries)
      : unseen(`${because} Too few points to tell a patch from the whole.`, entries)
  return {
    E46: no(because, entries),
    E47: pattern(share >= everywhereShare),
    E48: pattern(share <= patchShare),
  }
}

function time(scene: Scene): Record<'E49' | 'E50', Answer> {
  const { isCrack, firstSeen, t0, defects, facts } = scene
  if (!isCrack) {
    const none = notAsked('The defect is no crack.')
    return { E49: none, E50: none }
  }
  if (firstSeen === null || t0 === null) {
    const none = unseen('When the crack was seen first, or when the bay was finished, is not in the record.')
    return { E49: none, E50: none }
  }
  const entries = defects.map(({ id }) => id as string)
  const shown = `First seen ${ageText(t0, firstSeen.from)}.`
  const dayLater = t0 + 24 * hourMs
  const E49 =
    firstSeen.until <= dayLater
      ? yes(shown, entries)
      : firstSeen.from > dayLater
        ? no(shown, entries)
        : unseen('First seen on the day after the finish; the hour is not known.', entries)
  const late = firstSeen.from > t0 + lateDays * dayMs
  const firstHeat = facts.heating.find(({ state, flowC }) => state === 'running' && flowC !== null)
  const saidOnHeat = defects.flatMap(({ body }) => body.seenOnHeatUp ?? [])
  const onHeat = saidOnHeat.includes(true) || (saidOnHeat.includes(false) ? false : undefined)
  const E50 =
    late || onHeat === true
      ? yes(onHeat === true ? `${shown} While heating up.` : shown, entries)
      : firstHeat === undefined || firstSeen.until < firstHeat.at || onHeat === false
        ? no(shown, entries)
        : unseen(`${shown} Whether it came while heating up is not said.`, entries)
  return { E49, E50 }
}

function gauge({ story, isCrack, defects }: Scene): Record<'E51' | 'E52', Answer> {
  if (!isCrack) {
    const none = notAsked('The defect is no crack.')
    return { E51: none, E52: none }
  }
  if (defects.length === 0) {
    const none = unseen('No crack is named.')
    return { E51: none, E52: none }
  }
  const movement = movementOf(
    story,
    defects.map(({ id }) => id),
  )
  const { verdict, words, entries, followsTemperature } = movement
  switch (verdict) {
    case 'live':
      return {
        E51: followsTemperature === 'no' ? no(words, entries) : yes(words, entries),
        E52: no(words, entries),
      }
    case 'dormant':
      return { E51: no(words, entries), E52: yes(words, entries) }
    case 'not known':
      return { E51: unseen(words, entries), E52: unseen(words, entries) }
  }
}
