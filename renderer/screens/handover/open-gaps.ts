import type { BayGap } from '#model/contract/reports.ts'

/** The gaps that count: their time has come and nothing answers them. */
export function openGaps(gaps: readonly BayGap[]): BayGap[] {
  return gaps.filter(({ state, answered }) => state !== 'not yet' && answered === null)
}
