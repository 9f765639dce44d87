import { Button, CloseButton, Select, TextInput } from '@mantine/core'
import { useState } from 'react'
import type { ProjectOutline } from '#model/contract/index.ts'
import { useJob } from '../../../app/job.tsx'
import { faultsWords } from '../../../app/words/faults.ts'
import { numberFromTyped, numberText } from '../../../parts/number-text.ts'
import { Segmented } from '../../../parts/segmented.tsx'
import { useFloorFacts } from '../../floors/floor-facts.ts'
import { FaultPlan } from './fault-plan.tsx'
import {
  areaWithin,
  isWhole,
  lengthAlong,
  type Place,
  type PlaceShape,
  withoutPoint,
  withPointAt,
} from './place.ts'
import classes from './report.module.css'

const words = faultsWords.place

interface PlacePartProps {
  place: Place
  onPlace: (place: Place) => void
  floor: ProjectOutline['floors'][number] | undefined
  onFloor: (floor: string) => void
  bay: string | null
  /** Chosen by hand; a place that is drawn chooses its own bay. */
  onBay: (bay: string) => void
  error?: string
}

/** Where the fault is: tapped on the plan or typed, a spot, a line or an area. */
export function PlacePart({ place, onPlace, floor, onFloor, bay, onBay, error }: PlacePartProps) {
  const { id: project, outline, nameOf } = useJob()
  const { data: facts = [] } = useFloorFacts(project)
  const floors = outline.floors.toSorted((a, b) => a.body.level - b.body.level)
  if (floor === undefined) return null
  const bays = outline.bays.filter((one) => one.floor === floor.id)
  return (
    <section className={classes.part} aria-labelledby="fault-place">
      <h2 id="fault-place" className={classes.title}>
        {words.title}
      </h2>
      <div className={classes.placeHead}>
        {floors.length > 1 && (
          <Segmented
            label={words.floor}
            options={Object.fromEntries(floors.map(({ id, body }) => [id, body.name]))}
            value={floor.id}
            onChange={onFloor}
          />
        )}
        <Segmented
          label={words.shape}
          options={words.shapes}
          value={place.shape}
          onChange={(shape) => onPlace(asShape(place, shape as PlaceShape))}
        />
      </div>
      <div className={classes.placeSheet}>
        <FaultPlan
          floor={floor}
          zones={outline.zones}
          bays={bays}
          facts={facts}
          place={place}
          onPlace={onPlace}
        />
        <div className={classes.placeSide}>
          <p>
            {words.how[place.shape]} <span className={classes.soft}>{words.howMore}</span>
          </p>
          <Measured place={place} />
          <TypedPoints place={place} onPlace={onPlace} />
          <Select
            label={words.bay}
            data={bays.map(({ id }) => ({ value: id, label: nameOf(id) }))}
            value={bay}
            searchable={bays.length > 8}
            error={error}
            placeholder={words.chooseBay}
            onChange={(next) => next !== null && onBay(next)}
          />
        </div>
      </div>
    </section>
  )
}

/** The length or the area as drawn, or what is still missing. */
function Measured({ place }: { place: Place }) {
  if (place.points.length > 0 && !isWhole(place)) {
    return <p className={classes.soft}>{words.tooFew[place.shape]}</p>
  }
  const [length, area] = [lengthAlong(place), areaWithin(place)]
  if (length !== null) return <p className={classes.measured}>{words.length(numberText(length))}</p>
  if (area !== null) return <p className={classes.measured}>{words.area(numberText(area))}</p>
  return null
}

function TypedPoints({ place, onPlace }: Pick<PlacePartProps, 'place' | 'onPlace'>) {
  const { points, shape } = place
  const rows = points.length === 0 ? [null] : points
  const set = (index: number, axis: 'x' | 'y', value: number) => {
    const before = points[index] ?? { x: 0, y: 0 }
    const next = { ...before, [axis]: value }
    onPlace(index < points.length ? withPointAt(place, index, next) : { shape, points: [...points, next] })
  }
  const last = points.at(-1)
  return (
    <fieldset className={classes.typed}>
      <legend className={classes.small}>{words.typed}</legend>
      {rows.map((point, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a point has no name but its place
        <div key={i} className={classes.typedRow}>
          <MetreBox label={words.x(i + 1)} short="x" value={point?.x} onChange={(x) => set(i, 'x', x)} />
          <MetreBox label={words.y(i + 1)} short="y" value={point?.y} onChange={(y) => set(i, 'y', y)} />
          {point !== null && (
            <CloseButton
              size="lg"
              aria-label={words.remove(i + 1)}
              onClick={() => onPlace(withoutPoint(place, i))}
            />
          )}
        </div>
      ))}
      <div className={classes.typedActs}>
        {shape !== 'point' && last !== undefined && (
          <Button
            variant="default"
            size="sm"
            onClick={() => onPlace({ shape, points: [...points, { x: last.x + 1, y: last.y }] })}
          >
            {words.add}
          </Button>
        )}
        {points.length > 0 && (
          <Button variant="subtle" size="sm" onClick={() => onPlace({ shape, points: [] })}>
            {words.clear}
          </Button>
        )}
      </div>
    </fieldset>
  )
}

interface MetreBoxProps {
  label: string
  short: string
  value: number | undefined
  onChange: (value: number) => void
}

/** Holds what is being typed until the hand leaves it: "3," is on its way to 3,5. */
function MetreBox({ label, short, value, onChange }: MetreBoxProps) {
  const [typed, setTyped] = useState<string | null>(null)
  const wrong = typed !== null && numberFromTyped(typed).kind === 'not a number'
  return (
    <TextInput
      aria-label={label}
      leftSection={short}
      rightSection="m"
      inputMode="decimal"
      autoComplete="off"
      className={classes.metre}
      error={wrong ? words.digits : undefined}
      value={typed ?? (value === undefined ? '' : String(value))}
      onChange={(event) => {
        const text = event.currentTarget.value
        setTyped(text)
        const read = numberFromTyped(text)
        if (read.kind === 'number') onChange(read.value)
      }}
      onBlur={() => setTyped(null)}
    />
  )
}

/** The same points as another shape; a spot keeps the last of them. */
function asShape({ points }: Place, shape: PlaceShape): Place {
  return { shape, points: shape === 'point' ? points.slice(-1) : points }
}
