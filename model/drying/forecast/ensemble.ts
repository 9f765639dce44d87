import { hourMs } from '#model/time.ts'
import { fillColumn, makeColumn, probeAt, probeReading, waterKgM2 } from '../column.ts'
import { type Exposure, type ExposureSeries, meanExposure, noExposure } from '../exposure.ts'
import { type Material, tableOf } from '../materials.ts'
import { probeShare } from '../simulate.ts'
import { humidityOfWater, waterAt } from '../tables.ts'
import { makeSchedule, type Schedule, type StepPolicy, stepTimes } from './schedule.ts'
import { footprint, makeStrider, returnTo, type Strider, stride } from './stride.ts'

/** What a reading would show, as the grid predicts it. */
export type Sight =
  | { kind: 'probe'; atMs: number; depthMm: number }
  | { kind: 'box'; atMs: number; setMs: number }
  | { kind: 'mass'; atMs: number; fromMm: number; toMm: number }

/** The question the grid answers: one bay, its past and future air, what was read, how far to look. */
export interface GridQuestion {
  material: Material
  thicknessMm: number
  faces: 1 | 2
  dryMs: number
  /** Where the past ends; every future starts here. Never before `dryMs`. */
  turnMs: number
  horizonMs: number
  /** Hydration when the sheet comes off [s at 20 °C]. */
  ageAtDryS: number
  past: ExposureSeries
  future: ExposureSeries | Exposure
  sights: readonly Sight[]
  /** Multipliers of conductivity. */
  kappas: readonly number[]
  /** Shares of the water at the start: 1 is the material's own. */
  wetness: readonly number[]
  /** Shifts of the room's future humidity [% RH]. */
  rhShifts: readonly number[]
  /** Futures stop below these. */
  stopRhPercent: number
  stopMassPercent: number
}

/** How one (kappa, wetness) went, and its futures. */
export interface GridRun {
  pastRh: Float64Array
  pastMass: Float64Array
  predicted: Float64Array
  futures: { rh: Float64Array; mass: Float64Array; count: number }[]
}

/** The grid of runs, kappa-major. Times are shared by all runs. */
export interface Ensemble {
  pastAt: Float64Array
  futureAt: Float64Array
  runs: GridRun[]
}

export interface GridNumerics {
  cells: number
  growth: number
  past: StepPolicy
  future: StepPolicy
}

/** Chosen so that dates agree with 40 cells and one-hour steps within half a day; `npm run bench` measures both. */
export const GRID_NUMERICS: GridNumerics = {
  cells: 24,
  growth: 6,
  past: { firstH: 0.2, share: 0.04, longestH: 12 },
  future: { firstH: 2, share: 0.08, longestH: 24 * 7 },
}

const BOX_STEPS = 16

/** Returns a push shifted by so much room humidity, kept between 2 % and 99.5 % of saturation. */
export function shiftedPush(push: number, pushAtSaturation: number, shiftPercent: number): number {
  return Math.min(
    0.995 * pushAtSaturation,
    Math.max(0.02 * pushAtSaturation, push + (shiftPercent / 100) * pushAtSaturation),
  )
}

/** Returns every run of the grid: each past once, its futures from there, in long steps. */
export function runGrid(question: GridQuestion, numerics: GridNumerics = GRID_NUMERICS): Ensemble {
  const { material, sights } = question
  const table = tableOf(material)
  const density = material.constants.densityKgM3.value
  const finalDrop = material.constants.selfDesiccationDrop.value
  const startWater = waterAt(table, material.constants.startRhPercent.value / 100)
  const column = makeColumn(
    table,
    question.thicknessMm / 1000,
    question.faces,
    numerics.cells,
    numerics.growth,
  )
  const strider = makeStrider(column)
  const probe = probeAt(column, (probeShare(question.faces) * question.thicknessMm) / 1000)

  const events = sights.flatMap((sight) => (sight.kind === 'box' ? [sight.setMs, sight.atMs] : [sight.atMs]))
  const hasPast = question.turnMs > question.dryMs
  const pastTimes = hasPast
    ? stepTimes(question.dryMs, question.turnMs, events, numerics.past)
    : [question.dryMs]
  const past = makeSchedule(pastTimes, question.past, question.ageAtDryS, finalDrop)
  const future = makeSchedule(
    stepTimes(question.turnMs, question.horizonMs, [], numerics.future),
    question.future,
    past.equivalentAgeS,
    finalDrop,
  )
  const eyes = sights.map((sight) => sightOn(sight, question, past, column.widthM, column))

  const runs: GridRun[] = []
  for (const kappa of question.kappas) {
    for (const share of question.wetness) {
      const h = humidityOfWater(table, startWater * share)
      fillColumn(column, h, waterAt(table, h))
      strider.beforeSeconds = 0
      const run: GridRun = {
        pastRh: new Float64Array(past.steps + 1),
        pastMass: new Float64Array(past.steps + 1),
        predicted: new Float64Array(sights.length),
        futures: [],
      }
      const massPercent = () => (100 * waterKgM2(column)) / column.lengthM / density
      const look = (step: number) => {
        run.pastRh[step] = 100 * probeReading(column.h, probe)
        run.pastMass[step] = massPercent()
        for (let i = 0; i < eyes.length; i++)
          if (eyes[i]!.step === step) run.predicted[i] = eyes[i]!.read(strider, kappa, density)
      }
      look(0)
      for (let k = 0; k < past.steps; k++) {
        walk(strider, past, k, kappa, past.push[k]!)
        look(k + 1)
      }
      const turn = footprint(strider)
      for (const shift of question.rhShifts) {
        returnTo(strider, turn)
        // The air changes here, so the first step is a plain one again.
        strider.beforeSeconds = 0
        const rh = new Float64Array(future.steps + 1)
        const mass = new Float64Array(future.steps + 1)
        rh[0] = run.pastRh[past.steps]!
        mass[0] = run.pastMass[past.steps]!
        let count = 1
        while (
          count <= future.steps &&
          !(rh[count - 1]! < question.stopRhPercent && mass[count - 1]! < question.stopMassPercent)
        ) {
          const k = count - 1
          walk(strider, future, k, kappa, shiftedPush(future.push[k]!, future.pushAtSaturation[k]!, shift))
          rh[count] = 100 * probeReading(column.h, probe)
          mass[count] = massPercent()
          count++
        }
        run.futures.push({ rh, mass, count })
      }
      runs.push(run)
    }
  }
  return { pastAt: past.at, futureAt: future.at, runs }
}

function walk(strider: Strider, schedule: Schedule, k: number, kappa: number, push: number): void {
  const seconds = (schedule.at[k + 1]! - schedule.at[k]!) / 1000
  stride(strider, seconds, kappa * schedule.transport[k]!, schedule.pull[k]!, push, schedule.drop[k]!)
}

interface Eye {
  step: number
  read: (strider: Strider, kappa: number, density: number) => number
}

/** Returns at which step a reading is taken and how it is read off the column. */
function sightOn(
  sight: Sight,
  question: GridQuestion,
  past: Schedule,
  widthM: Float64Array,
  column: Strider['column'],
): Eye {
  const stepAt = (atMs: number) => past.at.findIndex((at) => Math.abs(at - atMs) <= 1)
  if (sight.kind === 'probe') {
    const probe = probeAt(column, sight.depthMm / 1000)
    return { step: stepAt(sight.atMs), read: (strider) => 100 * probeReading(strider.column.h, probe) }
  }
  if (sight.kind === 'mass') {
    const shares = cellShares(widthM, sight.fromMm / 1000, sight.toMm / 1000)
    return {
      step: stepAt(sight.atMs),
      read: (strider, _kappa, density) => {
        let sum = 0
        let whole = 0
        for (let i = 1; i < shares.length; i++) {
          sum += shares[i]! * strider.column.water[i]!
          whole += shares[i]!
        }
        return (100 * sum) / whole / density
      },
    }
  }
  const hours = (sight.atMs - sight.setMs) / hourMs
  const mean = meanExposure(question.past, sight.setMs, sight.atMs, noExposure())
  return {
    step: stepAt(sight.setMs),
    read: (strider, kappa) => {
      const mark = footprint(strider)
      strider.beforeSeconds = 0
      let done = 0
      for (let i = 1; i <= BOX_STEPS; i++) {
        const to = (i / BOX_STEPS) ** 2 * hours
        stride(strider, (to - done) * 3600, kappa * mean.transport, 0, 0, 0)
        done = to
      }
      const reading = 100 * strider.column.h[0]!
      returnTo(strider, mark)
      return reading
    },
  }
}

/** Returns how much of each cell [m] lies between two depths. */
function cellShares(widthM: Float64Array, fromM: number, toM: number): Float64Array {
  const shares = new Float64Array(widthM.length)
  let top = 0
  for (let i = 1; i < widthM.length - 1; i++) {
    const bottom = top + widthM[i]!
    shares[i] = Math.max(0, Math.min(bottom, toM) - Math.max(top, fromM))
    top = bottom
  }
  return shares
}
