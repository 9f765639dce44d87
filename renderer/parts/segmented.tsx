import { type ReactNode, useId } from 'react'
import { words } from '../app/words.ts'
import classes from './segmented.module.css'

interface SegmentedProps {
  label: string
  hideLabel?: boolean
  help?: ReactNode
  /** Stored value → words on the button. */
  options: Readonly<Record<string, string>>
  value: string | null
  onChange: (value: string) => void
  error?: string
  required?: boolean
}

/** A choice among few as big buttons: real radio buttons, so that arrows, labels and screen readers work. */
export function Segmented({
  label,
  hideLabel,
  help,
  options,
  value,
  onChange,
  error,
  required,
}: SegmentedProps) {
  const name = useId()
  const says = `${name}-says`
  return (
    <fieldset className={classes.set} aria-describedby={error === undefined ? undefined : says}>
      <legend className={hideLabel === true ? classes.hidden : classes.label}>
        {label}
        {required === false && <span className={classes.soft}> {words.form.optional}</span>}
      </legend>
      {help !== undefined && <p className={classes.help}>{help}</p>}
      <div className={classes.buttons} data-wrong={error !== undefined || undefined}>
        {Object.entries(options).map(([stored, word]) => (
          <label key={stored} className={classes.button}>
            <input
              type="radio"
              name={name}
              className={classes.radio}
              value={stored}
              checked={value === stored}
              onChange={() => onChange(stored)}
            />
            {word}
          </label>
        ))}
      </div>
      {error !== undefined && (
        <p id={says} className={classes.error}>
          {error}
        </p>
      )}
    </fieldset>
  )
}
