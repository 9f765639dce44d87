import { ChoiceBox, YesNoBox } from './choice-box.tsx'
import type { FieldProps } from './field-props.ts'
import { InstantBox } from './instant-box.tsx'
import { ListBox } from './list-box.tsx'
import { NumberBox } from './number-box.tsx'
import { ReferenceBox } from './reference-box.tsx'
import { DayBox, TextBox } from './text-box.tsx'

const boxes = {
  number: NumberBox,
  text: TextBox,
  'long text': TextBox,
  choice: ChoiceBox,
  'yes or no': YesNoBox,
  instant: InstantBox,
  day: DayBox,
  reference: ReferenceBox,
  list: ListBox,
} as const

/** The box of any field of the record. */
export function FieldBox(props: FieldProps) {
  const Box = boxes[props.field.input]
  return <Box {...props} />
}
