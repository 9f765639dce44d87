import { createRequire } from 'node:module'

/** The part of the reference library that the tables use; it ships without types. Humidities are shares, pressures in Pa. */
interface Psychrolib {
  SI: number
  SetUnitSystem(system: number): void
  GetSatVapPres(tempC: number): number
  GetTDewPointFromRelHum(tempC: number, relativeHumidity: number): number
  GetHumRatioFromRelHum(tempC: number, relativeHumidity: number, pressurePa: number): number
  GetMoistAirVolume(tempC: number, humidityRatio: number, pressurePa: number): number
}

export const psychrolib = createRequire(import.meta.url)('psychrolib') as Psychrolib
psychrolib.SetUnitSystem(psychrolib.SI)

/** Every 2 K from −10 to 40 °C with every 5 % from 5 to 100 %. */
export const airGrid = Array.from({ length: 26 }, (_, i) => -10 + 2 * i).flatMap((tempC) =>
  Array.from({ length: 20 }, (_, j) => ({ tempC, rhPercent: 5 + 5 * j })),
)
