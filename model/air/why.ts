import type { Why } from '../why.ts'
import { type DryingConditions, evaporationRate } from './evaporation.ts'
import { dewPointC, dewPointMargin } from './vapour.ts'

/** The evaporation rate with what went into it. */
export function whyEvaporation(conditions: DryingConditions): Why {
  return {
    what: 'Evaporation from the fresh surface',
    value: evaporationRate(conditions),
    unit: 'kg/(m²·h)',
    inputs: [
      { name: 'Surface', value: conditions.surfaceC, unit: '°C' },
      { name: 'Air', value: conditions.airC, unit: '°C' },
      { name: 'Humidity of the air', value: conditions.rhPercent, unit: '%' },
      { name: 'Air speed at half a metre', value: conditions.windKmh, unit: 'km/h' },
    ],
    formula:
      '5 · ([surface + 18]^2.5 − humidity/100 · [air + 18]^2.5) · (air speed + 4) · 10⁻⁶, and never below 0',
    source: 'Uno 1998, ACI Materials Journal 95-M34',
    provenance: 'quoted second-hand',
  }
}

/** The margin above the dew point with what went into it. */
export function whyDewPointMargin(args: { airC: number; rhPercent: number; surfaceC: number }): Why {
  return {
    what: 'Surface above the dew point',
    value: dewPointMargin(args),
    unit: 'K',
    inputs: [
      { name: 'Surface', value: args.surfaceC, unit: '°C' },
      { name: 'Air', value: args.airC, unit: '°C' },
      { name: 'Humidity of the air', value: args.rhPercent, unit: '%' },
      { name: 'Dew point of the air', value: dewPointC(args.airC, args.rhPercent), unit: '°C' },
    ],
    formula:
      'surface − dew point; the dew point from the saturation pressure 610.94 · exp(17.625 T / (243.04 + T)) Pa',
    source: 'Alduchov & Eskridge 1996, J. Appl. Meteorol. 35, 601',
    provenance: 'from memory',
  }
}
