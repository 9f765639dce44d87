import { z } from 'zod'
import { idOf } from './ids.ts'

/**
 * A field of an entry: one description serves the check of a body, the form that asks for it and the print that
 * shows it. `hard` refuses; `soft` asks "are you sure?" and the answer is kept with the entry.
 */
export interface Field<Schema extends z.ZodType = z.ZodType> {
  schema: Schema
  label: string
  input: 'number' | 'text' | 'long text' | 'choice' | 'yes or no' | 'instant' | 'day' | 'reference' | 'list'
  required: boolean
  unit?: string
  hard?: readonly [min: number, max: number]
  soft?: readonly [min: number, max: number]
  /** For a choice: stored value → words on screen. */
  options?: Readonly<Record<string, string>>
  /** For a reference: what it points at. */
  pointsAt?: string
  /** For a list: the fields of one item. */
  item?: FieldSet
  help?: string
}

export type FieldSet = Readonly<Record<string, Field>>
export type BodyOfFields<F extends FieldSet> = z.infer<z.ZodObject<{ [K in keyof F]: F[K]['schema'] }>>

/**
 * A screen shows titles and labels of every kind and checks the body of one, and a schema is far dearer to make than
 * the words around it: each is made when it is first asked for, and kept. The parts are taken over as they are
 * described, not read: they may be a field whose own schema nobody has asked for yet.
 */
function withSchema<Parts extends object, Schema extends z.ZodType>(
  parts: Parts,
  make: () => Schema,
): Parts & { schema: Schema } {
  let made: Schema | undefined
  const get = () => {
    made ??= make()
    return made
  }
  return Object.defineProperties({} as Parts & { schema: Schema }, {
    ...Object.getOwnPropertyDescriptors(parts),
    schema: { enumerable: true, get },
  })
}

interface NumberOptions {
  hard: readonly [number, number]
  soft?: readonly [number, number]
  help?: string
  whole?: boolean
}

export function number(label: string, unit: string, options: NumberOptions): Field<z.ZodNumber> {
  const [min, max] = options.hard
  const range = `must be a number from ${min} to ${max}${unit === '' ? '' : ` ${unit}`}`
  const schema = () => {
    const plain = z.number(range).min(min, range).max(max, range)
    return options.whole === true ? plain.int(`must be a whole number from ${min} to ${max}`) : plain
  }
  const { hard, soft, help } = options
  return withSchema({ label, input: 'number', required: true, unit, hard, soft, help }, schema)
}

export function text(
  label: string,
  options: { max?: number; help?: string; long?: boolean } = {},
): Field<z.ZodString> {
  const max = options.max ?? (options.long === true ? 4000 : 200)
  const schema = () =>
    z.string('must be text').trim().min(1, 'must not be empty').max(max, `must be at most ${max} characters`)
  const input = options.long === true ? 'long text' : 'text'
  return withSchema({ label, input, required: true, help: options.help }, schema)
}

export function choice<const O extends Record<string, string>>(label: string, options: O, help?: string) {
  const values = Object.keys(options) as [keyof O & string, ...(keyof O & string)[]]
  const schema = () => z.enum(values, `must be one of: ${values.join(', ')}`)
  return withSchema({ label, input: 'choice', required: true, options, help }, schema) satisfies Field
}

export function yesNo(label: string, help?: string): Field<z.ZodBoolean> {
  const schema = () => z.boolean('must be yes or no')
  return withSchema({ label, input: 'yes or no', required: true, help }, schema)
}

const instantSchema = () =>
  z.iso.datetime({
    offset: true,
    error: 'must be a date and time with an offset, such as 2026-11-24T07:15:00+00:00',
  })
export function instant(label: string, help?: string): Field<ReturnType<typeof instantSchema>> {
  return withSchema({ label, input: 'instant', required: true, help }, instantSchema)
}

const daySchema = () => z.iso.date('must be a day such as 2026-11-24')
export function day(label: string, help?: string): Field<ReturnType<typeof daySchema>> {
  return withSchema({ label, input: 'day', required: true, help }, daySchema)
}

export function reference<const T extends string>(label: string, pointsAt: T, help?: string) {
  const schema = () => idOf(pointsAt)
  return withSchema({ label, input: 'reference', required: true, pointsAt, help }, schema) satisfies Field
}

export function listOf<F extends FieldSet>(
  label: string,
  item: F,
  options: { least?: number; most?: number; help?: string } = {},
) {
  const schema = () =>
    z
      .array(bodySchema(item))
      .min(options.least ?? 0, `needs at least ${options.least ?? 0}`)
      .max(options.most ?? 500, `takes at most ${options.most ?? 500}`)
  return withSchema(
    { label, input: 'list', required: true, item, help: options.help },
    schema,
  ) satisfies Field
}

/** The same field, which may be left out: not known, not good. */
export function optional<S extends z.ZodType>(field: Field<S>): Field<z.ZodOptional<S>> {
  return Object.assign(
    withSchema(field, () => field.schema.optional()),
    { required: false },
  )
}

/** The strict zod object of a field set: an unknown key is refused, so that a misspelt fact cannot vanish. */
export function bodySchema<F extends FieldSet>(fields: F) {
  const shape = Object.fromEntries(Object.entries(fields).map(([name, field]) => [name, field.schema])) as {
    [K in keyof F]: F[K]['schema']
  }
  return z.strictObject(shape)
}
