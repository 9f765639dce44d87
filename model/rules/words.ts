/** The words that rules and checks share: stored value → words on screen. */

export const screeds = {
  'cement-sand': 'Cement and sand screed',
  'calcium-sulfate': 'Calcium sulfate screed',
} as const
export type Screed = keyof typeof screeds

export const constructions = {
  bonded: 'Bonded to the base',
  unbonded: 'On a separating layer',
  floating: 'Floating on insulation',
} as const
export type Construction = keyof typeof constructions

export const loadings = {
  light: 'Light: houses and similar',
  heavy: 'Heavier: all other floors',
} as const
export type Loading = keyof typeof loadings

export const coverings = {
  vinyl: 'Vinyl or other plastic sheet and tile',
  linoleum: 'Linoleum',
  rubber: 'Rubber',
  cork: 'Cork',
  textile: 'Carpet and other textile',
  'timber-bonded': 'Timber, glued down',
  'timber-floating': 'Timber, laid loose on an underlay',
  tile: 'Ceramic or stone tile',
  resin: 'Resin floor or coating',
} as const
export type Covering = keyof typeof coverings

export const moistureMethods = {
  box: 'Insulated hygrometer box on the surface',
  sleeve: 'Humidity probe in a drilled and sleeved hole',
  sample: 'Humidity above a crushed sample in a sealed bag',
  carbide: 'Carbide vessel',
  oven: 'Oven drying of a sample',
  emission: 'Calcium chloride emission dish',
  meter: 'Electrical meter',
} as const
export type MoistureMethod = keyof typeof moistureMethods

/** What a limit is expressed in. A reading on one scale is never compared with a limit on another. */
export type MoistureScale = 'rh' | 'sample-rh' | 'carbide' | 'mass' | 'emission'

/** The scale that a method reads on; null for the meter, whose figure is a survey and never an acceptance. */
export const scaleOfMethod: Readonly<Record<MoistureMethod, MoistureScale | null>> = {
  box: 'rh',
  sleeve: 'rh',
  sample: 'sample-rh',
  carbide: 'carbide',
  oven: 'mass',
  emission: 'emission',
  meter: null,
}
