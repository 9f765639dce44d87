import type { Why } from '../../why.ts'
import type { Middle } from './drivers.ts'
import type { PooledPrior, Teacher } from './pool.ts'
import { type ForecastInput, HORIZON_DAYS, type Prepared } from './question.ts'
import { READING_SD } from './readings.ts'

/** Returns the answer to “why this date?” for each date of a forecast. */
export function forecastWhy(
  input: ForecastInput,
  prepared: Prepared,
  dates: { p10: string | null; p50: string | null; p90: string | null },
  notReached: number,
  middle: Middle,
): Why[] {
  const inputs: Why['inputs'] = [
    { name: 'material', value: input.material.name, unit: '' },
    { name: 'thickness', value: input.thicknessMm, unit: 'mm' },
    { name: 'drying faces', value: input.faces, unit: '' },
    { name: 'skin on the face', value: prepared.skinSdM, unit: 'm of still air' },
    { name: 'drying since', value: new Date(prepared.dryMs).toISOString(), unit: '' },
    { name: 'limit', value: input.limit.value, unit: input.limit.unit },
    { name: 'room from now on', value: prepared.futureAir.airC, unit: '°C' },
    { name: 'room from now on', value: prepared.futureAir.rhPercent, unit: '% RH' },
    { name: 'diffusivity factor learned', value: middle.kappa, unit: '-' },
    {
      name: 'diffusivity factor before any reading',
      value: Math.exp(prepared.prior.lnKappaMean),
      unit: `× ÷ ${Math.exp(prepared.prior.lnKappaSd).toFixed(2)}`,
    },
    ...taughtBy(input),
    ...prepared.sorted.usable.map((reading) => ({
      name: `${reading.method}, ${new Date(reading.atMs).toISOString()}, ±${reading.sd}`,
      value: reading.value,
      unit: READING_SD[reading.method as keyof typeof READING_SD].unit,
    })),
  ]
  const formula =
    '525 simulated bays (21 diffusivity factors × 5 start waters × 5 future humidities), weighed by how well each foretold the readings'
  const one = (what: string, value: string | number | null, unit: string): Why => ({
    what,
    value,
    unit,
    inputs,
    formula,
    source: `model of drying after Bazant and Najjar 1972; ${isPooled(input.prior) ? 'bays of one mix pooled after Gelman et al., Bayesian Data Analysis, ch. 5 (from memory); ' : ''}${input.material.caution}`,
    provenance: 'our judgement',
  })
  return [
    one('the limit is kept by this date with 1 chance in 10', dates.p10, ''),
    one('the limit is kept by this date with 5 chances in 10', dates.p50, ''),
    one('the limit is kept by this date with 9 chances in 10', dates.p90, ''),
    one(`the limit is not kept within ${HORIZON_DAYS} days`, notReached, 'probability'),
  ]
}

const isPooled = (prior: ForecastInput['prior']): prior is PooledPrior =>
  prior !== undefined && 'teachers' in prior

/** The bays of the mix that the factor was believed from, each with its share of it; or that there are none. */
function taughtBy({ prior }: ForecastInput): Why['inputs'] {
  if (!isPooled(prior)) {
    return [
      { name: 'other bays of the mix that taught it', value: 'none: the spread of the material', unit: '' },
    ]
  }
  const percent = (share: number) => `${Math.round(100 * share)} %`
  const bay = ({ name, readings, factor, lnSd, share }: Teacher) => ({
    name: `factor of bay ${name} of the same mix, ${readings} ${readings === 1 ? 'reading' : 'readings'}`,
    value: factor,
    unit: `× ÷ ${Math.exp(lnSd).toFixed(2)}, counts ${percent(share)}`,
  })
  return [
    ...prior.teachers.map(bay),
    { name: 'factor of the material', value: 1, unit: `counts ${percent(prior.materialShare)}` },
    { name: 'bays of the mix differ by', value: Math.exp(prior.spread), unit: '× ÷' },
  ]
}
