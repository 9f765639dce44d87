import { symptoms } from '#model/record/words.ts'
import { ChoiceBox } from './choice-box.tsx'
import type { FieldProps } from './field-props.ts'

/** The record keeps the code; people choose what they see. */
export function SymptomBox(props: FieldProps) {
  return <ChoiceBox {...props} field={{ ...props.field, help: undefined, options: symptoms }} />
}
