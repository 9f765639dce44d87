import type { Field, FieldSet } from '#model/record/fields.ts'
import { type KindName, kinds } from '#model/record/kinds.ts'
import type { Names } from './handover/names.ts'
import { calendarDayText, momentText, numberText } from './site-text.ts'

interface Reading {
  names: Names
  zone: string
  /** Years are left out where they are that of this instant. */
  now: number
}

/** The fields of a kind, whatever the kind. */
export function fieldsOf(kind: KindName): FieldSet {
  return kinds[kind].fields
}

/** "Cement: 50 kg; Damp sand: 210 kg": what an entry says, in the words of its form. */
export function bodyText(kind: KindName, body: Record<string, unknown>, reading: Reading): string {
  return partsOf(fieldsOf(kind), body, reading).join('; ')
}

function partsOf(fields: FieldSet, body: Record<string, unknown>, reading: Reading): string[] {
  return Object.entries(fields).flatMap(([name, field]) => {
    const value = body[name]
    if (value === undefined || value === null) return []
    return [`${field.label}: ${valueText(field, value, reading)}`]
  })
}

/** One value in the words of its field. */
export function valueText(field: Field, value: unknown, reading: Reading): string {
  if (Array.isArray(value)) {
    const items = value.map((item) =>
      Object.entries(field.item ?? {})
        .flatMap(([name, one]) => {
          const part: unknown = (item as Record<string, unknown>)[name]
          return part === undefined ? [] : [valueText(one, part, reading)]
        })
        .join(' / '),
    )
    return items.join(', ')
  }
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  if (typeof value === 'number')
    return field.unit === undefined || field.unit === ''
      ? numberText(value)
      : `${numberText(value)} ${field.unit}`
  const text = String(value)
  switch (field.input) {
    case 'choice':
      return field.options?.[text] ?? text
    case 'instant':
      return momentText(Date.parse(text), reading.zone, reading.now)
    case 'day':
      return calendarDayText(text)
    case 'reference':
      return field.pointsAt === 'entry' ? `entry ${text.slice(-6)}` : reading.names.of(text)
    default:
      return text
  }
}
