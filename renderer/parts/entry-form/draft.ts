import type { FieldSet } from '#model/record/fields.ts'
import { clockText, exactIso, siteDay } from '../site-time.ts'

/** A day and a time as they stand in the boxes; `again` picks the second pass of an hour that a clock change repeats. */
export interface WallDraft {
  day: string
  clock: string
  again?: boolean
  /** The recorded instant, while nobody has touched the boxes. */
  exact?: string
}

/** What stands in one box of a form: as typed, not yet read. `now` moves with the clock until it is saved. */
export type DraftValue = string | boolean | WallDraft | DraftValues[] | undefined
export interface DraftValues {
  [field: string]: DraftValue
}

export function isWallDraft(value: DraftValue): value is WallDraft {
  return typeof value === 'object' && !Array.isArray(value)
}

export function wallOf(at: number, zone: string): WallDraft {
  return { day: siteDay(at, zone), clock: clockText(at, zone) }
}

/** A recorded instant in the boxes: left alone, it stays what it was to the millisecond. */
export function recordedWall(at: number, zone: string): WallDraft {
  return { ...wallOf(at, zone), exact: exactIso(at, zone) }
}

/** The boxes of a form filled from a recorded body: for a correction, and for what is carried over from last time. */
export function draftOfBody(
  fields: FieldSet,
  body: Readonly<Record<string, unknown>>,
  zone: string,
): DraftValues {
  const values: DraftValues = {}
  for (const [name, field] of Object.entries(fields)) {
    const value = body[name]
    if (value === undefined || value === null) continue
    switch (field.input) {
      case 'number':
        values[name] = String(value)
        break
      case 'yes or no':
        values[name] = value === true
        break
      case 'instant':
        values[name] = recordedWall(Date.parse(String(value)), zone)
        break
      case 'list':
        values[name] = Array.isArray(value)
          ? value.map((item: Record<string, unknown>) => draftOfBody(field.item ?? {}, item, zone))
          : []
        break
      default:
        values[name] = String(value)
    }
  }
  return values
}

/** True when nobody has put anything into the box. */
export function isEmpty(value: DraftValue): boolean {
  if (value === undefined) return true
  if (typeof value === 'string') return value.trim() === ''
  if (Array.isArray(value)) return value.length === 0
  if (isWallDraft(value)) return value.day === '' && value.clock === ''
  return false
}
