import type { Construction } from '../rules/words.ts'

export interface BaseUnderScreed {
  /** Shot-blasted, scabbled or milled and cleaned, as against tamped or floated only. */
  mechanicallyPrepared: boolean
  oilContaminated: boolean
  waterproofingAdmixture: boolean
  membrane: 'none' | 'bonding epoxy' | 'other'
  insulation: boolean
}

/**
 * Returns what a screed on this base counts as, whatever the drawing calls it.
 *
 * @source BS 8204-1 6.4.2.
 * @provenance quoted second-hand
 */
export function constructionOnBase(base: BaseUnderScreed): { construction: Construction; because: string } {
  if (base.insulation) return { construction: 'floating', because: 'insulation lies between base and screed' }
  if (base.membrane === 'other')
    return { construction: 'unbonded', because: 'a membrane lies between base and screed' }
  if (!base.mechanicallyPrepared)
    return { construction: 'unbonded', because: 'the base was not mechanically prepared' }
  if (base.oilContaminated) return { construction: 'unbonded', because: 'the base is contaminated with oil' }
  if (base.waterproofingAdmixture)
    return { construction: 'unbonded', because: 'the base holds a waterproofing admixture' }
  return { construction: 'bonded', because: 'the base is mechanically prepared and nothing lies between' }
}
