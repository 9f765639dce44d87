import { type BayStory, entriesOf } from '../record/story.ts'
import type { EffectiveRules } from '../rules/effective.ts'
import { type CauseCode, causeCodes } from './causes.ts'
import { evidenceItem } from './evidence.ts'
import { evidenceOfScene } from './evidence-from-story.ts'
import { type Scene, sceneOf } from './from-story/scene.ts'
import { soundnessOf } from './from-story/tests.ts'
import type { CauseWeights, Evidence, NeighbourComparison } from './shapes.ts'
import { weightOf } from './weights.ts'

/** What a cause loses when all that supports it is equally true of a sound neighbour. Our judgement [log-odds]. */
export const neighbourPenalty = -1

/**
 * Returns how other bays compare: what is the same, what was different, and which causes that lowers.
 *
 * Only a bay that is proven sound speaks against a cause: finished, without a recorded fault, and with a passed soundness
 * test. A bay that nobody tested is shown and counts for nothing. A cause is lowered when every item of the record that
 * supports it here is true there too; a test of the fault itself has no counterpart there, and a cause that it supports stands.
 */
export function compareNeighbours(
  here: readonly Evidence[],
  neighbours: readonly BayStory[],
  weights: CauseWeights,
  asOf: number,
  rules?: EffectiveRules,
): NeighbourComparison[] {
  return neighbours.map((whole) => {
    const scene = sceneOf({ defect: null, story: whole, asOf, rules, symptoms: [] })
    const { story } = scene
    const there = new Map(evidenceOfScene(scene).map((item) => [item.id, item]))
    const comparable = here.filter(({ id }) => evidenceItem(id).from === 'record')
    const same = comparable.filter(({ id, state }) => state === 'true' && there.get(id)!.state === 'true')
    const different = comparable.filter(
      ({ id, state }) => state === 'true' && there.get(id)!.state === 'false',
    )
    const stood = standingOf(scene)
    const lowers =
      stood.standing === 'proven sound'
        ? causeCodes.filter((cause) => equallyTrue(cause, here, new Set(same.map(({ id }) => id)), weights))
        : []
    return {
      bay: story.bay.id,
      name: story.bay.body.name,
      ...stood,
      same: same.map(({ id }) => id),
      different: different.map(({ id, because }) => ({ id, here: because, there: there.get(id)!.because })),
      lowers,
    }
  })
}

function equallyTrue(
  cause: CauseCode,
  here: readonly Evidence[],
  same: ReadonlySet<Evidence['id']>,
  weights: CauseWeights,
): boolean {
  const supports = here.filter(({ id, state }) => state === 'true' && weightOf(weights, id, cause) > 0)
  return supports.length > 0 && supports.every(({ id }) => same.has(id))
}

function standingOf(scene: Scene): Pick<NeighbourComparison, 'standing' | 'because' | 'entries'> {
  const { story, t0 } = scene
  const noDefect = new Set(
    entriesOf(story, 'defect-closed')
      .filter(({ body }) => body.how === 'not a defect')
      .map(({ body }) => String(body.defect)),
  )
  const defects = entriesOf(story, 'defect-found').filter(({ id }) => !noDefect.has(id))
  if (defects.length > 0) {
    return {
      standing: 'has a fault',
      because: `${defects.length} ${defects.length === 1 ? 'fault' : 'faults'} found on it.`,
      entries: defects.map(({ id }) => id),
    }
  }
  if (t0 === null) return { standing: 'not proven', because: 'Not known to be finished.', entries: [] }
  const { verdict, because, entry } = soundnessOf(scene)
  return {
    standing: verdict === 'pass' ? 'proven sound' : verdict === 'fail' ? 'has a fault' : 'not proven',
    because,
    entries: entry === null ? [] : [entry.id],
  }
}
