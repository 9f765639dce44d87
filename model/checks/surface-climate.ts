import { dewPointMargin } from '../air/vapour.ts'
import { requireNumber } from '../errors.ts'
import { type EffectiveRules, rulesIn } from '../rules/effective.ts'
import type { CheckResult, Finding } from '../rules/limit.ts'
import type { RuleSetId } from '../rules/rule-set.ts'
import type { Covering } from '../rules/words.ts'
import { judge } from './judge.ts'

/**
 * Compares the climate at the floor with what laying a covering needs.
 *
 * @param args.airC −40 to 70, or null when not measured [°C].
 * @param args.rhPercent 0.1 to 100, or null [%].
 * @param args.surfaceC −40 to 70, or null [°C].
 * @returns `not known` when one of the three was not measured and nothing measured already fails.
 * @throws InputError when a value is out of range.
 * @source climate rules in force (ISO 8502-4 dew-point rule, BS 8203, DIN 18365, SIA 253, CRI 105).
 * @provenance as each limit says
 */
export function checkSurfaceClimate(args: {
  airC: number | null
  rhPercent: number | null
  surfaceC: number | null
  covering: Covering
  ruleSet: RuleSetId | EffectiveRules
}): CheckResult {
  const { limits } = rulesIn(args.ruleSet)
  const airC = args.airC === null ? null : requireNumber('airC', args.airC, -40, 70, '°C')
  const rhPercent = args.rhPercent === null ? null : requireNumber('rhPercent', args.rhPercent, 0.1, 100, '%')
  const surfaceC = args.surfaceC === null ? null : requireNumber('surfaceC', args.surfaceC, -40, 70, '°C')
  const margin =
    airC === null || rhPercent === null || surfaceC === null
      ? null
      : dewPointMargin({ airC, rhPercent, surfaceC })
  const tiles = args.covering === 'ceramic tile' || args.covering === 'natural stone'
  const coldest = tiles ? limits['climate.tileSurfaceLeastC'] : limits['climate.surfaceLeastC']
  const findings: Finding[] = [
    { what: 'Surface above the dew point', value: margin, limit: limits['climate.dewMarginK'] },
    { what: 'Surface', value: surfaceC, limit: coldest },
    { what: 'Surface', value: surfaceC, limit: limits['climate.surfaceMostC'] },
    { what: 'Humidity of the air', value: rhPercent, limit: limits['climate.rhMost'] },
  ]
  if (!tiles) {
    findings.push(
      { what: 'Air', value: airC, limit: limits['climate.airLeastC'] },
      { what: 'Air', value: airC, limit: limits['climate.airMostC'] },
    )
  }
  return { verdict: judge(findings), findings }
}
