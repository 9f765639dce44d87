import type { Alert } from '#model/watch/alert.ts'
import { rankOf } from '#model/watch/index.ts'

/** Alerts that stand too close together to be told apart at this scale, as one pin. */
export interface Pin {
  x: number
  alerts: Alert[]
}

/**
 * Returns the pins of alerts on an axis: those whose places are nearer than `apartPx` to the first of a pin share it, the
 * most pressing first.
 * @param placeOf where an instant stands [px]; null when it is not on the axis.
 */
export function pinsOf(
  alerts: readonly Alert[],
  placeOf: (at: number) => number | null,
  apartPx: number,
): Pin[] {
  const pins: Pin[] = []
  for (const alert of alerts.toSorted((a, b) => a.since - b.since)) {
    const x = placeOf(alert.since)
    if (x === null) continue
    const last = pins.at(-1)
    if (last !== undefined && x - last.x < apartPx) last.alerts.push(alert)
    else pins.push({ x, alerts: [alert] })
  }
  return pins.map(({ x, alerts: shared }) => ({
    x,
    alerts: shared.toSorted((a, b) => rankOf(a.severity) - rankOf(b.severity)),
  }))
}
