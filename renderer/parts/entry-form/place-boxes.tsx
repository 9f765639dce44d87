import { Select } from '@mantine/core'
import { BoxLabel } from './box-label.tsx'
import { boxId, type FieldProps } from './field-props.ts'
import { useForm } from './form-context.tsx'

/** The zones that this machine knows; the site's own may differ from the machine's. */
export function TimeZoneBox(props: FieldProps) {
  return <ListedText {...props} listed={Intl.supportedValuesOf('timeZone')} />
}

export function CurrencyBox(props: FieldProps) {
  return <ListedText {...props} listed={Intl.supportedValuesOf('currency')} />
}

function ListedText({ path, field, value, onChange, listed }: FieldProps & { listed: string[] }) {
  const { formId, errors, onTouched } = useForm()
  const picked = typeof value === 'string' && value !== '' ? value : null
  const data = picked === null || listed.includes(picked) ? listed : [picked, ...listed]
  return (
    <Select
      id={boxId(formId, path)}
      label={<BoxLabel field={field} />}
      description={field.help}
      error={errors[path]}
      data={data}
      limit={60}
      searchable
      value={picked}
      onChange={(next) => {
        onChange(next ?? '')
        onTouched(path)
      }}
    />
  )
}
