import { Select } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import type { KindName } from '#model/record/kinds.ts'
import { orpc } from '../../app/client.ts'
import { useJob } from '../../app/job.tsx'
import { words } from '../../app/words.ts'
import { momentText } from '../site-time.ts'
import { BoxLabel } from './box-label.tsx'
import { boxId, type FieldProps } from './field-props.ts'
import { useForm } from './form-context.tsx'

/** Points at something that the record already holds. */
export function ReferenceBox(props: FieldProps) {
  return props.field.pointsAt === 'entry' ? <EntryReference {...props} /> : <ThingReference {...props} />
}

function ThingReference(props: FieldProps) {
  const { outline, nameOf } = useJob()
  const things = {
    floor: outline.floors,
    zone: outline.zones,
    bay: outline.bays,
    person: outline.people,
    instrument: outline.instruments,
  }[props.field.pointsAt ?? '']
  return (
    <ReferenceSelect
      {...props}
      options={(things ?? []).map(({ id }) => ({ value: id, label: nameOf(id) }))}
    />
  )
}

/** What a reference of this name points at. */
const pointedAt: Readonly<Record<string, KindName>> = {
  defect: 'defect-found',
  diagnosis: 'cause-named',
  repair: 'repair-done',
}

/** A defect that is closed, a non-conformance that is closed: entries about the same bay. */
function EntryReference(props: FieldProps) {
  const { id, zone } = useJob()
  const { subject } = useForm()
  const kind = pointedAt[props.path] ?? 'nonconformance-raised'
  const { data } = useQuery(
    orpc.record.list.queryOptions({ input: { project: id, subject: subject ?? undefined, kinds: [kind] } }),
  )
  const options = (data?.entries ?? [])
    .filter((entry) => !entry.withdrawn)
    .map((entry) => {
      const body: Record<string, unknown> = entry.body
      return {
        value: entry.id,
        label: `${momentText(entry.happenedAt, zone)}: ${body.symptom ?? body.cause ?? body.option ?? body.rule}`,
      }
    })
  return <ReferenceSelect {...props} options={options} />
}

interface ReferenceSelectProps extends FieldProps {
  options: { value: string; label: string }[]
}

function ReferenceSelect({ path, field, value, onChange, options }: ReferenceSelectProps) {
  const { formId, errors, onTouched } = useForm()
  return (
    <Select
      id={boxId(formId, path)}
      label={<BoxLabel field={field} />}
      description={field.help}
      error={errors[path]}
      placeholder={options.length === 0 ? words.form.none : words.form.choose}
      disabled={options.length === 0}
      data={options}
      value={typeof value === 'string' && value !== '' ? value : null}
      clearable={!field.required}
      searchable={options.length > 8}
      onChange={(next) => {
        onChange(next ?? '')
        onTouched(path)
      }}
    />
  )
}
