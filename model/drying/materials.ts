import { InputError, requireNumber } from '../errors.ts'
import type { Provenance } from '../rules/index.ts'
import { cementPasteBsb, poreLaw } from './pore-law.ts'
import { type PoreTable, tabulate } from './tables.ts'

/** A constant of a material and how well it is known. */
export interface Constant {
  value: number
  unit: string
  source: string
  provenance: Provenance
}

export type ConstantName =
  | 'densityKgM3'
  | 'monolayerKgM3'
  | 'gabC'
  | 'gabK'
  | 'capillaryKgM3'
  | 'capillaryExponent'
  | 'conductivityAtSaturation'
  | 'conductivityAlpha'
  | 'conductivityHc'
  | 'conductivityN'
  | 'startRhPercent'
  | 'selfDesiccationDrop'
  | 'sealedDays'
  | 'carbideOffsetPercent'
  | 'carbideOffsetSd'
  | 'lnKappaSd'
  | 'startWaterSpread'
  | 'thermalConductivity'
  | 'heatCapacityJPerM3K'
  | 'vapourResistance'

/** A screed or slab that can dry, with every number it needs. */
export interface Material {
  id: string
  name: string
  binder: 'cement' | 'calcium sulfate'
  /** What a reader must know before trusting it. */
  caution: string
  constants: Readonly<Record<ConstantName, Constant>>
}

const BAZANT = 'form of Bazant and Najjar 1972, Mater. Constr. 5:3'
const CUBE = `${BAZANT}; shape fitted to the 12 in cubes of Gause and Tucker 1940, J. Res. NBS 25, RP1334`

const known = (value: number, unit: string, source: string, provenance: Provenance): Constant => ({
  value,
  unit,
  source,
  provenance,
})

const fittedShape = {
  conductivityAlpha: known(0.1, '-', CUBE, 'our judgement'),
  conductivityHc: known(0.75, '-', CUBE, 'our judgement'),
  conductivityN: known(6, '-', CUBE, 'our judgement'),
}

/** The shape constants of CEB-FIP Model Code 1990 and fib Model Code 2010, for comparison. */
export const modelCodeShape = {
  conductivityAlpha: known(0.05, '-', 'CEB-FIP MC90 2.1.9.3; fib MC2010 5.1.13.3', 'from memory'),
  conductivityHc: known(0.8, '-', 'CEB-FIP MC90 2.1.9.3; fib MC2010 5.1.13.3', 'from memory'),
  conductivityN: known(15, '-', 'CEB-FIP MC90 2.1.9.3; fib MC2010 5.1.13.3', 'from memory'),
}

const cementCarbide = {
  carbideOffsetPercent: known(
    1.2,
    'mass %',
    'carbide does not reach gel water: trade rule of 1.0–1.5 below the 105 °C oven',
    'from memory',
  ),
  carbideOffsetSd: known(0.3, 'mass %', 'spread of the same rule between cements', 'our judgement'),
}

const XI =
  'BSB isotherm, Xi, Bazant, Molina and Jennings 1994, Adv. Cem. Based Mater. 1:248, type I cement, 90 d'
const SPREAD =
  'screeds of different make dried in 4 weeks to 6 months under one climate (a building-physics institute)'

function cementConstants(cementKgM3: number, waterCement: number) {
  const bsb = cementPasteBsb(waterCement, 90, 'I')
  const basis = `${XI}, ${cementKgM3} kg/m³ cement, w/c ${waterCement}`
  return {
    monolayerKgM3: known(bsb.monolayerPerCement * cementKgM3, 'kg/m³', basis, 'from memory'),
    gabC: known(bsb.gabC, '-', basis, 'from memory'),
    gabK: known(bsb.gabK, '-', basis, 'from memory'),
  }
}

const shared = {
  lnKappaSd: known(0.45, 'ln', SPREAD, 'quoted second-hand'),
  startWaterSpread: known(
    0.07,
    '-',
    'one standard deviation of the water at the end of curing, as a share of it',
    'our judgement',
  ),
  vapourResistance: known(
    50,
    '-',
    'resistance of the pores to vapour against still air, used only where temperature differs through the layer',
    'our judgement',
  ),
}

/** A 1:4 cement-sand levelling screed, semi-dry. The rate is anchored on "50 mm in 50 days"; it is not measured. */
const cementSandScreed: Material = {
  id: 'cement-sand-screed',
  name: 'Cement-sand screed 1:4',
  binder: 'cement',
  caution:
    'The drying rate is set so that 50 mm takes 50 days from laying at 20 °C and 60 % RH; no measured screed stands behind it.',
  constants: {
    densityKgM3: known(2000, 'kg/m³', '1:4 semi-dry screed, compacted', 'common practice'),
    ...cementConstants(400, 0.55),
    capillaryKgM3: known(60, 'kg/m³', 'capillary water near saturation', 'our judgement'),
    capillaryExponent: known(40, '-', 'capillary water near saturation', 'our judgement'),
    conductivityAtSaturation: known(
      1.16e-7,
      'kg/(m s)',
      'anchored on one day a millimetre to 50 mm',
      'our judgement',
    ),
    ...fittedShape,
    startRhPercent: known(98, '% RH', 'pore salts keep a saturated screed at 98–99 %', 'from memory'),
    selfDesiccationDrop: known(
      0.02,
      '-',
      'order of Kim and Lee 1999, Cem. Concr. Res. 29:1921, w/c about 0.6',
      'from memory',
    ),
    sealedDays: known(7, 'days', 'continuous moist cure of at least 7 days', 'quoted second-hand'),
    ...cementCarbide,
    ...shared,
    thermalConductivity: known(
      1.4,
      'W/(m K)',
      'cement screed, design value of the order in EN ISO 10456',
      'from memory',
    ),
    heatCapacityJPerM3K: known(
      2.0e6,
      'J/(m³ K)',
      '2000 kg/m³ times 1000 J/(kg K), EN ISO 10456',
      'from memory',
    ),
  },
}

const denseConcrete: Material = {
  id: 'dense-concrete',
  name: 'Dense concrete, w/c 0.40',
  binder: 'cement',
  caution:
    'One constant is set on one published emission rate (4 in slab, w/c 0.40); thicker slabs and other mixes are extrapolation.',
  constants: {
    densityKgM3: known(2320, 'kg/m³', 'dense concrete', 'common practice'),
    ...cementConstants(400, 0.4),
    capillaryKgM3: known(20, 'kg/m³', 'capillary water near saturation', 'our judgement'),
    capillaryExponent: known(40, '-', 'capillary water near saturation', 'our judgement'),
    conductivityAtSaturation: known(
      3.5e-8,
      'kg/(m s)',
      'set on the emission of the 4 in slab of Brewer 1965, PCA Bulletin D89',
      'our judgement',
    ),
    ...fittedShape,
    startRhPercent: known(96, '% RH', 'end of sealed curing at w/c 0.40', 'from memory'),
    selfDesiccationDrop: known(
      0.08,
      '-',
      'order of Kim and Lee 1999, Cem. Concr. Res. 29:1921, w/c 0.40',
      'from memory',
    ),
    sealedDays: known(7, 'days', 'continuous moist cure of at least 7 days', 'quoted second-hand'),
    ...cementCarbide,
    ...shared,
    thermalConductivity: known(2.0, 'W/(m K)', 'concrete of high density, EN ISO 10456', 'from memory'),
    heatCapacityJPerM3K: known(
      2.32e6,
      'J/(m³ K)',
      '2320 kg/m³ times 1000 J/(kg K), EN ISO 10456',
      'from memory',
    ),
  },
}

const calciumSulfateScreed: Material = {
  id: 'calcium-sulfate-screed',
  name: 'Calcium sulfate flowing screed',
  binder: 'calcium sulfate',
  caution:
    'Pore humidity stays near 100 % until about 0.8 mass %: a humidity probe foretells little before then. Dry samples at 40 °C, never 105 °C. Remove laitance first.',
  constants: {
    densityKgM3: known(2050, 'kg/m³', 'flowing screed 2000–2100', 'common practice'),
    monolayerKgM3: known(
      3,
      'kg/m³',
      'humidity 95–100 % until 0.7–0.8 mass % (a flooring trade magazine, 2017)',
      'our judgement',
    ),
    gabC: known(10, '-', 'as the monolayer', 'our judgement'),
    gabK: known(0.6, '-', 'as the monolayer', 'our judgement'),
    capillaryKgM3: known(120, 'kg/m³', 'as the monolayer', 'our judgement'),
    capillaryExponent: known(60, '-', 'as the monolayer', 'our judgement'),
    conductivityAtSaturation: known(
      3.5e-7,
      'kg/(m s)',
      'anchored on 40 mm in about three weeks at 20 °C and 50 % RH (a producer)',
      'our judgement',
    ),
    conductivityAlpha: known(0.05, '-', BAZANT, 'our judgement'),
    conductivityHc: known(0.9, '-', BAZANT, 'our judgement'),
    conductivityN: known(6, '-', BAZANT, 'our judgement'),
    startRhPercent: known(99.5, '% RH', 'nearly saturated when protection ends', 'our judgement'),
    selfDesiccationDrop: known(0, '-', 'calcium sulfate sets within hours', 'common practice'),
    sealedDays: known(
      2,
      'days',
      'protected from draught and heat for two days, DIN 18560-1',
      'quoted second-hand',
    ),
    carbideOffsetPercent: known(
      0,
      'mass %',
      'carbide equals the 40 °C oven for calcium sulfate',
      'common practice',
    ),
    carbideOffsetSd: known(0.05, 'mass %', 'spread between the two methods', 'our judgement'),
    ...shared,
    startWaterSpread: known(
      0.1,
      '-',
      'one standard deviation of the water when protection ends, as a share of it',
      'our judgement',
    ),
    thermalConductivity: known(
      1.4,
      'W/(m K)',
      'calcium sulfate flowing screed, makers state 1.2–1.8',
      'from memory',
    ),
    heatCapacityJPerM3K: known(2.05e6, 'J/(m³ K)', '2050 kg/m³ times 1000 J/(kg K)', 'from memory'),
  },
}

/** What a maker must tell before a fast-drying screed can be simulated. */
export interface FastDryingInput {
  name: string
  /** Where the numbers come from, such as the data sheet's title and date. */
  source: string
  /** How many times faster than the 1:4 cement-sand screed moisture moves [-]. */
  diffusivityFactor: number
  /** Pore humidity when drying starts [% RH]; much mixing water is bound. */
  startRhPercent: number
  /** Pore humidity the binder takes up itself by the end [-]. */
  selfDesiccationDrop: number
  densityKgM3: number
  sealedDays: number
}

/**
 * Returns a fast-drying cement screed made from the maker's own figures; nothing is assumed about a brand.
 * @errors InputError naming the figure that is missing or outside its range
 */
function fastDryingScreed(custom: FastDryingInput): Material {
  for (const field of ['name', 'source'] as const) {
    if (typeof custom[field] !== 'string' || custom[field].trim() === '') {
      throw new InputError(
        field,
        `${field} is empty; say what the screed is and where its figures come from.`,
      )
    }
  }
  const typed = (field: keyof FastDryingInput, min: number, max: number, unit: string) =>
    known(requireNumber(field, custom[field], min, max, unit), unit, custom.source, 'company rule')
  const factor = typed('diffusivityFactor', 0.1, 20, '-')
  const base = cementSandScreed.constants
  return {
    id: 'fast-drying-screed',
    name: custom.name,
    binder: 'cement',
    caution: 'Drying follows the figures typed in for this product; the test by the maker’s method decides.',
    constants: {
      ...base,
      densityKgM3: typed('densityKgM3', 800, 2600, 'kg/m³'),
      conductivityAtSaturation: {
        ...factor,
        value: factor.value * base.conductivityAtSaturation.value,
        unit: 'kg/(m s)',
      },
      startRhPercent: typed('startRhPercent', 60, 99.9, '% RH'),
      selfDesiccationDrop: typed('selfDesiccationDrop', 0, 0.3, '-'),
      sealedDays: typed('sealedDays', 0, 28, 'days'),
    },
  }
}

/** The screeds and slabs that can be simulated. */
export const materials = { cementSandScreed, denseConcrete, calciumSulfateScreed, fastDryingScreed }

/** Returns a copy of a material with some constants replaced, each with its own origin. */
export function withConstants(
  material: Material,
  changes: Partial<Record<ConstantName, Constant>>,
): Material {
  return { ...material, constants: { ...material.constants, ...changes } }
}

const tables = new WeakMap<Material, PoreTable>()

/** Returns the tabulated pore law of a material; made once for each. */
export function tableOf(material: Material): PoreTable {
  const made = tables.get(material)
  if (made !== undefined) return made
  const value = (name: ConstantName) => material.constants[name].value
  const table = tabulate(
    poreLaw(
      {
        monolayerKgM3: value('monolayerKgM3'),
        gabC: value('gabC'),
        gabK: value('gabK'),
        capillaryKgM3: value('capillaryKgM3'),
        capillaryExponent: value('capillaryExponent'),
      },
      value('conductivityAtSaturation'),
      { alpha: value('conductivityAlpha'), hc: value('conductivityHc'), n: value('conductivityN') },
    ),
  )
  tables.set(material, table)
  return table
}
