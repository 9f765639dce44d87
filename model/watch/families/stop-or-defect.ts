import type { BayFacts } from '../facts/index.ts'
import { isLaid } from '../facts/pour.ts'
import type { Raised } from '../rule.ts'

/** STOP while it can still be put right; once the bay is laid, a non-conformance to answer. */
export function stopOrDefect(facts: BayFacts): Pick<Raised, 'severity' | 'nonconformance'> {
  return isLaid(facts) ? { severity: 'act', nonconformance: true } : { severity: 'stop' }
}
