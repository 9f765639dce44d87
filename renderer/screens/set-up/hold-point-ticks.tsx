import { Checkbox } from '@mantine/core'
import { type HoldPoint, holdPoints } from '#model/record/people.ts'
import { holdWords } from '../../app/words/hold-points.ts'
import classes from './set-up.module.css'

export const everyHoldPoint = Object.keys(holdPoints) as HoldPoint[]

/** What a first project starts with: without a moisture test and a release no bay is handed over; the rest is agreed by contract. */
export const firstHoldPoints: readonly HoldPoint[] = ['moisture test', 'release']

/** The picked points as the project keeps them, in the order of the job. */
export const asBound = (picked: readonly HoldPoint[]) =>
  everyHoldPoint.filter((point) => picked.includes(point)).map((point) => ({ point }))

interface HoldPointTicksProps {
  picked: readonly HoldPoint[]
  onPick: (picked: readonly HoldPoint[]) => void
}

export function HoldPointTicks({ picked, onPick }: HoldPointTicksProps) {
  return (
    <Checkbox.Group
      aria-label={holdWords.choice.title}
      value={[...picked]}
      onChange={(values) => onPick(values as HoldPoint[])}
    >
      <div className={classes.ticks}>
        {everyHoldPoint.map((point) => (
          <Checkbox key={point} size="md" value={point} label={holdPoints[point]} />
        ))}
      </div>
    </Checkbox.Group>
  )
}
