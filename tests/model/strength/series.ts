import type { TemperatureReading } from '#model/strength/index.ts'

export const hour = 3_600_000
export const midnight = Date.parse('2026-11-24T00:00:00+00:00')

/** Hourly readings that hold each temperature for its hours; a change is a step. */
export function held(
  parts: readonly (readonly [tempC: number, hours: number])[],
  start = midnight,
): TemperatureReading[] {
  let at = start
  return parts.flatMap(([tempC, hours]) => {
    const readings = Array.from({ length: hours + 1 }, (_, i) => ({ at: at + i * hour, tempC }))
    at += hours * hour
    return readings
  })
}
