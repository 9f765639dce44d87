import { Textarea, TextInput } from '@mantine/core'
import { calendarDayText } from '../site-time.ts'
import { BoxLabel } from './box-label.tsx'
import { boxId, type FieldProps } from './field-props.ts'
import { useForm } from './form-context.tsx'

export function TextBox({ path, field, value, onChange }: FieldProps) {
  const { formId, errors, onTouched } = useForm()
  const common = {
    id: boxId(formId, path),
    label: <BoxLabel field={field} />,
    description: field.help,
    error: errors[path],
    value: typeof value === 'string' ? value : '',
    onBlur: () => onTouched(path),
  }
  if (field.input === 'long text') {
    return (
      <Textarea {...common} autosize minRows={2} onChange={(event) => onChange(event.currentTarget.value)} />
    )
  }
  return (
    <TextInput {...common} autoComplete="off" onChange={(event) => onChange(event.currentTarget.value)} />
  )
}

export function DayBox({ path, field, value, onChange }: FieldProps) {
  const { formId, errors, onTouched } = useForm()
  return (
    <TextInput
      id={boxId(formId, path)}
      type="date"
      label={<BoxLabel field={field} />}
      description={typeof value === 'string' && value !== '' ? calendarDayText(value) : field.help}
      error={errors[path]}
      value={typeof value === 'string' ? value : ''}
      onChange={(event) => onChange(event.currentTarget.value)}
      onBlur={() => onTouched(path)}
    />
  )
}
