import type { Alert } from './alert.ts'

/** A rule that fires so often that it tells of the rule, or of how the whole job is done, and not of one bay. */
export interface TuningItem {
  rule: string
  title: string
  family: string
  /** Bays on which it fired, now or before. */
  bays: number
  of: number
  sharePercent: number
}

/** A rule that fires on more than this share is looked at. Our judgement. */
const mostPercent = 40
/** On fewer bays than this a share says nothing. Our judgement. */
const leastBays = 5

/**
 * Returns the rules that fired on more than 40 % of the bays and on at least 5 of them, the most frequent first. Alerts
 * that ended or were answered count: they fired.
 * @param alertsByBay every bay with its alerts, those without any too.
 * @provenance our judgement
 */
export function rulesToTune(alertsByBay: ReadonlyMap<string, readonly Alert[]>): TuningItem[] {
  const of = alertsByBay.size
  const fired = new Map<string, TuningItem>()
  for (const alerts of alertsByBay.values()) {
    const once = new Map(alerts.map((alert) => [alert.rule, alert]))
    for (const { rule, title, family } of once.values()) {
      const bays = (fired.get(rule)?.bays ?? 0) + 1
      fired.set(rule, { rule, title, family, bays, of, sharePercent: (100 * bays) / of })
    }
  }
  return [...fired.values()]
    .filter(({ bays, sharePercent }) => bays >= leastBays && sharePercent > mostPercent)
    .sort((a, b) => b.bays - a.bays || a.rule.localeCompare(b.rule, 'en'))
}
