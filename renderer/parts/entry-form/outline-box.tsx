import { TextInput } from '@mantine/core'
import { useState } from 'react'
import { bayShape } from '#model/movement/bay.ts'
import { useJob } from '../../app/job.tsx'
import { words } from '../../app/words.ts'
import { numberFromTyped, numberText } from '../number-text.ts'
import { OutlineDrawing } from '../outline-drawing.tsx'
import { Segmented } from '../segmented.tsx'
import type { DraftValues } from './draft.ts'
import classes from './entry-form.module.css'
import { boxId, type FieldProps } from './field-props.ts'
import { useForm } from './form-context.tsx'
import { ListBox } from './list-box.tsx'
import { cornersOf, type Rectangle, rectangleCorners, rectangleOf } from './outline.ts'

/** A bay by length and width, or corner by corner; drawn as it is typed. */
export function OutlineBox(props: FieldProps) {
  const { value, path } = props
  const { formId, errors } = useForm()
  const corners: DraftValues[] = Array.isArray(value) ? value : []
  const [chosen, setWay] = useState('sides')
  // An outline that is no rectangle, typed before or drawn on a plan, can only be told corner by corner.
  const way = corners.length > 0 && rectangleOf(corners) === null ? 'corners' : chosen
  return (
    <div className={classes.outline} id={boxId(formId, path)} tabIndex={-1}>
      <div className={classes.outlineBoxes}>
        <Segmented
          label={words.form.outline.title}
          options={{ sides: words.form.outline.sides, corners: words.form.outline.corners }}
          value={way}
          onChange={setWay}
        />
        {way === 'sides' ? <SideBoxes {...props} /> : <ListBox {...props} />}
        {way === 'sides' && errors[path] !== undefined && <p className={classes.error}>{errors[path]}</p>}
      </div>
      <Preview corners={corners} />
    </div>
  )
}

const names = ['lengthM', 'widthM', 'x', 'y'] as const

function SideBoxes({ value, onChange, path }: FieldProps) {
  const { formId, onTouched } = useForm()
  const { outline } = useJob()
  const [typedSides, setSides] = useState<Rectangle>({
    lengthM: '',
    widthM: '',
    x: numberText(freeX(outline.bays), 3),
    y: '0',
  })
  // What was drawn on a plan since stands in the boxes; what was typed stands as it was typed.
  const drawn = rectangleOf(Array.isArray(value) ? value : [])
  const typed = rectangleOf(rectangleCorners(typedSides))
  const sides = drawn === null || JSON.stringify(drawn) === JSON.stringify(typed) ? typedSides : drawn
  const set = (name: keyof Rectangle, text: string) => {
    const next = { ...sides, [name]: text }
    setSides(next)
    onChange(rectangleCorners(next))
  }
  return (
    <div className={classes.sides}>
      {names.map((name) => (
        <TextInput
          key={name}
          id={boxId(formId, `${path}.${name}`)}
          label={words.form.outline[name]}
          error={numberFromTyped(sides[name]).kind === 'not a number' ? words.form.outline.digits : undefined}
          inputMode="decimal"
          autoComplete="off"
          classNames={{ input: classes.number, section: classes.unit }}
          rightSection="m"
          value={sides[name]}
          onChange={(event) => set(name, event.currentTarget.value)}
          onBlur={() => onTouched(path)}
        />
      ))}
    </div>
  )
}

function Preview({ corners }: { corners: DraftValues[] }) {
  const points = cornersOf(corners)
  if (points.length < 3) return <p className={classes.optional}>{words.form.outline.empty}</p>
  try {
    const { areaM2, longestSideM } = bayShape(points)
    return (
      <figure className={classes.preview}>
        <OutlineDrawing points={points} />
        <figcaption>{words.form.outline.shape(numberText(areaM2), numberText(longestSideM))}</figcaption>
      </figure>
    )
  } catch (cause) {
    return <p className={classes.error}>{cause instanceof Error ? cause.message : String(cause)}</p>
  }
}

/** Where the next bay can stand without lying on another: right of all that are there. */
function freeX(bays: readonly { body: { outline: { x: number }[] } }[]): number {
  return Math.max(0, ...bays.flatMap(({ body }) => body.outline.map(({ x }) => x)))
}
