import { Select } from '@mantine/core'
import { words } from '../../app/words.ts'
import { Segmented } from '../segmented.tsx'
import { BoxLabel } from './box-label.tsx'
import { boxId, type FieldProps } from './field-props.ts'
import { useForm } from './form-context.tsx'

const mostButtons = 5

/** Up to five answers stand side by side as big buttons; more of them go into a list that can be searched. */
export function ChoiceBox({ path, field, value, onChange }: FieldProps) {
  const { formId, errors, onTouched } = useForm()
  const options = field.options ?? {}
  const picked = typeof value === 'string' && value !== '' ? value : null
  const choose = (next: string) => {
    onChange(next)
    onTouched(path)
  }
  if (Object.keys(options).length <= mostButtons) {
    return (
      <div id={boxId(formId, path)} tabIndex={-1}>
        <Segmented
          label={field.label}
          help={field.help}
          options={options}
          value={picked}
          onChange={choose}
          error={errors[path]}
          required={field.required}
        />
      </div>
    )
  }
  return (
    <Select
      id={boxId(formId, path)}
      label={<BoxLabel field={field} />}
      description={field.help}
      error={errors[path]}
      placeholder={words.form.choose}
      data={Object.entries(options).map(([stored, label]) => ({ value: stored, label }))}
      value={picked}
      clearable={!field.required}
      searchable
      maxDropdownHeight={420}
      onChange={(next) => choose(next ?? '')}
    />
  )
}

export function YesNoBox({ path, field, value, onChange }: FieldProps) {
  const { formId, errors, onTouched } = useForm()
  return (
    <div id={boxId(formId, path)} tabIndex={-1}>
      <Segmented
        label={field.label}
        help={field.help}
        options={{ yes: words.form.yes, no: words.form.no }}
        value={typeof value === 'boolean' ? (value ? 'yes' : 'no') : null}
        onChange={(next) => {
          onChange(next === 'yes')
          onTouched(path)
        }}
        error={errors[path]}
        required={field.required}
      />
    </div>
  )
}
