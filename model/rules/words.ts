import type { MoistureMethod } from '../record/words.ts'

export type { Construction, Covering, MoistureMethod, Screed } from '../record/words.ts'

/** What a limit is expressed in. A reading on one scale is never compared with a limit on another. */
export type MoistureScale = 'rh' | 'sample-rh' | 'carbide' | 'mass' | 'emission'

/** The scale that a method reads on; null for the meter, whose figure is a survey and never an acceptance. */
export const scaleOfMethod: Readonly<Record<MoistureMethod, MoistureScale | null>> = {
  'hygrometer box': 'rh',
  probe: 'rh',
  'crushed sample': 'sample-rh',
  carbide: 'carbide',
  'oven dry': 'mass',
  'calcium chloride': 'emission',
  'electrical survey': null,
}
