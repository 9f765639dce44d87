import { InputError, requireNumber } from '../errors.ts'
import { type EffectiveRules, rulesIn } from '../rules/effective.ts'
import type { CheckResult, Limit } from '../rules/limit.ts'
import { judge } from './judge.ts'

export type RegularityClass = 'SR1' | 'SR2' | 'SR3'

/**
 * Compares the gaps under a straightedge with a surface regularity class. The gap is one-sided, not plus or minus.
 *
 * @param args.gapsMm greatest gap on each line, 0 to 200 [mm].
 * @param args.straightedgeM length used; another length than the rule's makes the check invalid; 2 m when left out [m].
 * @param args.rules British with every choice at its default, unless given.
 * @throws InputError when a value is out of range or the class unknown.
 * @source BS 8204-1:2003+A1:2009 Table 5, Annex C.
 * @provenance quoted second-hand
 */
export function checkRegularity(args: {
  class: RegularityClass
  gapsMm: readonly number[]
  straightedgeM?: number
  rules?: EffectiveRules
}): CheckResult {
  const { limits } = args.rules ?? rulesIn('british')
  if (!['SR1', 'SR2', 'SR3'].includes(args.class)) {
    throw new InputError('class', `There is no class “${String(args.class)}”; choose SR1, SR2 or SR3.`)
  }
  const edge = limits['regularity.straightedgeM']
  const straightedgeM = requireNumber('straightedgeM', args.straightedgeM ?? edge.value, 0.1, 10, 'm')
  const limit = limits[`regularity.${args.class}`]
  const gaps = args.gapsMm.map((mm, i) => ({
    what: `Gap ${i + 1}`,
    value: requireNumber(`gapsMm[${i}]`, mm, 0, 200, 'mm'),
    limit,
  }))
  if (straightedgeM !== edge.value) {
    return {
      verdict: 'invalid',
      findings: [{ what: 'Straightedge', value: straightedgeM, limit: edge }, ...gaps],
    }
  }
  return { verdict: judge(gaps), findings: gaps }
}

/**
 * Compares departures from the agreed level with what is allowed, up or down.
 *
 * @param args.departuresMm measured minus agreed level, −500 to 500 [mm].
 * @param args.limitMm the project's own limit; the rule's when left out (15 mm, ordinary areas) [mm].
 * @throws InputError when a value is out of range.
 * @source BS 8204-1: up to 15 mm normally satisfactory for large areas.
 * @provenance quoted second-hand
 */
export function checkLevel(args: {
  departuresMm: readonly number[]
  limitMm?: number
  rules?: EffectiveRules
}): CheckResult {
  const rule = (args.rules ?? rulesIn('british')).limits['level.departureMm']
  const limit: Limit =
    args.limitMm === undefined
      ? rule
      : {
          value: requireNumber('limitMm', args.limitMm, 0, 200, 'mm'),
          unit: 'mm',
          operator: '<=',
          source: 'The project’s own limit',
          provenance: 'company rule',
        }
  const findings = args.departuresMm.map((mm, i) => ({
    what: `Departure ${i + 1}, up or down`,
    value: Math.abs(requireNumber(`departuresMm[${i}]`, mm, -500, 500, 'mm')),
    limit,
  }))
  return { verdict: judge(findings), findings }
}

const gaugeLengthsM = [0.1, 1, 4, 10, 15] as const
// DIN 18202 Table 3: row 3 finished floors and screeds to receive coverings, row 4 the same with a raised requirement.
const gaugeGapsMm: Readonly<Record<3 | 4, readonly number[]>> = {
  3: [2, 4, 10, 12, 15],
  4: [1, 3, 9, 12, 15],
}

/**
 * Returns the greatest gap between gauge points, by row and distance; in between it runs straight.
 *
 * @param args.row 3 finished floors, 4 raised requirement.
 * @param args.lengthM distance of the gauge points, 0.1 to 15 [m].
 * @throws InputError when the row is unknown or the length out of range.
 * @source DIN 18202 Table 3.
 * @provenance quoted second-hand
 */
export function gaugeLimit({ row, lengthM }: { row: 3 | 4; lengthM: number }): Limit {
  if (row !== 3 && row !== 4)
    throw new InputError('row', `There is no row ${String(row)} here; choose 3 or 4.`)
  requireNumber('lengthM', lengthM, 0.1, 15, 'm')
  const next = Math.max(
    1,
    gaugeLengthsM.findIndex((length) => lengthM <= length),
  )
  const [shorter, longer] = [gaugeLengthsM[next - 1]!, gaugeLengthsM[next]!]
  const [low, high] = [gaugeGapsMm[row][next - 1]!, gaugeGapsMm[row][next]!]
  const value = low + ((lengthM - shorter) / (longer - shorter)) * (high - low)
  return {
    value,
    unit: 'mm',
    operator: '<=',
    source: 'DIN 18202',
    clause: `Table 3 row ${row}`,
    provenance: 'quoted second-hand',
  }
}

/** Compares gaps between gauge points with a row of DIN 18202 Table 3. */
export function checkGauge(args: {
  row: 3 | 4
  gaps: readonly { lengthM: number; mm: number }[]
}): CheckResult {
  const findings = args.gaps.map(({ lengthM, mm }, i) => ({
    what: `Gap ${i + 1} over ${lengthM} m`,
    value: requireNumber(`gaps[${i}].mm`, mm, 0, 200, 'mm'),
    limit: gaugeLimit({ row: args.row, lengthM }),
  }))
  return { verdict: judge(findings), findings }
}
