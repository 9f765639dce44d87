import { requireNumber } from '../errors.ts'

/** What decides how fast a fresh surface dries. */
export interface DryingConditions {
  /** Surface of the screed, −30 to 70 [°C]. */
  surfaceC: number
  /** Air about half a metre above it, −30 to 60 [°C]. */
  airC: number
  /** Relative humidity of that air, 0 to 100 [%]. */
  rhPercent: number
  /** Air speed half a metre above the surface, 0 to 250 [km/h]. */
  windKmh: number
}

/**
 * Returns the rate at which free water evaporates from a fresh surface.
 *
 * E = 5·([Tc + 18]^2.5 − r·[Ta + 18]^2.5)·(V + 4)·10⁻⁶, the formula behind the evaporation nomograph. It holds while the
 * surface is wet; a negative result (condensation) is given as 0, and vapour below −18 °C counts as none.
 *
 * @returns evaporation rate [kg/(m²·h)], never below 0.
 * @throws InputError when a value is not a number in range.
 * @source Uno 1998, ACI Materials Journal 95-M34, 365.
 * @accuracy within 6 % of the nomograph’s worked example (30.6 °C, 26.7 °C, 50 %, 19.3 km/h: 0.24–0.25 lb/(ft²·h)).
 * @provenance quoted second-hand
 */
export function evaporationRate(conditions: DryingConditions): number {
  const { surfaceC, airC, rhPercent, windKmh } = checked(conditions)
  const leaving = Math.max(0, surfaceC + 18) ** 2.5
  const arriving = (rhPercent / 100) * Math.max(0, airC + 18) ** 2.5
  return Math.max(0, 5 * (leaving - arriving) * (windKmh + 4) * 1e-6)
}

/**
 * Returns the same rate by the older vapour-pressure formula; a cross-check, not used for alerts.
 *
 * E = 0.315·(e0 − r·ea)·(0.253 + 0.060·V), e in kPa, e = 0.61·exp(17.3·T/(237.3 + T)).
 *
 * @returns evaporation rate [kg/(m²·h)], never below 0.
 * @throws InputError when a value is not a number in range.
 * @source Menzel 1954, in SI form.
 * @accuracy within 10 % of Uno 1998 for the conditions of the check table.
 * @provenance from memory
 */
export function evaporationRateMenzel(conditions: DryingConditions): number {
  const { surfaceC, airC, rhPercent, windKmh } = checked(conditions)
  const pressureKPa = (tempC: number) => 0.61 * Math.exp((17.3 * tempC) / (237.3 + tempC))
  const driving = pressureKPa(surfaceC) - (rhPercent / 100) * pressureKPa(airC)
  return Math.max(0, 0.315 * driving * (0.253 + 0.06 * windKmh))
}

function checked(conditions: DryingConditions): DryingConditions {
  requireNumber('surfaceC', conditions.surfaceC, -30, 70, '°C')
  requireNumber('airC', conditions.airC, -30, 60, '°C')
  requireNumber('rhPercent', conditions.rhPercent, 0, 100, '%')
  requireNumber('windKmh', conditions.windKmh, 0, 250, 'km/h')
  return conditions
}
