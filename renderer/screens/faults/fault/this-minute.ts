import { nowMs } from '../../../app/clock.ts'
import { siteIso } from '../../../parts/site-time.ts'

/** This minute, as every form writes "now": what follows within the minute must not lie before it. */
export function thisMinute(zone: string): string {
  return siteIso(Math.floor(nowMs() / 60_000) * 60_000, zone)
}
