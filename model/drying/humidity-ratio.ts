import { saturationPressurePa } from '../air/index.ts'

const PRESSURE_PA = 101_325

export interface AirState {
  airC: number
  rhPercent: number
}

/** Returns the water in air [kg per kg of dry air] at sea level. */
export function humidityRatio({ airC, rhPercent }: AirState): number {
  const vapourPa = (rhPercent / 100) * saturationPressurePa(airC)
  return (0.62198 * vapourPa) / (PRESSURE_PA - vapourPa)
}
