import { Button, CloseButton } from '@mantine/core'
import { nowMs } from '../../app/clock.ts'
import { words } from '../../app/words.ts'
import { BoxLabel } from './box-label.tsx'
import { type DraftValue, type DraftValues, wallOf } from './draft.ts'
import classes from './entry-form.module.css'
import { FieldBox } from './field-box.tsx'
import { boxId, type FieldProps } from './field-props.ts'
import { useForm } from './form-context.tsx'

/** Several of the same: thickness points, readings of one box. A row each; the next row is one touch away. */
export function ListBox({ path, field, value, onChange }: FieldProps) {
  const { formId, errors, zone } = useForm()
  const items: DraftValues[] = Array.isArray(value) && value.length > 0 ? value : field.required ? [{}] : []
  const fields = Object.entries(field.item ?? {})
  const change = (index: number, name: string, next: DraftValue) =>
    onChange(items.map((item, i) => (i === index ? { ...item, [name]: next } : item)))
  return (
    <fieldset className={classes.list} id={boxId(formId, path)} tabIndex={-1}>
      <legend className={classes.legend}>
        <BoxLabel field={field} />
      </legend>
      {field.help !== undefined && <p className={classes.optional}>{field.help}</p>}
      <ol className={classes.items}>
        {items.map((item, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a row has no name but its place
          <li key={index} className={classes.itemRow}>
            <span className={classes.itemNumber}>{index + 1}</span>
            <div className={classes.itemFields}>
              {fields.map(([name, inner]) => (
                <FieldBox
                  key={name}
                  path={`${path}.${index}.${name}`}
                  field={inner}
                  value={item[name]}
                  onChange={(next) => change(index, name, next)}
                />
              ))}
            </div>
            <CloseButton
              size="xl"
              aria-label={words.form.removeItem(index + 1)}
              onClick={() => onChange(items.filter((_, i) => i !== index))}
            />
          </li>
        ))}
      </ol>
      <Button variant="default" onClick={() => onChange([...items, newItem(field, zone)])}>
        {words.form.addItem}
      </Button>
      {errors[path] !== undefined && <p className={classes.error}>{errors[path]}</p>}
    </fieldset>
  )
}

/** A row that is added is about now: pinned, because the row before it must not move when the next one comes. */
function newItem({ item }: FieldProps['field'], zone: string): DraftValues {
  const now = wallOf(nowMs(), zone)
  const moments = Object.entries(item ?? {}).filter(
    ([, field]) => field.input === 'instant' && field.required,
  )
  return Object.fromEntries(moments.map(([name]) => [name, now]))
}
