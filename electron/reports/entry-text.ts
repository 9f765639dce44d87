import type { Field, FieldSet } from '#model/record/fields.ts'
import { type KindName, kinds } from '#model/record/kinds.ts'
import { symptoms } from '#model/record/words.ts'
import type { Names } from './handover/names.ts'
import { calendarDayText, momentText, numberText } from './site-text.ts'

interface Reading {
  names: Names
  zone: string
  /** Years are left out where they are that of this instant. */
  now: number
  /** What people call the entry that another one points at; null for one that is not at hand. */
  entryOf: (id: string) => string | null
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
    const said = name === 'symptom' ? symptomText(String(value)) : valueText(field, value, reading)
    return [`${field.label}: ${said}`]
  })
}

/** One value in the words of its field. */
export function valueText(field: Field, value: unknown, reading: Reading): string {
  if (Array.isArray(value)) {
    return value
      .map((item) => itemText(field.item ?? {}, item as Record<string, unknown>, reading))
      .join(', ')
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
      return field.pointsAt === 'entry'
        ? (reading.entryOf(text) ?? `entry ${text.slice(-6)}`)
        : reading.names.of(text)
    default:
      return text
  }
}

/** One line of a list: "71 mm (at 18.8 m, 2.1 m)" where it has a place on the plan. */
function itemText(fields: FieldSet, item: Record<string, unknown>, reading: Reading): string {
  const texts = Object.entries(fields).flatMap(([name, field]) => {
    const part = item[name]
    return part === undefined ? [] : [{ name, text: valueText(field, part, reading) }]
  })
  const isPlace = ({ name }: { name: string }) => name === 'x' || name === 'y'
  const what = texts.filter((one) => !isPlace(one)).map(({ text }) => text)
  const where = texts.filter(isPlace).map(({ text }) => text)
  const place = where.length === 0 ? [] : [`(at ${where.join(', ')})`]
  return [what.join(' / '), ...place].filter((part) => part !== '').join(' ')
}

/** The words of a symptom; an unknown code as it stands. */
export function symptomText(code: string): string {
  const words: Readonly<Record<string, string>> = symptoms
  return words[code] ?? code
}
