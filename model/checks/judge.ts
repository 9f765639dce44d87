import { type CheckResult, type Finding, keepsLimit, type Limit, type Verdict } from '../rules/limit.ts'

/** A result with remarks that do not decide it: practice and judgement, which somebody should answer. */
export interface CautionedResult extends CheckResult {
  cautions: Finding[]
}

/** True when a finding has a number, and the number does not keep its limit. */
export function breaks({ value, limit }: Finding): boolean {
  return typeof value === 'number' && limit !== null && !keepsLimit(value, limit)
}

/** Fail when any finding breaks its limit; not known when none does but a value that a limit asks for is missing. */
export function judge(findings: readonly Finding[]): Verdict {
  if (findings.some(breaks)) return 'fail'
  return findings.length === 0 || findings.some(({ value, limit }) => value === null && limit !== null)
    ? 'not known'
    : 'pass'
}

/** The same limit with another value, for a limit that is worked out from a rule. */
export function withValue(limit: Limit, value: number, operator = limit.operator, unit = limit.unit): Limit {
  return { ...limit, value, operator, unit }
}
