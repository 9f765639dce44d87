import { hourMs } from '#model/time.ts'
import { InputError, requireInstant, requireNumber } from '../errors.ts'
import { type Climate, type ClimateGap, hourlyClimate } from './climate.ts'
import { type Column, probeAt, probeReading } from './column.ts'
import { exposureSeries, meanExposure, noExposure } from './exposure.ts'
import { type HeatingStep, heatedLayer, hourlyFlow, warmFor } from './heat.ts'
import { type Bay, CELLS, cureFor, dryFor, layBay, meanWater } from './march.ts'
import type { Material } from './materials.ts'
import { humidityOfWater } from './tables.ts'

export interface DryingInput {
  material: Material
  thicknessMm: number
  /** 1 on a membrane or insulation; 2 when the underside dries as well. */
  faces: 1 | 2
  climate: Climate
  /** When the bay was laid: ISO instant with offset, or epoch milliseconds. */
  startAt: string | number
  /** When the curing sheet came off; drying starts here. */
  sealedUntil: string | number
  /** A skin on the face, in metres of still air (0 bare; laitance 0.1–0.5). */
  skinSdM?: number
  endAt: string | number
  /** Stops when the pore humidity at 40 % depth (20 % with two faces) has fallen to this. */
  stopAtRhPercent?: number
  outputEvery: 'hour' | 'day'
  /** Multiplier of moisture conductivity [-]; 1 is the material's own. */
  diffusivityFactor?: number
  /** Pore humidity when the sheet comes off, if known to differ from the material's. */
  startRhPercent?: number
  /** Mean water temperature of pipes at the base; null switches them off. */
  heating?: readonly HeatingStep[]
  /** For studies of convergence: cells in the layer and hours in a step. */
  numerics?: { cells?: number; stepHours?: number }
}

export interface Profile {
  depthMm: number[]
  rhPercent: number[]
  tempC: number[]
}

/** The layer at one instant, enough to go on from. */
export interface DryingState {
  material: Material
  thicknessMm: number
  faces: 1 | 2
  diffusivityFactor: number
  at: number
  equivalentAgeS: number
  screedC: number
  /** Pore humidity of every node of the solver [-], top face first. */
  h: number[]
  waterKgM3: number[]
}

export interface DryingResult {
  /** Epoch milliseconds. */
  at: number[]
  /** At 40 % of the depth for one drying face, 20 % for two: where the reading equals the later even value. */
  rhAtFortyPercent: number[]
  /** What the layer would come to if it were sealed and left: the humidity that holds its mean water. */
  rhMean: number[]
  evaporatedKgPerM2: number[]
  /** Evaporable water as a share of dry mass (105 °C oven; 40 °C for calcium sulfate). */
  massPercent: number[]
  boundKgPerM2: number[]
  screedTopC: number[]
  screedBaseC: number[]
  /** When `stopAtRhPercent` was reached; null when it was not, or was not asked. */
  reachedAt: number | null
  /** Water at the start less evaporated, bound and left [kg/m²]: rounding only. */
  balanceErrorKgPerM2: number
  gaps: ClimateGap[]
  /** Returns the profile at an instant inside the run, between the two nearest outputs. */
  profile: (at: string | number) => Profile
  /** Returns the state at the output nearest to an instant, for `boxReading`. */
  state: (at: string | number) => DryingState
}

/** The part of the depth where a probe reads the later even value (ASTM F2170). */
export const probeShare = (faces: 1 | 2): number => (faces === 1 ? 0.4 : 0.2)

/** Throws InputError naming the field unless the layer can be simulated. */
export function requireLayer(layer: {
  material: Material
  thicknessMm: number
  faces: 1 | 2
  skinSdM?: number
}): void {
  if (layer.material?.constants === undefined)
    throw new InputError('material', 'material is missing; choose one of `materials`.')
  requireNumber('thicknessMm', layer.thicknessMm, 10, 300, 'mm')
  if (layer.faces !== 1 && layer.faces !== 2)
    throw new InputError('faces', `faces is ${JSON.stringify(layer.faces)}; it must be 1 or 2.`)
  if (layer.skinSdM !== undefined) requireNumber('skinSdM', layer.skinSdM, 0, 100, 'm')
}

interface Snapshot {
  at: number
  h: Float64Array
  water: Float64Array
  tempC: Float64Array | number
  equivalentAgeS: number
}

/**
 * Returns how a layer dries hour by hour.
 * Water moves by pore humidity in a conductivity that falls as the pores empty; the face gives off vapour by
 * difference of vapour pressure, so warm damp air over a cold bay wets it. Finite volumes, backward Euler, Newton;
 * the Kirchhoff potential makes the flux between cells exact, so mass closes to rounding. Under the sheet nothing
 * moves; the start humidity is that of the end of curing. Valid 10–300 mm, -10–60 °C; not validated on a real screed.
 * @errors InputError naming the field
 * @source Bazant and Najjar 1972, Mater. Constr. 5:3; faces as EN 15026
 * @accuracy numerics within 0.1 % RH of the exact series and 0.03 % RH of an independent solver at 40 % depth; the face
 * itself is worse on the day it is uncovered
 * @provenance equations quoted second-hand, constants from memory or our judgement: see `materials`
 */
export function simulateDrying(input: DryingInput): DryingResult {
  requireLayer(input)
  const startMs = requireInstant('startAt', input.startAt)
  const dryMs = requireInstant('sealedUntil', input.sealedUntil)
  const endMs = requireInstant('endAt', input.endAt)
  if (!(dryMs >= startMs))
    throw new InputError(
      'sealedUntil',
      'sealedUntil is before startAt; a bay is laid before its sheet comes off.',
    )
  if (!(endMs > startMs)) throw new InputError('endAt', 'endAt must be after startAt.')
  if (endMs - startMs > 20 * 366 * 24 * hourMs)
    throw new InputError('endAt', 'endAt is more than 20 years after startAt.')
  if (input.outputEvery !== 'hour' && input.outputEvery !== 'day')
    throw new InputError('outputEvery', 'outputEvery must be hour or day.')
  if (input.stopAtRhPercent !== undefined)
    requireNumber('stopAtRhPercent', input.stopAtRhPercent, 10, 100, '% RH')
  const kappa =
    input.diffusivityFactor === undefined
      ? 1
      : requireNumber('diffusivityFactor', input.diffusivityFactor, 0.01, 100)
  if (input.startRhPercent !== undefined)
    requireNumber('startRhPercent', input.startRhPercent, 20, 100, '% RH')
  const cells =
    input.numerics?.cells === undefined
      ? CELLS
      : requireNumber('numerics.cells', input.numerics.cells, 4, 1000)
  const stepMs =
    (input.numerics?.stepHours === undefined
      ? 1
      : requireNumber('numerics.stepHours', input.numerics.stepHours, 1 / 60, 24)) * hourMs

  if (input.heating !== undefined && input.heating.length > 0 && input.faces === 2) {
    throw new InputError('heating', 'heating needs faces 1: the pipes lie below and only the top dries.')
  }

  const climate = hourlyClimate(input.climate, startMs, endMs)
  const series = exposureSeries(climate, input.skinSdM ?? 0)
  const bay = layBay({
    material: input.material,
    thicknessMm: input.thicknessMm,
    faces: input.faces,
    kappa,
    startRhPercent: input.startRhPercent,
    cells,
  })
  const density = input.material.constants.densityKgM3.value
  const probe = probeAt(bay.column, (probeShare(input.faces) * input.thicknessMm) / 1000)
  const startWater = meanWater(bay) * bay.column.lengthM
  const heated =
    input.heating === undefined || input.heating.length === 0
      ? null
      : heatedLayer(bay.column, input.material, climate.screedC[0]!)
  const flow = heated === null ? null : hourlyFlow(input.heating!, startMs, climate.hours)

  const out: Omit<DryingResult, 'profile' | 'state' | 'balanceErrorKgPerM2'> = {
    at: [],
    rhAtFortyPercent: [],
    rhMean: [],
    evaporatedKgPerM2: [],
    massPercent: [],
    boundKgPerM2: [],
    screedTopC: [],
    screedBaseC: [],
    reachedAt: null,
    gaps: climate.gaps,
  }
  const snapshots: Snapshot[] = []
  const write = (at: number, screedC: number) => {
    const water = meanWater(bay)
    out.at.push(at)
    out.rhAtFortyPercent.push(100 * probeReading(bay.column.h, probe))
    out.rhMean.push(100 * humidityOfWater(bay.column.table, water))
    out.evaporatedKgPerM2.push(bay.evaporatedKgM2)
    out.massPercent.push((100 * water) / density)
    out.boundKgPerM2.push(bay.boundKgM2)
    out.screedTopC.push(heated === null ? screedC : heated.tempC[0]!)
    out.screedBaseC.push(heated === null ? screedC : heated.tempC[cells]!)
    snapshots.push({
      at,
      h: bay.column.h.slice(),
      water: bay.column.water.slice(),
      tempC: heated === null ? screedC : heated.tempC.slice(),
      equivalentAgeS: bay.equivalentAgeS,
    })
  }

  const outputMs = input.outputEvery === 'hour' ? hourMs : 24 * hourMs
  const exposure = noExposure()
  write(startMs, climate.screedC[0]!)
  let now = startMs
  let nextOutput = startMs + outputMs
  let before = probeReading(bay.column.h, probe)
  const stopAt = (input.stopAtRhPercent ?? -1) / 100
  while (now < endMs - 1) {
    // A step ends at the next output, at the end of curing or at the end, whichever comes first.
    const to = Math.min(now + stepMs, endMs, nextOutput, now < dryMs ? dryMs : Number.POSITIVE_INFINITY)
    const seconds = (to - now) / 1000
    meanExposure(series, now, to, exposure)
    const hour = Math.min(climate.hours - 1, Math.floor((now - startMs) / hourMs))
    const effects =
      heated === null
        ? undefined
        : warmFor(heated, seconds, climate.airC[hour]!, flow![hour]!, bay.column, exposure)
    if (now < dryMs) cureFor(bay, seconds, exposure.hydration)
    else dryFor(bay, seconds, exposure, null, effects)
    const after = probeReading(bay.column.h, probe)
    if (now >= dryMs && out.reachedAt === null && after <= stopAt) {
      out.reachedAt = before > stopAt ? now + ((before - stopAt) / (before - after)) * (to - now) : now
    }
    before = after
    now = to
    if (now >= nextOutput - 1 || out.reachedAt !== null || now >= endMs - 1) {
      write(now, climate.screedC[hour]!)
      nextOutput = now + outputMs
    }
    if (out.reachedAt !== null) break
  }
  const left = meanWater(bay) * bay.column.lengthM
  return {
    ...out,
    balanceErrorKgPerM2: startWater - bay.evaporatedKgM2 - bay.boundKgM2 - left,
    profile: (at) => profileFrom(snapshots, bay.column, at),
    state: (at) => stateFrom(snapshots, input, bay, at),
  }
}

function profileFrom(snapshots: Snapshot[], column: Column, at: string | number): Profile {
  const atMs = requireInstant('at', at)
  const first = snapshots[0]!
  const last = snapshots.at(-1)!
  if (!(atMs >= first.at && atMs <= last.at)) {
    throw new InputError(
      'at',
      `at is outside the run, which goes from ${new Date(first.at).toISOString()} to ${new Date(last.at).toISOString()}.`,
    )
  }
  const next = Math.max(
    1,
    snapshots.findIndex((snapshot) => snapshot.at >= atMs),
  )
  const b = snapshots[Math.min(next, snapshots.length - 1)]!
  const a = snapshots[Math.min(next, snapshots.length - 1) - 1] ?? b
  const share = b.at === a.at ? 1 : (atMs - a.at) / (b.at - a.at)
  const nodes = column.cells + 2
  const temp = (snapshot: Snapshot, i: number) =>
    typeof snapshot.tempC === 'number' ? snapshot.tempC : snapshot.tempC[i]!
  const mix = (of: (snapshot: Snapshot, i: number) => number) =>
    Array.from({ length: nodes }, (_, i) => of(a, i) + share * (of(b, i) - of(a, i)))
  return {
    depthMm: Array.from(column.depthM, (depth) => depth * 1000),
    rhPercent: mix((snapshot, i) => 100 * snapshot.h[i]!),
    tempC: mix(temp),
  }
}

function stateFrom(snapshots: Snapshot[], input: DryingInput, bay: Bay, at: string | number): DryingState {
  const atMs = requireInstant('at', at)
  const nearest = snapshots.reduce((best, snapshot) =>
    Math.abs(snapshot.at - atMs) < Math.abs(best.at - atMs) ? snapshot : best,
  )
  const temps = nearest.tempC
  return {
    material: input.material,
    thicknessMm: input.thicknessMm,
    faces: input.faces,
    diffusivityFactor: bay.kappa,
    at: nearest.at,
    equivalentAgeS: nearest.equivalentAgeS,
    screedC: typeof temps === 'number' ? temps : temps.reduce((sum, temp) => sum + temp, 0) / temps.length,
    h: Array.from(nearest.h),
    waterKgM3: Array.from(nearest.water),
  }
}

/** Puts a bay back into a state that a run has left. */
export function bayFrom(state: DryingState): Bay {
  const bay = layBay({
    material: state.material,
    thicknessMm: state.thicknessMm,
    faces: state.faces,
    kappa: state.diffusivityFactor,
    cells: state.h.length - 2,
  })
  bay.column.h.set(state.h)
  bay.column.water.set(state.waterKgM3)
  bay.equivalentAgeS = state.equivalentAgeS
  return bay
}
