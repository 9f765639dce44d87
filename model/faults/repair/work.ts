import { crackWidths } from '../crack-widths.ts'
import { consolidantDefaults, consolidantKgPerM2, cutOut, cutOutAreaM2, fillSteps } from '../quantities.ts'
import { illustrativeWords } from '../rates.ts'
import type { RateItem, RepairOptionId } from '../words.ts'
import type { Asked } from './ask.ts'
import type { Quantity, RateRange, RepairOption, RepairRates } from './shapes.ts'

/** What a repair takes: quantities, works cost, days. */
export interface Work {
  quantities: Quantity[]
  /** Null while a quantity that it needs is not known. */
  cost: RepairOption['cost']
  daysLost: RepairOption['daysLost']
}

/** Areas that a crew does in a day. Our judgement [m²/day]. */
const dailyM2 = { grind: 60, consolidate: 40, relay: 20 } as const
/** Curing and testing before a new screed starts to dry and can be tested. Common practice [days]. */
const newScreed = { curingDays: 7, testDays: 3 } as const
/** How much longer drying takes in a poor room, and work with hitches. Our judgement. */
const slow = { drying: 1.25, work: 1.5 } as const
/** A tie every 250 mm. Common practice. */
const tieEveryM = 0.25
const skimKgPerM2Mm = 1.7
const grindingKgPerM2Mm = 2
const blindingSandKgPerM = 0.5

const unknownWork: Work = { quantities: [], cost: null, daysLost: null }

type Line = [item: RateItem, amount: number | RateRange]

/** Returns what each option takes, where the extent is known. */
export function workOf(option: RepairOptionId, asked: Asked, rates: RepairRates): Work {
  switch (option) {
    case 'leave':
      return {
        quantities: [],
        cost: { low: 0, high: 0, assumptions: [] },
        daysLost: { p50: 0, p90: 0, how: 'Nothing is done.' },
      }
    case 'remove skin':
      return skinWork(asked, rates)
    case 'fill':
      return fillWork(asked, rates)
    case 'consolidate':
      return consolidantWork(asked, rates)
    case 'patch':
      return patchWork(asked, rates)
    case 'replace':
      return newScreedWork(asked, rates, asked.question.extent.bayAreaM2, true)
    case 'turn into joint':
      return jointWork(asked, rates)
  }
}

/** The cost of laying the whole bay new: what is counted for a fault that comes back when nobody said. */
export function replacementCost(asked: Asked, rates: RepairRates): RateRange {
  return newScreedWork(asked, rates, asked.question.extent.bayAreaM2, true).cost!
}

function costOf(
  lines: readonly Line[],
  rates: RepairRates,
  more: readonly string[] = [],
): RepairOption['cost'] {
  const sum = (end: 'low' | 'high') =>
    lines.reduce((total, [item, amount]) => {
      const count = typeof amount === 'number' ? amount : amount[end]
      return total + count * rates.rates[item][end]
    }, 0)
  const basis = rates.basis === 'own' ? 'Your own unit rates.' : illustrativeWords
  return { low: cents(sum('low')), high: cents(sum('high')), assumptions: [basis, ...more] }
}

function skinWork({ question: { extent } }: Asked, rates: RepairRates): Work {
  const areaM2 = extent.areaM2 ?? null
  const depthMm = extent.weakToMm ?? null
  if (areaM2 === null || depthMm === null) return unknownWork
  const passes = Math.max(1, Math.ceil(depthMm / 2))
  const workDays = Math.max(1, Math.ceil((areaM2 * passes) / dailyM2.grind))
  return {
    quantities: [
      quantity('Grinding', areaM2 * passes, 'm²', `${areaM2} m² in ${passes} passes of 2 mm`),
      quantity(
        'Grinding waste',
        areaM2 * depthMm * grindingKgPerM2Mm,
        'kg',
        `${grindingKgPerM2Mm} kg/m² for each mm`,
      ),
      quantity(
        'Re-levelling compound',
        areaM2 * depthMm * skimKgPerM2Mm,
        'kg',
        `${skimKgPerM2Mm} kg/m² for each mm`,
      ),
    ],
    cost: costOf(
      [
        ['setUp', 1],
        ['grindPerM2', areaM2 * passes],
        ['skimPerM2', areaM2],
      ],
      rates,
      ['One visit; one skim.'],
    ),
    daysLost: days(workDays, 1, 'grinding, priming and skimming, then a day to set'),
  }
}

function fillWork({ question }: Asked, rates: RepairRates): Work {
  const { extent, thicknessMm, construction } = question
  const { lengthM, widthMm } = extent
  if (lengthM === undefined || lengthM === null || widthMm === undefined || widthMm === null)
    return unknownWork
  const sandFilled = widthMm > crackWidths.sandFilledFromMm
  const steps = fillSteps({
    lengthM,
    widthMm,
    depthMm: thicknessMm,
    sandFilled,
    floating: construction === 'floating',
  })
  const tied = (extent.stepMm ?? 0) > crackWidths.stepMm
  const ties = tied ? Math.ceil(lengthM / tieEveryM) : 0
  return {
    quantities: [
      quantity('Resin to order', steps.orderL, 'L', steps.how),
      ...(sandFilled
        ? [
            quantity(
              'Dry fine sand in the crack',
              steps.sandKg,
              'kg',
              `${hundredths(steps.crackL)} L · 1.5 kg/L`,
            ),
          ]
        : []),
      quantity('Sand to blind', lengthM * blindingSandKgPerM, 'kg', `${blindingSandKgPerM} kg for each m`),
      ...(tied
        ? [quantity('Ties', ties, '', `one every ${tieEveryM * 1000} mm, half as deep as the screed`)]
        : []),
    ],
    cost: costOf(
      [
        ['setUp', 1],
        ['crackFillPerM', lengthM],
        ['tieEach', ties],
      ],
      rates,
      ['One visit.', 'The crack is as deep as the screed.'],
    ),
    daysLost: {
      p50: 2,
      p90: 3,
      how: 'A day of work and a day to cure; a third when it has to be topped up again.',
    },
  }
}

function consolidantWork({ question: { extent } }: Asked, rates: RepairRates): Work {
  const areaM2 = extent.areaM2 ?? null
  const depthMm = extent.weakToMm ?? null
  if (areaM2 === null || depthMm === null) return unknownWork
  const perM2 = consolidantKgPerM2({ depthMm })
  const kg = areaM2 * perM2 * consolidantDefaults.waste
  const workDays = Math.ceil(areaM2 / dailyM2.consolidate)
  return {
    quantities: [
      quantity(
        'Consolidant to order',
        kg,
        'kg',
        `${areaM2} m² · ${depthMm} mm · porosity 0.22 · 0.6 filled · 1.1 kg/L + 10 %; the trial overrides it`,
      ),
    ],
    cost: costOf(
      [
        ['setUp', 2],
        ['consolidantPerKg', kg],
        ['consolidatingPerM2', areaM2],
        ['blindingPerM2', areaM2],
        ['soundnessVisit', 1],
      ],
      rates,
      ['Two visits, the first for the trial.', 'One soundness test after it.'],
    ),
    daysLost: days(workDays + 1, 5, 'trial, its core and cure, then the work and a cure of two days'),
  }
}

function patchWork(asked: Asked, rates: RepairRates): Work {
  const { extent } = asked.question
  const areaM2 = asked.hollow ? (extent.hollowM2 ?? extent.areaM2 ?? null) : (extent.areaM2 ?? null)
  if (areaM2 === null || areaM2 === 0) return unknownWork
  const side = Math.sqrt(areaM2)
  const cut = Math.min(extent.bayAreaM2, cutOutAreaM2({ longM: side, shortM: side }))
  return newScreedWork(asked, rates, cut, false)
}

/** Breaking out and laying new: the whole bay or a patch of it. */
function newScreedWork(asked: Asked, rates: RepairRates, areaM2: number, whole: boolean): Work {
  const { thicknessMm, heated, screed } = asked.question
  const made = cutOut({ areaM2, thicknessMm, screed })
  const workDays = Math.max(1, Math.ceil(areaM2 / dailyM2.relay))
  const lines: Line[] = [
    ['setUp', 1],
    [heated && !whole ? 'breakOutByHandPerM2' : 'breakOutPerM2', areaM2],
    ['relayPerM2', areaM2],
    ['wastePerT', made.wasteKg / 1000],
    ['soundnessVisit', 1],
    ...(heated
      ? [whole ? (['circuitPerM2', areaM2] as Line) : (['circuitRepairEach', { low: 0, high: 1 }] as Line)]
      : []),
  ]
  const margin = whole ? 'the whole bay' : 'the fault and 0.2 m beyond it on each side, as a square'
  return {
    quantities: [
      quantity('Area cut out', areaM2, 'm²', margin),
      quantity('Waste', made.wasteKg, 'kg', `${hundredths(areaM2)} m² · ${thicknessMm} mm · 2050 kg/m³`),
      quantity('Waste, loose', made.looseM3, 'm³', 'one and a half times its volume in place'),
      quantity('New screed', made.newScreedKg, 'kg', 'as much as is cut out'),
    ],
    cost: costOf(lines, rates, [
      ...(heated
        ? [whole ? 'The heating circuit is laid new.' : 'A circuit is damaged in the dearer case.']
        : []),
      'One soundness test after it.',
    ]),
    daysLost: newScreedLost(asked, workDays, made.newDryingDays),
  }
}

/** Work, curing, drying and testing: by the forecast for this room where it was worked out, else by the rule of thumb. */
function newScreedLost({ question }: Asked, workDays: number, ruleDays: number): RepairOption['daysLost'] {
  const { thicknessMm, newScreedDays } = question
  const last = 'a forecast never releases it. A rapid binder: the maker’s figure only.'
  if (newScreedDays !== undefined && newScreedDays !== null) {
    const { p50, p90 } = newScreedDays
    return {
      p50: workDays + Math.ceil(p50) + newScreed.testDays,
      p90: Math.ceil((workDays + newScreed.testDays) * slow.work + p90),
      how: `${workDays} days of work, ${Math.ceil(p50)} to ${Math.ceil(p90)} from laying to its limit by the forecast for this room, curing among them, ${newScreed.testDays} of testing; ${last}`,
    }
  }
  const fixed = workDays + newScreed.curingDays + newScreed.testDays
  return {
    p50: fixed + ruleDays,
    p90: Math.ceil(fixed * slow.work + ruleDays * slow.drying),
    how: `${workDays} days of work, ${newScreed.curingDays} of curing, ${newScreed.testDays} of testing, ${ruleDays} of drying by the rule of thumb for ${thicknessMm} mm; ${last}`,
  }
}

function jointWork({ question: { extent } }: Asked, rates: RepairRates): Work {
  const lengthM = extent.lengthM ?? null
  if (lengthM === null) return unknownWork
  return {
    quantities: [quantity('Joint', lengthM, 'm', 'along the crack')],
    cost: costOf(
      [
        ['setUp', 1],
        ['jointPerM', lengthM],
      ],
      rates,
      ['One visit.'],
    ),
    daysLost: { p50: 1, p90: 2, how: 'A day of work.' },
  }
}

function days(workDays: number, waitDays: number, how: string): RepairOption['daysLost'] {
  const p50 = workDays + waitDays
  return {
    p50,
    p90: Math.ceil(p50 * slow.work),
    how: `${workDays} days of work and ${waitDays} of waiting: ${how}.`,
  }
}

function quantity(what: string, amount: number, unit: string, how: string): Quantity {
  return { what, amount: hundredths(amount), unit, how }
}

function hundredths(value: number): number {
  return Math.round(value * 100) / 100
}

const cents = hundredths
