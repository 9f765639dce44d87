/** How well a number is known. Printed beside every limit; a reader must be able to tell a standard from a guess. */
export type Provenance =
  | 'published'
  | 'quoted second-hand'
  | 'from memory'
  | 'common practice'
  | 'our judgement'
  | 'company rule'

export type Operator = '<=' | '>=' | '<' | '>'

/** A limit with its unit, direction and origin. */
export interface Limit {
  value: number
  unit: string
  operator: Operator
  source: string
  edition?: string
  clause?: string
  provenance: Provenance
  /** Why a project replaced the value, when it did. */
  reason?: string
}

/** The four answers of a check. `invalid`: not done as its method demands. `not known`: something needed is missing. */
export type Verdict = 'pass' | 'fail' | 'invalid' | 'not known'

export interface Finding {
  what: string
  value: number | string | null
  limit: Limit | null
}

export interface CheckResult {
  verdict: Verdict
  findings: Finding[]
}

/** True when the value keeps the limit; a value that is not finite never does. */
export function keepsLimit(value: number, limit: Pick<Limit, 'value' | 'operator'>): boolean {
  if (!Number.isFinite(value)) return false
  switch (limit.operator) {
    case '<=':
      return value <= limit.value
    case '>=':
      return value >= limit.value
    case '<':
      return value < limit.value
    case '>':
      return value > limit.value
  }
}

/** "≤ 75 % RH": the limit as printed beside a value. */
export function limitText(limit: Limit): string {
  const sign = { '<=': '≤', '>=': '≥', '<': '<', '>': '>' }[limit.operator]
  return `${sign} ${limit.value} ${limit.unit}`.trim()
}
