import { InputError } from '../../errors.ts'
import { bayShape } from '../../movement/bay.ts'
import { distanceToSegment, type Point, type Segment } from '../../movement/polygon.ts'
import { entriesOf } from '../../record/story.ts'
import { type Answer, no, notAsked, type Scene, twoDigits, unseen, yes } from './scene.ts'

/** A crack so near a base joint lies on it; one further away than the second has nothing to do with it. Our judgement [m]. */
const onJointM = 0.1
const offJointM = 0.3
/** An inducer so near a corner relieves it [m]. */
const atCornerM = 0.1
/** Adequate pull-off of a bonded screed. Our judgement [N/mm²]. */
const adequatePullOffMPa = 0.5

type Ids = 'E27' | 'E28' | 'E29' | 'E30' | 'E31' | 'E32' | 'E55' | 'E56' | 'E57' | 'E58'

/** Answers what plan, base and edges tell. */
export function shapeAnswers(scene: Scene): Record<Ids, Answer> {
  return { ...shape(scene), ...baseJoints(scene), ...edge(scene), ...base(scene), ...support(scene) }
}

function shape({ story, rules }: Scene): Record<'E27' | 'E28', Answer> {
  const planned = story.entries.find(({ kind }) => kind === 'bay-planned')
  const joints = entriesOf(story, 'joint-formed')
  const entries = [...(planned === undefined ? [] : [planned.id as string]), ...joints.map(({ id }) => id)]
  const measured = (() => {
    try {
      return bayShape(story.bay.body.outline)
    } catch (cause) {
      if (cause instanceof InputError) return null
      throw cause
    }
  })()
  if (measured === null) {
    const none = unseen('The outline of the bay cannot be measured.')
    return { E27: none, E28: none }
  }
  const { longestSideM, ratio, reentrantCorners } = measured
  const thickness = story.bay.body.designThicknessMm
  const leastDepth = (rules.limits['bay.inducerDepthPercent'].value / 100) * thickness
  const relieves = ({ body }: (typeof joints)[number], corner: Point) =>
    distanceToSegment(corner, body) <= atCornerM &&
    (body.joint !== 'inducer' || (body.depthMm ?? leastDepth) >= leastDepth)
  const bare = reentrantCorners.filter((corner) => !joints.some((joint) => relieves(joint, corner)))
  const sideMost = rules.limits['bay.heatedSideM'].value
  const ratioMost = rules.limits['bay.ratio'].value
  const shown = `Longest side ${twoDigits(longestSideM)} m, ${twoDigits(ratio)} : 1, ${bare.length} inward corners without an inducer`
  const tooLong = longestSideM > sideMost || ratio > ratioMost
  const dividing = joints.filter(
    ({ body }) => body.joint === 'movement' || body.joint === 'inducer' || body.joint === 'day',
  )
  if (bare.length > 0) return { E27: yes(`${shown}.`, entries), E28: no(`${shown}.`, entries) }
  if (!tooLong) return { E27: no(`${shown}.`, entries), E28: yes(`${shown}.`, entries) }
  if (dividing.length === 0) return { E27: yes(`${shown}.`, entries), E28: no(`${shown}.`, entries) }
  const doubt = unseen(
    `${shown}; ${dividing.length} joints divide it, and their parts are not measured.`,
    entries,
  )
  return { E27: doubt, E28: doubt }
}

function baseJoints({ story, place, isCrack }: Scene): Record<'E29' | 'E30', Answer> {
  if (!isCrack) {
    const none = notAsked('The defect is no crack.')
    return { E29: none, E30: none }
  }
  const { baseJoints: lines } = story.floor.body
  const floor = story.entries.find(({ kind }) => kind === 'floor-added')
  const entries = floor === undefined ? [] : [floor.id as string]
  if (lines === undefined) {
    const none = unseen('Joints and cracks of the base were not surveyed.')
    return { E29: none, E30: none }
  }
  if (lines.length === 0) {
    const because = 'The base was surveyed and has no joint or crack.'
    return { E29: no(because, entries), E30: yes(because, entries) }
  }
  if (place === null) {
    const none = unseen(
      'Nobody drew where the crack runs, so it cannot be laid over the base joints.',
      entries,
    )
    return { E29: none, E30: none }
  }
  const apart = lines.map((line) => farthestM(place, line))
  const onIt = Math.min(...apart)
  const nearest = Math.min(
    ...lines.flatMap((line) => pointsAlong(place).map((point) => distanceToSegment(point, line))),
  )
  const shown = `The nearest base joint is ${Math.round(nearest * 1000)} mm away`
  if (onIt <= onJointM) {
    const because = `The crack keeps within ${Math.round(onIt * 1000)} mm of a base joint along its whole length.`
    return { E29: yes(because, entries), E30: no(because, entries) }
  }
  return {
    E29: no(`${shown}; the crack does not follow it.`, entries),
    E30: nearest > offJointM ? yes(`${shown}.`, entries) : no(`${shown}.`, entries),
  }
}

/** The crack as points ten centimetres apart. */
function pointsAlong(place: readonly Point[]): Point[] {
  return place.flatMap((from, i) => {
    const to = place[i + 1]
    if (to === undefined) return [from]
    const steps = Math.max(1, Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / 0.1))
    return Array.from({ length: steps }, (_, k) => ({
      x: from.x + ((to.x - from.x) * k) / steps,
      y: from.y + ((to.y - from.y) * k) / steps,
    }))
  })
}

function farthestM(place: readonly Point[], line: Segment): number {
  return Math.max(...pointsAlong(place).map((point) => distanceToSegment(point, line)))
}

function edge({ story }: Scene): Record<'E31' | 'E32', Answer> {
  const fitted = entriesOf(story, 'edge-strip-fitted').at(-1)
  if (fitted === undefined) {
    const none = unseen('Nobody wrote down whether the edge strip was complete.')
    return { E31: none, E32: none }
  }
  const photos = entriesOf(story, 'photo-added').filter(({ body }) => body.tag === 'edge strip')
  const entries = [fitted.id, ...photos.map(({ id }) => id)]
  const { complete, missingAt, thicknessMm } = fitted.body
  if (!complete) {
    const because = `Edge strip missing or bridged: ${missingAt ?? 'place not said'}.`
    return { E31: yes(because, entries), E32: no(because, entries) }
  }
  const because = `Edge strip of ${thicknessMm} mm complete, ${photos.length === 0 ? 'no photograph linked' : `${photos.length} photographs`}.`
  return { E31: no(because, entries), E32: yes(because, entries) }
}

function base({ story }: Scene): Record<'E55' | 'E56', Answer> {
  if (story.bay.body.construction !== 'bonded') {
    const none = notAsked(`The screed is ${story.bay.body.construction}, not bonded.`)
    return { E55: none, E56: none }
  }
  const survey = entriesOf(story, 'base-surveyed').at(-1)
  if (survey === undefined) {
    const because = 'The preparation of the base was not written down.'
    return { E55: no(because), E56: yes(because) }
  }
  const { prepared, clean, dry, slurryAt } = survey.body
  const pulls = entriesOf(story, 'surface-tested').filter(({ body }) => body.pullOffMPa !== undefined)
  const least = Math.min(...pulls.map(({ body }) => body.pullOffMPa!))
  const entries = [survey.id, ...pulls.map(({ id }) => id)]
  const roughened = prepared === 'mechanically prepared'
  const said = `Base ${prepared}, ${clean ? 'clean' : 'not clean'}, ${slurryAt === undefined ? 'no slurry or primer noted' : 'slurry or primer noted'}`
  if (!roughened || !clean || !dry) return { E55: no(`${said}.`, entries), E56: yes(`${said}.`, entries) }
  if (slurryAt === undefined) {
    const doubt = unseen(`${said}.`, entries)
    return { E55: doubt, E56: doubt }
  }
  if (pulls.length === 0)
    return { E55: unseen(`${said}, but no pull-off.`, entries), E56: no(`${said}.`, entries) }
  const pull = `${said}, pull-off ${least} N/mm² at least`
  return least >= adequatePullOffMPa
    ? { E55: yes(`${pull}.`, entries), E56: no(`${said}.`, entries) }
    : { E55: no(`${pull}.`, entries), E56: no(`${said}.`, entries) }
}

function support({ story }: Scene): Record<'E57' | 'E58', Answer> {
  if (story.bay.body.construction !== 'floating') {
    const none = notAsked(`The screed is ${story.bay.body.construction}: no insulation carries it.`)
    return { E57: none, E58: none }
  }
  const none = unseen('The record does not say how the insulation lay; look, or ask who laid it.')
  return { E57: none, E58: none }
}
