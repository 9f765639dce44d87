import { zoneClock } from '../imports/zone-clock.ts'
import type { CameraNotes } from './exif.ts'

const written = /^(\d{4}):(\d\d):(\d\d) (\d\d):(\d\d):(\d\d)$/
const offsetWritten = /^([+-])(\d\d):(\d\d)$/
const earliest = Date.UTC(2000, 0)

/**
 * When a camera says a photo was taken [ISO 8601]; null when it does not say, or when its clock was plainly wrong: before
 * 2000, or later than now. Without an offset its clock is taken for the clock of the site; in the hour that happened
 * twice, for the first time.
 */
export function momentTaken({ takenAt, offset }: CameraNotes, timeZone: string, now: number): string | null {
  const parts = written
    .exec(takenAt ?? '')
    ?.slice(1)
    .map(Number)
  if (parts === undefined) return null
  const [year, month, day, hour, minute, second] = parts as [number, number, number, number, number, number]
  const wall = Date.UTC(year, month - 1, day, hour, minute, second)
  if (new Date(wall).getUTCDate() !== day) return null
  const at = instantOfWall(wall, offset, timeZone)
  return at === null || at < earliest || at > now ? null : new Date(at).toISOString()
}

function instantOfWall(wall: number, offset: string | null, timeZone: string): number | null {
  const stated = offsetWritten.exec(offset ?? '')
  if (stated !== null) {
    const minutes = Number(stated[2]) * 60 + Number(stated[3])
    return wall - (stated[1] === '-' ? -minutes : minutes) * 60_000
  }
  const meaning = zoneClock(timeZone).meaningOf(wall)
  if (meaning.kind === 'one') return meaning.at
  return meaning.kind === 'twice' ? meaning.first : null
}
