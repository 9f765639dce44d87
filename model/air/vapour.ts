import { requireNumber } from '../errors.ts'

// e = E0·exp(A·T/(B + T)), T in °C, e in Pa: Magnus form with the coefficients of Alduchov and Eskridge.
const overWater = { e0: 610.94, a: 17.625, b: 243.04 }
const overIce = { e0: 611.21, a: 22.587, b: 273.86 }
const vapourGasConstant = 461.5
const kelvinAtZero = 273.15

export const temperatureRangeC = [-40, 70] as const

function magnusPa(tempC: number, { e0, a, b }: typeof overWater): number {
  return e0 * Math.exp((a * tempC) / (b + tempC))
}

function inverseMagnusC(pressurePa: number, { e0, a, b }: typeof overWater): number {
  const g = Math.log(pressurePa / e0)
  return (b * g) / (a - g)
}

/**
 * Returns the saturation vapour pressure: over water, and over ice where that is lower (below about 0 °C).
 *
 * Taking the lower of both curves keeps the pressure continuous and rising where they cross, 0.04 K below zero.
 *
 * @param tempC temperature, −40 to 70 [°C].
 * @returns saturation pressure [Pa].
 * @throws InputError when the temperature is not a number in range.
 * @source Alduchov & Eskridge 1996, J. Appl. Meteorol. 35, 601, improved Magnus form.
 * @accuracy within 0.25 % of ASHRAE (psychrolib) from −10 to 40 °C, and 0.9 % from −40 to 70 °C.
 * @provenance from memory; checked against psychrolib.
 */
export function saturationPressurePa(tempC: number): number {
  requireNumber('tempC', tempC, ...temperatureRangeC, '°C')
  return Math.min(magnusPa(tempC, overWater), magnusPa(tempC, overIce))
}

/**
 * Returns the temperature at which the vapour of this air condenses; below 0 °C it is the frost point.
 *
 * @param tempC air temperature, −40 to 70 [°C].
 * @param rhPercent relative humidity, 0.1 to 100 [%]; below 0 °C relative to ice.
 * @returns dew point [°C].
 * @throws InputError when a value is not a number in range.
 * @source inverse of the Magnus form, Alduchov & Eskridge 1996.
 * @accuracy within 0.03 K of ASHRAE (psychrolib) from −10 to 40 °C and 5 to 100 %.
 * @provenance from memory; checked against psychrolib.
 */
export function dewPointC(tempC: number, rhPercent: number): number {
  const pressurePa = vapourPressurePa(tempC, requireNumber('rhPercent', rhPercent, 0.1, 100, '%'))
  return Math.max(inverseMagnusC(pressurePa, overWater), inverseMagnusC(pressurePa, overIce))
}

/**
 * Returns the mass of water vapour in a cubic metre of air (ideal gas).
 *
 * @param tempC air temperature, −40 to 70 [°C].
 * @param rhPercent relative humidity, 0 to 100 [%].
 * @returns absolute humidity [g/m³].
 * @throws InputError when a value is not a number in range.
 * @source ideal gas law, specific gas constant of water vapour 461.5 J/(kg·K).
 * @accuracy as the saturation pressure.
 * @provenance published
 */
export function absoluteHumidityGPerM3(tempC: number, rhPercent: number): number {
  return (1000 * vapourPressurePa(tempC, rhPercent)) / (vapourGasConstant * (tempC + kelvinAtZero))
}

/**
 * Returns the relative humidity that the vapour of the room has at the temperature of a surface.
 *
 * @param airC air temperature, −40 to 70 [°C].
 * @param rhPercent relative humidity of the air, 0 to 100 [%].
 * @param surfaceC surface temperature, −40 to 70 [°C].
 * @returns humidity at the surface [%]; above 100 means that water condenses on it.
 * @throws InputError when a value is not a number in range.
 * @source equal vapour pressure at surface and air.
 * @provenance published
 */
export function surfaceRhPercent(args: { airC: number; rhPercent: number; surfaceC: number }): number {
  requireNumber('airC', args.airC, ...temperatureRangeC, '°C')
  requireNumber('surfaceC', args.surfaceC, ...temperatureRangeC, '°C')
  return (100 * vapourPressurePa(args.airC, args.rhPercent)) / saturationPressurePa(args.surfaceC)
}

/**
 * Returns how far a surface is above the dew point of the air; negative means that water condenses on it.
 *
 * @param airC air temperature, −40 to 70 [°C].
 * @param rhPercent relative humidity of the air, 0.1 to 100 [%].
 * @param surfaceC surface temperature, −40 to 70 [°C].
 * @returns margin [K].
 * @throws InputError when a value is not a number in range.
 * @source dew point by Alduchov & Eskridge 1996.
 * @provenance from memory; checked against psychrolib.
 */
export function dewPointMargin(args: { airC: number; rhPercent: number; surfaceC: number }): number {
  requireNumber('airC', args.airC, ...temperatureRangeC, '°C')
  requireNumber('surfaceC', args.surfaceC, ...temperatureRangeC, '°C')
  return args.surfaceC - dewPointC(args.airC, args.rhPercent)
}

function vapourPressurePa(tempC: number, rhPercent: number): number {
  return (requireNumber('rhPercent', rhPercent, 0, 100, '%') / 100) * saturationPressurePa(tempC)
}
