import type { Field } from '#model/record/fields.ts'
import type { DraftValue } from './draft.ts'

export interface FieldProps {
  /** Where the value stands in the body: `cementKg`, `readings.0.at`. */
  path: string
  field: Field
  value: DraftValue
  onChange: (value: DraftValue) => void
  /** One-touch values of a number. */
  quick?: readonly number[]
}

/** The id of a box; the form's name keeps two forms on one page apart. */
export const boxId = (form: string, path: string) => `${form}-${path.replaceAll('.', '-')}`
