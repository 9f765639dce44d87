import type { Why } from '../why.ts'
import { type AgeMethod, type AgeOptions, equivalentAgeDays } from './equivalent-age.ts'
import { type FrostQuestion, frostCheck } from './frost.ts'
import { maturityCh, maturityOf } from './maturity.ts'
import { type CementClass, slownessOf, strengthRatio } from './strength-gain.ts'
import { defaultMaxGapHours, type TemperatureReading } from './temperature-series.ts'

/** The maturity with what went into it; null when a gap makes it unknown. */
export function whyMaturity(
  series: readonly TemperatureReading[],
  datumC = -10,
  maxGapHours = defaultMaxGapHours,
): Why {
  const { provenCh, unknownHours } = maturityOf(series, datumC, maxGapHours)
  const temps = series.map(({ tempC }) => tempC)
  return {
    what: 'Maturity',
    value: maturityCh(series, datumC, { maxGapHours }),
    unit: '°C·h',
    inputs: [
      { name: 'Temperatures in the screed', value: series.length, unit: 'readings' },
      { name: 'Coldest', value: lowest(temps), unit: '°C' },
      { name: 'Datum', value: datumC, unit: '°C' },
      { name: 'Proven by the measured hours', value: provenCh, unit: '°C·h' },
      { name: 'Not measured', value: unknownHours, unit: 'h' },
    ],
    formula: 'Σ (temperature − datum) · hours; hours below 0 °C count as nothing',
    source: 'Nurse 1949 and Saul 1951; ASTM C1074',
    provenance: 'from memory',
  }
}

const methodWords: Readonly<Record<AgeMethod, string>> = {
  'ec2-b10': 'Σ exp(−(4000/(273 + T) − 13.65)) · days',
  fhp: 'Σ exp(−E/R · (1/(273 + T) − 1/293)) · days, E = 33.5 + 1.47 · (20 − T) kJ/mol below 20 °C',
  'nurse-saul': 'Σ (T − datum)/(20 − datum) · days',
}

/** The strength on the equivalent age with what went into it; null when a gap makes it unknown. */
export function whyStrength(args: {
  series: readonly TemperatureReading[]
  method: AgeMethod
  cementClass: CementClass
  fcm28MPa: number
  options?: AgeOptions
}): Why {
  const age = equivalentAgeDays(args.series, args.method, args.options)
  return {
    what: 'Mean strength',
    value: age === null ? null : args.fcm28MPa * strengthRatio(age, args.cementClass),
    unit: 'N/mm²',
    inputs: [
      { name: 'Mean strength at 28 days', value: args.fcm28MPa, unit: 'N/mm²' },
      { name: `Cement class ${args.cementClass}, s`, value: slownessOf(args.cementClass), unit: '–' },
      { name: 'Equivalent age', value: age, unit: 'days at 20 °C' },
      { name: 'Temperatures in the screed', value: args.series.length, unit: 'readings' },
    ],
    formula: `strength at 28 days · exp(s · [1 − √(28/age)]); age = ${methodWords[args.method]}`,
    source: 'EN 1992-1-1 3.1.2 (3.2) and Annex B (B.10); Freiesleben Hansen & Pedersen 1977',
    provenance: 'from memory',
  }
}

/** The frost verdict with what went into it. */
export function whyFrost(question: FrostQuestion): Why {
  const answer = frostCheck(question)
  const shown = (at: number | null) => (at === null ? null : new Date(at).toISOString())
  return {
    what: 'Frost',
    value: answer.verdict,
    unit: '',
    inputs: [
      { name: 'Coldest in the screed', value: lowest(question.series.map(({ tempC }) => tempC)), unit: '°C' },
      { name: 'Age that counts as safe', value: answer.requiredAgeDays, unit: 'days at 20 °C' },
      { name: 'Age reached', value: answer.reachedAgeDays, unit: 'days at 20 °C' },
      { name: 'Safe from', value: shown(answer.safeAt), unit: 'UTC' },
      { name: 'First frozen', value: shown(answer.firstFreezeAt), unit: 'UTC' },
      { name: 'Strength when first frozen', value: answer.strengthAtFirstFreezeMPa, unit: 'N/mm²' },
      { name: 'Not measured from', value: shown(answer.unknownFrom), unit: 'UTC' },
    ],
    formula: `safe when the equivalent age (${question.method ?? 'fhp'}) reaches ${question.earlyAgeFactor ?? 2} times the age at which the mean strength is the frost-safe one`,
    source: 'EN 1992-1-1 3.1.2 (3.2); threshold EN 13670 8.5; the factor on the age is our judgement',
    provenance: 'from memory',
  }
}

function lowest(temps: readonly number[]): number | null {
  return temps.length === 0 ? null : temps.reduce((low, temp) => Math.min(low, temp))
}
