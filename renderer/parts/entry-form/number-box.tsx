import { Button, TextInput } from '@mantine/core'
import { words } from '../../app/words.ts'
import { numberText } from '../number-text.ts'
import { BoxLabel } from './box-label.tsx'
import classes from './entry-form.module.css'
import { boxId, type FieldProps } from './field-props.ts'
import { useForm } from './form-context.tsx'
import { RangeQuestionBox } from './range-question.tsx'

/** A number with its unit and its usual range; comma or point, as people type. */
export function NumberBox({ path, field, value, onChange, quick }: FieldProps) {
  const { formId, errors, onTouched } = useForm()
  const [least, most] = field.soft ?? field.hard ?? []
  const say = field.soft === undefined ? words.form.allowed : words.form.usual
  // "1 to 100 000" helps nobody.
  const tells = least !== undefined && most !== undefined && most - least < 10_000
  const range = !tells ? null : say(numberText(least), numberText(most))
  const hint = [field.help, range].filter(Boolean).join('; ')
  const unit = field.unit ?? ''
  return (
    <div>
      <TextInput
        id={boxId(formId, path)}
        label={<BoxLabel field={field} />}
        description={hint === '' ? undefined : hint}
        error={errors[path]}
        inputMode="decimal"
        autoComplete="off"
        classNames={{ input: classes.number, section: classes.unit }}
        rightSection={unit === '' ? undefined : unit}
        rightSectionWidth={unit === '' ? undefined : `${Math.max(2.5, unit.length * 0.62 + 1.2)}rem`}
        rightSectionPointerEvents="none"
        value={typeof value === 'string' ? value : ''}
        onChange={(event) => onChange(event.currentTarget.value)}
        onBlur={() => onTouched(path)}
      />
      {quick !== undefined && (
        <div className={classes.quick}>
          {quick.map((one) => (
            <Button key={one} variant="default" onClick={() => onChange(String(one))}>
              {numberText(one)} {unit}
            </Button>
          ))}
        </div>
      )}
      <RangeQuestionBox path={path} />
    </div>
  )
}
