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

interface BayShapesProps {
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
        <BayLabel bay={bay} view={view} size={size} />
      </g>
    )
  })
}

function BayLabel({ bay, view, size }: { bay: PlanBay; view: PlanView; size: Size }) {
  const { body, state } = bay
  const at = toScreen(middleOf(body.outline), view, size)
  const xs = body.outline.map(({ x }) => x)
  const room = (Math.max(...xs) - Math.min(...xs)) * view.pxPerM
  if (room < 34) return null
  const wide = room > 96
  return (
    <g aria-hidden className={classes.label}>
      <text x={at.x} y={at.y - (wide ? 4 : 6)} className={`${classes.name} ${classes.label}`}>
        {body.name}
      </text>
      <g
        transform={`translate(${at.x - (wide ? 10 + allWords.states[state.word].length * 3.4 : 9)} ${at.y + 4})`}
      >
        <StateMark state={state.word} bare size={18} />
      </g>
      {wide && (
        <text x={at.x + 12} y={at.y + 18} className={`${classes.state} ${classes.label}`}>
          {allWords.states[state.word]}
        </text>
      )}
    </g>
  )
}
