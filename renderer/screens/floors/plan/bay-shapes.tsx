import type { KeyboardEvent } from 'react'
import type { ProjectOutline } from '#model/contract/index.ts'
import { areaOf } from '#model/movement/index.ts'
import { floorsWords as words } from '../../../app/words/floors.ts'
import { words as allWords } from '../../../app/words.ts'
import { numberText } from '../../../parts/number-text.ts'
import { StateMark } from '../../../parts/state-mark.tsx'
import { middleOf } from '../draw/corners.ts'
import { hatchOf } from './hatches.tsx'
import classes from './plan.module.css'
import { type PlanView, type Size, toScreen } from './view.ts'

export type PlanBay = ProjectOutline['bays'][number]

export interface BayShapesProps {
  bays: readonly PlanBay[]
  view: PlanView
  size: Size
  chosen: string | null
  /** While something is drawn, bays are ground to draw on and cannot be chosen. */
  asGround: boolean
  onChoose: (bay: string) => void
}

/** Every bay to scale, with its name, the mark and the word of its state. */
export function BayShapes({ bays, view, size, chosen, asGround, onChoose }: BayShapesProps) {
  return bays.map((bay) => {
    const { id, body, state } = bay
    const path = body.outline.map((corner) => toScreen(corner, view, size))
    const word = allWords.states[state.word]
    const choosing = {
      tabIndex: 0,
      role: 'button',
      'aria-pressed': chosen === id,
      'aria-label': words.plan.bay(body.name, word, numberText(areaOf(body.outline), 1)),
      onClick: () => onChoose(id),
      onKeyDown: (event: KeyboardEvent) => {
        if (event.key !== 'Enter' && event.key !== ' ') return
        event.preventDefault()
        onChoose(id)
      },
    }
    return (
      <g
        key={id}
        data-bay={body.name}
        className={`${classes.bay} ${chosen === id ? classes.chosen : ''} ${asGround ? classes.aside : ''}`}
        {...(asGround ? {} : choosing)}
      >
        <polygon
          points={path.map(({ x, y }) => `${x},${y}`).join(' ')}
          fill={hatchOf(state.word)}
          className={`${classes.outline} ${state.word === 'planned' ? classes.planned : ''}`}
        />
      </g>
    )
  })
}

interface BayLabelsProps extends Pick<BayShapesProps, 'bays' | 'view' | 'size'> {
  quiet: boolean
}

/** Names and states, above everything that stands in the bays. */
export function BayLabels({ bays, view, size, quiet }: BayLabelsProps) {
  return (
    <g aria-hidden pointerEvents="none" className={quiet ? classes.aside : undefined}>
      {bays.map((bay) => (
        <BayLabel key={bay.id} bay={bay} view={view} size={size} />
      ))}
    </g>
  )
}

const leastRoomPx = 34
const wordRoomPx = 96

function BayLabel({ bay, view, size }: { bay: PlanBay; view: PlanView; size: Size }) {
  const { body, state } = bay
  const at = toScreen(middleOf(body.outline), view, size)
  const xs = body.outline.map(({ x }) => x)
  const room = (Math.max(...xs) - Math.min(...xs)) * view.pxPerM
  if (room < leastRoomPx) return null
  const word = room > wordRoomPx ? allWords.states[state.word] : ''
  const below = word === '' ? 18 : 26 + word.length * 7
  const width = Math.max(below, body.name.length * 10) + 12
  return (
    <g>
      <rect x={at.x - width / 2} y={at.y - 22} width={width} height={46} rx={4} className={classes.chip} />
      <text x={at.x} y={at.y - 4} className={classes.name}>
        {body.name}
      </text>
      <g transform={`translate(${at.x - below / 2} ${at.y + 2})`}>
        <StateMark state={state.word} bare size={18} />
      </g>
      <text x={at.x - below / 2 + 24} y={at.y + 16} className={classes.state}>
        {word}
      </text>
    </g>
  )
}
