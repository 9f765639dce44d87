import { fillColumn, probeAt, probeReading } from '#model/drying/column.ts'
import type { Exposure } from '#model/drying/exposure.ts'
import { meanExposure, noExposure } from '#model/drying/exposure.ts'
import {
  type Ensemble,
  type GridQuestion,
  type GridRun,
  shiftedPush,
} from '#model/drying/forecast/ensemble.ts'
import { type Bay, dryFor, layBay, meanWater } from '#model/drying/march.ts'
import { probeShare } from '#model/drying/simulate.ts'
import { humidityOfWater, waterAt } from '#model/drying/tables.ts'
import { dayMs, hourMs } from '#model/time.ts'

/**
 * Runs a forecast's grid the plain way: every run from the start, 40 cells, one-hour backward Euler steps, nothing
 * shared between runs. It is what the quick grid is measured against, in time and in dates.
 * Boxes must stand a whole number of hours.
 */
export function runOneByOne(question: GridQuestion): Ensemble {
  const pastHours = Math.max(0, Math.round((question.turnMs - question.dryMs) / hourMs))
  const pastAt = Float64Array.from({ length: pastHours + 1 }, (_, i) => question.dryMs + i * hourMs)
  const days = Math.ceil((question.horizonMs - question.turnMs) / dayMs)
  const futureAt = Float64Array.from({ length: days + 1 }, (_, i) => question.turnMs + i * dayMs)
  const runs: GridRun[] = []
  for (const kappa of question.kappas) {
    for (const share of question.wetness) {
      const run: GridRun = {
        pastRh: new Float64Array(pastHours + 1),
        pastMass: new Float64Array(pastHours + 1),
        predicted: new Float64Array(question.sights.length),
        futures: [],
      }
      for (const shift of question.rhShifts)
        run.futures.push(runOne(question, kappa, share, shift, run, pastAt, futureAt))
      runs.push(run)
    }
  }
  return { pastAt, futureAt, runs }
}

function runOne(
  question: GridQuestion,
  kappa: number,
  share: number,
  shift: number,
  run: GridRun,
  pastAt: Float64Array,
  futureAt: Float64Array,
) {
  const bay = wetBay(question, kappa, share)
  const probe = probeAt(bay.column, (probeShare(question.faces) * question.thicknessMm) / 1000)
  const density = question.material.constants.densityKgM3.value
  const rh = () => 100 * probeReading(bay.column.h, probe)
  const mass = () => (100 * meanWater(bay)) / density
  const exposure = noExposure()
  for (let i = 0; i < pastAt.length; i++) {
    if (i > 0) dryFor(bay, 3600, meanExposure(question.past, pastAt[i - 1]!, pastAt[i]!, exposure), null)
    run.pastRh[i] = rh()
    run.pastMass[i] = mass()
    for (let s = 0; s < question.sights.length; s++) look(question, bay, s, pastAt[i]!, run)
  }
  const future = { rh: new Float64Array(futureAt.length), mass: new Float64Array(futureAt.length), count: 1 }
  future.rh[0] = rh()
  future.mass[0] = mass()
  while (
    future.count < futureAt.length &&
    !(
      future.rh[future.count - 1]! < question.stopRhPercent &&
      future.mass[future.count - 1]! < question.stopMassPercent
    )
  ) {
    for (let hour = 0; hour < 24; hour++) {
      const from = futureAt[future.count - 1]! + hour * hourMs
      const mean: Exposure =
        'sums' in question.future
          ? meanExposure(question.future, from, from + hourMs, exposure)
          : question.future
      dryFor(bay, 3600, { ...mean, push: shiftedPush(mean.push, mean.pushAtSaturation, shift) }, null)
    }
    future.rh[future.count] = rh()
    future.mass[future.count] = mass()
    future.count++
  }
  return future
}

function wetBay(question: GridQuestion, kappa: number, share: number): Bay {
  const bay = layBay({ ...question, kappa })
  const { table } = bay.column
  const h = humidityOfWater(
    table,
    share * waterAt(table, question.material.constants.startRhPercent.value / 100),
  )
  fillColumn(bay.column, h, waterAt(table, h))
  bay.equivalentAgeS = question.ageAtDryS
  return bay
}

function look(question: GridQuestion, bay: Bay, s: number, atMs: number, run: GridRun): void {
  const sight = question.sights[s]!
  const { column } = bay
  if (sight.kind === 'box') {
    if (Math.abs(atMs - sight.setMs) > hourMs / 2) return
    run.predicted[s] = boxAfter(question, bay, sight)
  } else if (Math.abs(atMs - sight.atMs) <= hourMs / 2) {
    if (sight.kind === 'probe')
      run.predicted[s] = 100 * probeReading(column.h, probeAt(column, sight.depthMm / 1000))
    else run.predicted[s] = (100 * meanWater(bay)) / question.material.constants.densityKgM3.value
  }
}

/** What a box set now would read when it is read, the layer below it at the temperatures recorded. */
function boxAfter(question: GridQuestion, bay: Bay, sight: { setMs: number; atMs: number }): number {
  const copy = layBay({ ...question, kappa: bay.kappa })
  copy.column.h.set(bay.column.h)
  copy.column.water.set(bay.column.water)
  copy.selfDesiccationDrop = 0
  const exposure = noExposure()
  for (let at = sight.setMs; at < sight.atMs - 1; at += hourMs) {
    meanExposure(question.past, at, at + hourMs, exposure)
    dryFor(copy, 3600, { ...exposure, pull: 0, push: 0 }, { pull: 0, push: 0 })
  }
  return 100 * copy.column.h[0]!
}
