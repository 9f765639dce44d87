import type { BodyOf } from '../record/kinds.ts'
import type { Screed } from '../record/words.ts'

/** Which mix a bay was laid with, as far as the record says. */
export interface Mix {
  screed: Screed
  /** EN 13813 designation of the plan: a class of strength, not a recipe. */
  designation: string | null
  /** From the batches; null without batches, or when they name no cement or more than one. */
  recipe: { cementType: string; dampSandPerCement: number; admixture: boolean } | null
}

/** Recipes are the same when their damp sand for one part of cement differs by no more than this share. */
const SAND_TOLERANCE = 0.1

/**
 * Returns the mix of a bay from its plan and batches. Damp sand stands as the site gauges it: its moisture is not
 * always recorded, and moves the proportion by less than the tolerance.
 */
export function mixOf(
  plan: Pick<BodyOf<'bay-planned'>, 'screed' | 'designation'>,
  batches: readonly BodyOf<'batch-mixed'>[],
): Mix {
  const cements = new Set(batches.flatMap(({ cementType }) => sameWriting(cementType) ?? []))
  const [cementType] = cements
  const sum = (of: (batch: BodyOf<'batch-mixed'>) => number) => batches.reduce((all, one) => all + of(one), 0)
  return {
    screed: plan.screed,
    designation: sameWriting(plan.designation),
    recipe:
      cementType === undefined || cements.size > 1
        ? null
        : {
            cementType,
            dampSandPerCement: sum(({ dampSandKg }) => dampSandKg) / sum(({ cementKg }) => cementKg),
            admixture: batches.some(({ admixtureKg = 0 }) => admixtureKg > 0),
          },
  }
}

/** True when the record says enough of a mix to find others like it. */
export function isMixKnown({ designation, recipe }: Mix): boolean {
  return designation !== null || recipe !== null
}

/**
 * Tells whether two bays were laid with one mix: the same screed, cement type, damp sand for one part of cement within
 * 10 %, and both with or both without admixture. Where a recipe is not recorded, the same designation counts within
 * one project and not beyond. What is not known is never the same.
 * @provenance our judgement
 */
export function isSameMix(one: Mix, other: Mix, sameProject: boolean): boolean {
  if (one.screed !== other.screed) return false
  if (one.recipe === null || other.recipe === null)
    return sameProject && one.designation !== null && one.designation === other.designation
  const [a, b] = [one.recipe, other.recipe]
  const apart = Math.abs(Math.log(a.dampSandPerCement / b.dampSandPerCement))
  return a.cementType === b.cementType && a.admixture === b.admixture && apart <= Math.log(1 + SAND_TOLERANCE)
}

/** Names are typed by hand: capitals and spaces do not make another cement. */
function sameWriting(text: string | undefined): string | null {
  const plain = (text ?? '').toLowerCase().replace(/\s+/g, ' ').trim()
  return plain === '' ? null : plain
}
