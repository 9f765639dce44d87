export { type DryingConditions, evaporationRate, evaporationRateMenzel } from './evaporation.ts'
export {
  absoluteHumidityGPerM3,
  dewPointC,
  dewPointMargin,
  saturationPressurePa,
  surfaceRhPercent,
} from './vapour.ts'
export { whyDewPointMargin, whyEvaporation } from './why.ts'
