import { evaporationRate } from '#model/air/index.ts'
import { type AirLog, airTrace, nearestReading } from './air.ts'
import { minuteMs } from './time.ts'
import { type Trace, valueAt } from './trace.ts'

/** Readings further apart than this do not describe the same air. Our judgement. */
const sameMomentMs = 30 * minuteMs

/** The evaporation rate at one reading of the air, with what had to be assumed. */
export interface EvaporationPoint {
  at: number
  kgPerM2h: number
  /** Nothing was assumed. */
  measured: boolean
  /** In words, what was taken for what nobody read. With any of these a low rate proves nothing. */
  assumed: string[]
  inputs: { surfaceC: number; airC: number; rhPercent: number; windKmh: number }
  entries: string[]
}

/**
 * Returns the evaporation rate at every reading of air and humidity in [from, until].
 *
 * Inputs must belong to the same half hour. Without humidity there is no rate. Without wind it is taken as still air, which
 * gives the least it can be; without a surface temperature that of the screed stands in, then that of the air.
 *
 * @source Uno 1998, ACI Materials Journal 95-M34 (quoted second-hand)
 */
export function evaporationPoints(
  log: AirLog,
  screed: Trace,
  window: { from: number; until: number },
  maxGapMs: number,
): EvaporationPoint[] {
  const winds = airTrace(log, 'airSpeedMs')
  const surfaces = airTrace(log, 'surfaceC')
  const points: EvaporationPoint[] = []
  for (let i = 0; i < log.at.length; i++) {
    const at = log.at[i]!
    if (at < window.from || at > window.until) continue
    const airC = log.airC[i]!
    const rhPercent = log.rhPercent[i]!
    if (Number.isNaN(airC) || Number.isNaN(rhPercent)) continue
    const wind = nearestReading(winds, at, sameMomentMs)
    const surface = nearestReading(surfaces, at, sameMomentMs)
    const screedC = surface === null ? valueAt(screed, at, maxGapMs) : null
    const assumed = [
      ...(wind === null ? ['still air, because no air speed was read: the least it can be'] : []),
      ...(surface !== null
        ? []
        : [
            screedC === null
              ? 'a surface as warm as the air, because no surface temperature was read'
              : 'a surface as warm as the screed below, because no surface temperature was read',
          ]),
    ]
    const inputs = {
      surfaceC: surface?.value ?? screedC ?? airC,
      airC,
      rhPercent,
      windKmh: (wind?.value ?? 0) * 3.6,
    }
    const entries = [log.entries[log.from[i]!]!, wind?.entry, surface?.entry].filter(
      (entry, n, all): entry is string => entry !== undefined && all.indexOf(entry) === n,
    )
    points.push({
      at,
      kgPerM2h: evaporationRate(inputs),
      measured: assumed.length === 0,
      assumed,
      inputs,
      entries,
    })
  }
  return points
}
