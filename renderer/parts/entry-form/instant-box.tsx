import { Button, TextInput } from '@mantine/core'
import { useState } from 'react'
import { nowMs, useNow } from '../../app/clock.ts'
import { words } from '../../app/words.ts'
import { Segmented } from '../segmented.tsx'
import { clockFromTyped, instantFromWall, momentText } from '../site-time.ts'
import { BoxLabel } from './box-label.tsx'
import { type DraftValue, isWallDraft, type WallDraft, wallOf } from './draft.ts'
import classes from './entry-form.module.css'
import { boxId, type FieldProps } from './field-props.ts'
import { useForm } from './form-context.tsx'

const minute = 60_000
const steps = [
  { word: words.form.tenAgo, ms: 10 * minute },
  { word: words.form.hourAgo, ms: 60 * minute },
]

/** A moment on the site's clock: one touch for now and just now, or day and time in the boxes. */
export function InstantBox({ path, field, value, onChange }: FieldProps) {
  const { formId, zone, errors, onTouched } = useForm()
  const now = useNow()
  const wall = shownWall(value, zone, now)
  const read = instantFromWall(wall.day, wall.clock, zone)
  const set = (next: DraftValue) => {
    onChange(next)
    onTouched(path)
  }
  return (
    <fieldset className={classes.instant}>
      <legend className={classes.legend}>
        <BoxLabel field={field} />
        <span className={classes.echo} aria-live="polite">
          {read !== null && read.kind !== 'skipped' && momentText(read.at, zone, now)}
          {value === 'now' && ` (${words.form.now.toLowerCase()})`}
        </span>
      </legend>
      <div className={classes.instantRow}>
        <Button variant={value === 'now' ? 'filled' : 'default'} onClick={() => set('now')}>
          {words.form.now}
        </Button>
        {(field.required ? steps : []).map(({ word, ms }) => (
          <Button key={word} variant="default" onClick={() => set(wallOf(nowMs() - ms, zone))}>
            {word}
          </Button>
        ))}
        <TextInput
          type="date"
          aria-label={`${field.label}: ${words.form.day}`}
          className={classes.dayInput}
          value={wall.day}
          onChange={(event) => onChange({ clock: wall.clock, day: event.currentTarget.value })}
          onBlur={() => onTouched(path)}
        />
        <ClockInput
          id={boxId(formId, path)}
          label={`${field.label}: ${words.form.clock}`}
          clock={wall.clock}
          onChange={(clock) => onChange({ day: wall.day || wallOf(now, zone).day, clock })}
          onDone={() => onTouched(path)}
        />
      </div>
      {read?.kind === 'twice' && (
        <Segmented
          label={words.form.again}
          options={{ first: words.form.firstPass, second: words.form.secondPass }}
          value={wall.again === true ? 'second' : 'first'}
          onChange={(pass) => onChange({ day: wall.day, clock: wall.clock, again: pass === 'second' })}
        />
      )}
      {errors[path] !== undefined && <p className={classes.error}>{errors[path]}</p>}
    </fieldset>
  )
}

interface ClockInputProps {
  id: string
  label: string
  clock: string
  onChange: (clock: string) => void
  onDone: () => void
}

/** Takes `7:15`, `715` or `7`, and puts it right as `07:15` when the hand leaves the box. */
function ClockInput({ id, label, clock, onChange, onDone }: ClockInputProps) {
  const [typed, setTyped] = useState<string | null>(null)
  return (
    <TextInput
      id={id}
      aria-label={label}
      className={classes.clockInput}
      inputMode="numeric"
      placeholder="07:15"
      autoComplete="off"
      value={typed ?? clock}
      onChange={(event) => {
        const text = event.currentTarget.value
        setTyped(text)
        onChange(clockFromTyped(text) ?? text)
      }}
      onBlur={() => {
        setTyped(null)
        onDone()
      }}
    />
  )
}

function shownWall(value: DraftValue, zone: string, now: number): WallDraft {
  if (value === 'now') return wallOf(now, zone)
  return isWallDraft(value) ? value : { day: '', clock: '' }
}
