import type { Field, FieldSet } from '#model/record/fields.ts'
import { useJob } from '../app/job.tsx'
import { words } from '../app/words.ts'
import classes from './body-list.module.css'
import { quantityText } from './number-text.ts'
import { calendarDayText, momentText } from './site-time.ts'

interface BodyListProps {
  fields: FieldSet
  body: Readonly<Record<string, unknown>>
  /** The version before: what differs from it is shown with the old value struck through. */
  before?: Readonly<Record<string, unknown>>
}

/** A body as label and value, in the order and the words of its kind. */
export function BodyList({ fields, body, before }: BodyListProps) {
  const names = Object.keys(fields).filter((name) => body[name] !== undefined || before?.[name] !== undefined)
  return (
    <dl className={classes.list}>
      {names.map((name) => (
        <div key={name} className={classes.row}>
          <dt>{fields[name]!.label}</dt>
          <dd>
            <Changed field={fields[name]!} value={body[name]} before={before} name={name} />
          </dd>
        </div>
      ))}
    </dl>
  )
}

interface ChangedProps {
  field: Field
  name: string
  value: unknown
  before?: Readonly<Record<string, unknown>>
}

function Changed({ field, name, value, before }: ChangedProps) {
  const text = useValueText()
  const now = text(field, value)
  if (before === undefined) return now
  const was = text(field, before[name])
  if (was === now) return now
  return (
    <>
      <del>{was}</del> <ins className={classes.new}>{now}</ins>
    </>
  )
}

/** A value in words: the option's label, the quantity with its unit, the moment on the site's clock. */
export function useValueText(): (field: Field, value: unknown) => string {
  const { zone, nameOf } = useJob()
  return (field, value) => valueText(field, value, zone, nameOf)
}

export function valueText(
  field: Field,
  value: unknown,
  zone: string,
  nameOf: (id: string) => string,
): string {
  if (value === undefined || value === null) return words.notKnown
  switch (field.input) {
    case 'number':
      return quantityText(Number(value), field.unit ?? '', 4)
    case 'choice':
      return field.options?.[String(value)] ?? String(value)
    case 'yes or no':
      return value === true ? words.form.yes : words.form.no
    case 'instant':
      return momentText(Date.parse(String(value)), zone)
    case 'day':
      return calendarDayText(String(value))
    case 'reference':
      return nameOf(String(value))
    case 'list': {
      const items = Array.isArray(value) ? (value as Record<string, unknown>[]) : []
      if (items.length === 0) return words.form.none
      return items.map((item) => itemText(field, item, zone, nameOf)).join('; ')
    }
    default:
      return String(value)
  }
}

function itemText(field: Field, item: Record<string, unknown>, zone: string, nameOf: (id: string) => string) {
  return Object.entries(field.item ?? {})
    .filter(([name]) => item[name] !== undefined)
    .map(([name, inner]) => valueText(inner, item[name], zone, nameOf))
    .join(', ')
}
