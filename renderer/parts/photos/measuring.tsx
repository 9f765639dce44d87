import { Button, TextInput } from '@mantine/core'
import { type FormEvent, useState } from 'react'
import { readLength } from '#model/photos/scale.ts'
import { photosWords as words } from '../../app/words/photos.ts'
import { numberFromTyped, quantityText } from '../number-text.ts'
import type { Point } from './photo-surface.tsx'
import classes from './photos.module.css'
import { lineOf } from './use-photo-changes.ts'
import type { Photo } from './use-photos.ts'

export type Purpose = 'scale' | 'width'

interface MeasuringProps {
  photo: Photo
  purpose: Purpose
  points: readonly Point[]
  busy: boolean
  onScale: (line: readonly [Point, Point], lengthMm: number) => void
  onWidth: (line: readonly [Point, Point], what: string, lengthMm: number) => void
  onCancel: () => void
}

/** Two points are asked for; then the length that is known between them, or what it was that they measure. */
export function Measuring(props: MeasuringProps) {
  const { photo, purpose, points, busy, onCancel } = props
  const [typed, setTyped] = useState('')
  const [tried, setTried] = useState(false)
  const [from, to] = points
  const line = from !== undefined && to !== undefined ? ([from, to] as const) : null
  const read = line === null ? null : readLength(lineOf(line), photo.body.scale)
  const number = numberFromTyped(typed)
  const length = number.kind === 'number' && number.value > 0 && number.value <= 100_000 ? number.value : null
  const wrong = purpose === 'scale' ? length === null : typed.trim() === ''
  const save = (event: FormEvent) => {
    event.preventDefault()
    setTried(true)
    if (line === null || wrong) return
    if (purpose === 'scale') props.onScale(line, length!)
    else if (read !== null) props.onWidth(line, typed.trim(), Number(read.lengthMm.toPrecision(4)))
  }
  return (
    <form className={classes.measuring} noValidate onSubmit={save}>
      {line === null && <p role="status">{from === undefined ? words.points : words.pointsFirst}</p>}
      {line !== null && purpose === 'width' && read !== null && (
        <p className={classes.read} role="status">
          {words.reads(quantityText(read.lengthMm, 'mm', 1), quantityText(read.pixelDoubtMm, 'mm', 1))}
        </p>
      )}
      {line !== null && (
        <TextInput
          // The two points are set: what comes next is typed.
          autoFocus
          label={purpose === 'scale' ? words.knownLength : words.whatMeasured}
          inputMode={purpose === 'scale' ? 'decimal' : 'text'}
          rightSection={purpose === 'scale' ? words.known : undefined}
          value={typed}
          maxLength={200}
          error={
            tried && wrong ? (purpose === 'scale' ? words.knownWrong : words.whatMeasuredNeeded) : undefined
          }
          onChange={(event) => setTyped(event.currentTarget.value)}
        />
      )}
      <p className={classes.soft}>{words.square}</p>
      <div className={classes.row}>
        {line !== null && (
          <Button type="submit" loading={busy}>
            {words.save}
          </Button>
        )}
        <Button variant="default" onClick={onCancel}>
          {words.cancel}
        </Button>
      </div>
    </form>
  )
}
