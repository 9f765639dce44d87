/** Words of the trade that more than one entity uses: stored value → words on screen. */

export const coverings = {
  resilient: 'Resilient, kind not said',
  vinyl: 'Vinyl or other plastic',
  linoleum: 'Linoleum',
  rubber: 'Rubber',
  textile: 'Textile',
  'timber bonded': 'Timber, bonded',
  'timber floating': 'Timber, floating',
  cork: 'Cork',
  'ceramic tile': 'Ceramic tile',
  'natural stone': 'Natural stone',
  resin: 'Resin floor',
} as const
export type Covering = keyof typeof coverings

export const moistureMethods = {
  'hygrometer box': 'Insulated hygrometer box',
  probe: 'Probe in a drilled sleeve',
  'crushed sample': 'Humidity above a crushed sample',
  carbide: 'Carbide (CM)',
  'oven dry': 'Oven drying (laboratory)',
  'calcium chloride': 'Calcium chloride emission',
  'electrical survey': 'Electrical meter (survey only)',
} as const
export type MoistureMethod = keyof typeof moistureMethods

export const screeds = {
  'cement-sand': 'Cement-sand',
  'calcium sulfate': 'Calcium sulfate, flowing',
  'fast drying': 'Fast-drying, to the maker’s data',
} as const
export type Screed = keyof typeof screeds

export const constructions = {
  bonded: 'Bonded',
  unbonded: 'Unbonded, on a membrane',
  floating: 'Floating, on insulation',
} as const
export type Construction = keyof typeof constructions

export const protections = {
  boards: 'Boards on the routes',
  barrier: 'Barrier and signs',
  'windows closed': 'Windows and doors closed',
  shade: 'Shade',
  blanket: 'Insulating blanket',
  'electric heater': 'Electric heater',
  'flued heater': 'Flued heater',
  'unflued heater': 'Unflued combustion heater',
  dehumidifier: 'Dehumidifier',
  fan: 'Fan',
} as const
export type Protection = keyof typeof protections

export const trafficClasses = {
  foot: 'Foot',
  barrow: 'Barrow',
  ladder: 'Ladder or tower',
  'pallet truck': 'Pallet truck',
  stack: 'Stacked material',
  platform: 'Lifting platform',
  vehicle: 'Vehicle',
} as const
export type TrafficClass = keyof typeof trafficClasses

/** S01–S17: what can be seen of a fault in two minutes. */
export const symptoms = {
  S01: 'Surface dusting, sound below',
  S02: 'Friable through full depth',
  S03: 'Weak lower part, hard top',
  S04: 'Map cracking or crazing',
  S05: 'Short parallel tears, seen on day 0 or 1',
  S06: 'Straight crack mid-bay',
  S07: 'Crack at a door threshold',
  S08: 'Crack along a pipe line',
  S09: 'Crack from a re-entrant corner',
  S10: 'Curled or hollow edges and corners',
  S11: 'Hollow mid-bay (bonded)',
  S12: 'Break-up at an entrance or wheel tracks',
  S13: 'Pop-outs or isolated soft spots',
  S14: 'White bloom or damp patches',
  S15: 'Sinking or cracking panel (floating)',
  S16: 'Star crack or dent at a point',
  S17: 'Strength changes in bands between batches',
} as const
export type SymptomCode = keyof typeof symptoms
