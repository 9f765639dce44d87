import { dryingDays } from '../checks/drying-days.ts'
import { InputError, requireNumber } from '../errors.ts'
import type { Screed } from '../record/words.ts'
import { effectiveRules } from '../rules/effective.ts'

/** Factors of crack filling; our judgement after common practice. */
export const fillFactors = {
  /** Soaked up by the flanks and run away below. */
  absorption: 1.3,
  /** Floating, wider than this: the underside is open and resin runs into the insulation. */
  floatingWiderThanMm: 1,
  floatingLoss: 2,
  /** Two to three rounds, 20 to 40 min apart. */
  topUps: 1.2,
  /** What is left in the pot when it sets. */
  potWaste: 1.1,
  /** Voids between the grains of dry fine sand, which the resin fills. */
  sandVoids: 0.4,
  sandKgPerL: 1.5,
} as const

export interface FillQuestion {
  /** 0 to 10 000 [m]. */
  lengthM: number
  /** Mean of five places or more, 0 to 30 [mm]. */
  widthMm: number
  /** 0 to 250 [mm]. */
  depthMm: number
  /** Filled with dry fine sand first; for cracks wider than about 2 mm. */
  sandFilled?: boolean
  /** Topped up while it soaks away; true unless said. A number of rounds will do. */
  topUps?: boolean | number
  /** On insulation. */
  floating?: boolean
}

/** The steps from the size of a crack to the litres to order. */
export interface FillSteps {
  crackL: number
  resinL: number
  sandKg: number
  lossFactor: number
  topUpFactor: number
  orderL: number
  how: string
}

/**
 * Returns the litres of resin to order for a crack.
 *
 * Volume = length [m] · width [mm] · depth [mm] / 1000, of which sand leaves 40 %; times 1.3 for what soaks away (2 under a
 * floating screed where the crack is wider than 1 mm), times 1.2 for topping up, times 1.1 for what sets in the pot.
 *
 * @throws InputError naming the field when a number is not finite or out of range.
 * @accuracy to be replaced by what the first crack of the job took; the maker's data sheet goes first.
 * @provenance common practice; the factors are our judgement
 */
export function fillResinL(question: FillQuestion): number {
  return fillSteps(question).orderL
}

/** The same with every step shown. */
export function fillSteps(question: FillQuestion): FillSteps {
  const lengthM = requireNumber('lengthM', question.lengthM, 0, 10_000, 'm')
  const widthMm = requireNumber('widthMm', question.widthMm, 0, 30, 'mm')
  const depthMm = requireNumber('depthMm', question.depthMm, 0, 250, 'mm')
  const sandFilled = question.sandFilled === true
  const crackL = (lengthM * widthMm * depthMm) / 1000
  const resinL = sandFilled ? crackL * fillFactors.sandVoids : crackL
  const open = question.floating === true && widthMm > fillFactors.floatingWiderThanMm
  const lossFactor = open ? fillFactors.floatingLoss : fillFactors.absorption
  const topUpFactor = rounds(question.topUps) > 0 ? fillFactors.topUps : 1
  const orderL = resinL * lossFactor * topUpFactor * fillFactors.potWaste
  return {
    crackL,
    resinL,
    sandKg: sandFilled ? crackL * fillFactors.sandKgPerL : 0,
    lossFactor,
    topUpFactor,
    orderL,
    how: [
      `${shown(lengthM)} m · ${shown(widthMm)} mm · ${shown(depthMm)} mm / 1000 = ${shown(crackL)} L`,
      ...(sandFilled ? [`sand leaves 40 % of it to the resin: ${shown(resinL)} L`] : []),
      `× ${lossFactor} ${open ? 'lost into the insulation' : 'soaked up and run away'}`,
      ...(topUpFactor > 1 ? [`× ${topUpFactor} topped up`] : []),
      `× ${fillFactors.potWaste} left in the pot = ${shown(orderL)} L`,
    ].join('; '),
  }
}

function rounds(topUps: boolean | number | undefined): number {
  if (topUps === undefined || topUps === true) return 1
  return topUps === false ? 0 : requireNumber('topUps', topUps, 0, 20, 'rounds')
}

/** Defaults of a penetrating resin; a trial on the floor replaces them. Our judgement. */
export const consolidantDefaults = {
  porosity: 0.22,
  /** Share of the pores that the resin fills. */
  fill: 0.6,
  kgPerL: 1.1,
  waste: 1.1,
  /** What one flooding reaches in screed of open and of closed texture [mm]. */
  openPassMm: 5,
  closedPassMm: 3,
  /** The most that repeated flooding has been seen to reach [mm]. */
  deepestMm: 15,
} as const

/**
 * Returns the consolidant for one square metre, without waste [kg/m²].
 *
 * Depth [mm] · porosity · share of the pores filled · density [kg/L].
 *
 * @throws InputError naming the field.
 * @provenance our judgement; a trial of half a square metre overrides it
 */
export function consolidantKgPerM2({
  depthMm,
  porosity = consolidantDefaults.porosity,
  fill = consolidantDefaults.fill,
  kgPerL = consolidantDefaults.kgPerL,
}: {
  depthMm: number
  porosity?: number
  fill?: number
  kgPerL?: number
}): number {
  requireNumber('depthMm', depthMm, 0, 250, 'mm')
  requireNumber('porosity', porosity, 0, 0.6)
  requireNumber('fill', fill, 0, 1)
  requireNumber('kgPerL', kgPerL, 0.5, 2, 'kg/L')
  return depthMm * porosity * fill * kgPerL
}

export interface ConsolidantQuestion {
  /** 0 to 100 000 [m²]. */
  areaM2: number
  /** Depth to be reached; left out, what the passes reach in this texture [mm]. */
  depthMm?: number
  openTexture?: boolean
  /** Floodings, 1 to 10; 1 unless said. */
  passes?: number
  porosity?: number
  fill?: number
}

/**
 * Returns the litres of consolidant to order, 10 % waste included.
 *
 * Without a depth, it is what the passes reach: 5 mm each in open texture, 3 mm in closed, 15 mm at most.
 *
 * @throws InputError naming the field.
 * @accuracy the reach of a pass is a guess until a core of the trial shows it.
 * @provenance our judgement
 */
export function consolidantL(question: ConsolidantQuestion): number {
  const areaM2 = requireNumber('areaM2', question.areaM2, 0, 100_000, 'm²')
  const passes = requireNumber('passes', question.passes ?? 1, 1, 10, 'passes')
  const { openPassMm, closedPassMm, deepestMm, kgPerL, waste } = consolidantDefaults
  const reached = Math.min(deepestMm, passes * (question.openTexture === true ? openPassMm : closedPassMm))
  const kgPerM2 = consolidantKgPerM2({
    depthMm: question.depthMm ?? reached,
    porosity: question.porosity,
    fill: question.fill,
  })
  return (areaM2 * kgPerM2 * waste) / kgPerL
}

/** Density in place and loosening of broken screed. Common practice. */
export const cutOutDefaults = { kgPerM3: 2050, bulking: 1.5 } as const

export interface CutOut {
  wasteKg: number
  /** Loose in the skip [m³]. */
  looseM3: number
  newScreedKg: number
  /** Planning only, counted from the end of curing [days]. */
  newDryingDays: number
}

/**
 * Returns the waste of a cut-out, the screed that replaces it, and how long that dries by the rule of thumb.
 *
 * @param args.areaM2 area cut out, margin included, 0 to 100 000 [m²].
 * @param args.thicknessMm 10 to 300 [mm].
 * @param args.screed cement-sand unless said; it decides the break of the drying rule.
 * @throws InputError naming the field.
 * @source drying: one day a millimetre to 50 mm, two beyond (attributed to BS 8204-1), after curing.
 * @provenance common practice; drying quoted second-hand
 */
export function cutOut({
  areaM2,
  thicknessMm,
  screed = 'cement-sand',
}: {
  areaM2: number
  thicknessMm: number
  screed?: Screed
}): CutOut {
  requireNumber('areaM2', areaM2, 0, 100_000, 'm²')
  requireNumber('thicknessMm', thicknessMm, 10, 300, 'mm')
  const m3 = (areaM2 * thicknessMm) / 1000
  return {
    wasteKg: m3 * cutOutDefaults.kgPerM3,
    looseM3: m3 * cutOutDefaults.bulking,
    newScreedKg: m3 * cutOutDefaults.kgPerM3,
    newDryingDays: dryingDays({ thicknessMm, screed, rules: effectiveRules('british') }),
  }
}

/**
 * Returns the area of a square-cornered cut around a defect box: 0.2 m beyond it on each side, 0.3 m where its edge frets.
 *
 * @throws InputError naming the field.
 * @provenance common practice
 */
export function cutOutAreaM2(box: { longM: number; shortM: number; fretted?: boolean }): number {
  const longM = requireNumber('longM', box.longM, 0, 1000, 'm')
  const shortM = requireNumber('shortM', box.shortM, 0, 1000, 'm')
  if (shortM > longM)
    throw new InputError('shortM', 'shortM is greater than longM; give the long side first.')
  const margin = box.fretted === true ? 0.3 : 0.2
  return (longM + 2 * margin) * (shortM + 2 * margin)
}

function shown(value: number): number {
  return Math.round(value * 1000) / 1000
}
