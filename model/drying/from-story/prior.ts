import { isMixKnown } from '../../mix/same-mix.ts'
import type { BayStory } from '../../record/story.ts'
import {
  type BayLesson,
  LEAST_TEACHERS,
  type PooledPrior,
  poolLessons,
  withoutPrior,
} from '../forecast/pool.ts'
import type { Material } from '../materials.ts'
import { mixOfStory } from './mix.ts'

/**
 * Returns what is believed of a bay's diffusivity factor before its own readings: what other bays of its mix taught,
 * or null for the material's own spread; and in a sentence which of the two and why.
 */
export function priorFrom(
  story: BayStory,
  lessons: readonly BayLesson[],
  material: Material,
): { value: PooledPrior | null; assumption: string } {
  const materialSd = material.constants.lnKappaSd.value
  const alone = `1.00 ${timesDivided(materialSd)}`
  const others = lessons.filter(({ bay }) => bay !== story.bay.id)
  const value = poolLessons(others, materialSd)
  if (value !== null) {
    const bays = value.teachers.map(({ name, factor }) => `${name} ${factor.toFixed(2)}`).join(', ')
    const believed = `${Math.exp(value.lnKappaMean).toFixed(2)} ${timesDivided(value.lnKappaSd)}`
    return {
      value,
      assumption: `${value.teachers.length} other bays of the same mix taught how fast it dries (${bays}): before its own readings the diffusivity factor of this bay is taken as ${believed}, instead of ${alone} for the material.`,
    }
  }
  const taught = others.filter((lesson) => withoutPrior(lesson, materialSd) !== null)
  const names = taught.map(({ name }) => name).join(', ')
  const why = !isMixKnown(mixOfStory(story))
    ? 'The record does not say which mix this bay is (no designation, no cement type of a batch), so no other bay can teach how fast it dries'
    : taught.length === 0
      ? 'No other bay of this mix has yet taught by valid tests how fast it dries'
      : `Only ${taught.length} of the ${LEAST_TEACHERS} bays of this mix that are needed taught by valid tests how fast it dries (${names})`
  return { value: null, assumption: `${why}; the spread of the material is used: a factor of ${alone}.` }
}

const timesDivided = (lnSd: number) => `× ÷ ${Math.exp(lnSd).toFixed(2)}`
