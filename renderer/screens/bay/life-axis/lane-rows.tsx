import type { KeyboardEvent } from 'react'
import { bayWords } from '../../../app/words/bay.ts'
import chart from '../../../charts/charts.module.css'
import type { StripPlace } from '../../../charts/time-strip.tsx'
import { type TimeSpan, visiblePart, xOf } from '../../../charts/time-view.ts'
import type { Lane, LaneItem, LaneName } from './lanes.ts'
import classes from './life-axis.module.css'

interface LaneRowsProps {
  lanes: readonly Lane[]
  view: TimeSpan
  place: StripPlace
  ticksAt: readonly number[]
  now: number
  chosen: string | null
  wordsOf: (item: LaneItem) => string
  onChoose: (entry: string) => void
}

const rowPx = 24
const padPx = 8

/** Everything that was done to the bay and happened to it, one lane a kind of thing, on the shared axis. */
export function LaneRows(props: LaneRowsProps) {
  const { lanes, view, place, ticksAt, now } = props
  const plotPx = place.width - place.gutter - place.right
  let top = 0
  const placed = lanes.map((lane) => {
    const height = lane.rows.length * rowPx + padPx
    top += height
    return { lane, top: top - height, height }
  })
  const left = (at: number) => place.gutter + xOf(at, view, plotPx)
  return (
    // biome-ignore lint/a11y/useSemanticElements: a part of a drawing cannot be a fieldset
    <svg
      className={chart.svg}
      width={place.width}
      height={top + 2}
      role="group"
      aria-label={bayWords.table.happenings}
    >
      <clipPath id="lanes-plot">
        <rect x={place.gutter - 8} y={0} width={plotPx + 16} height={top + 2} />
      </clipPath>
      {placed.map(({ lane, top: y, height }) => (
        <g key={lane.name}>
          <rect x={place.gutter} y={y} width={plotPx} height={height} className={classes.lane} />
          <line
            x1={0}
            x2={place.width - place.right}
            y1={y + height}
            y2={y + height}
            className={chart.grid}
          />
          <text x={0} y={y + padPx / 2 + 17} className={classes.laneName}>
            {bayWords.lanes[lane.name]}
          </text>
        </g>
      ))}
      {ticksAt.map((at) => (
        <line key={at} x1={left(at)} x2={left(at)} y1={0} y2={top} className={chart.grid} />
      ))}
      <g clipPath="url(#lanes-plot)">
        {placed.map(({ lane, top: y }) =>
          lane.rows.map((row, r) =>
            row.map((item, i) => (
              <Item
                key={`${item.entry} ${item.from}`}
                item={item}
                next={row[i + 1] ?? null}
                lane={lane.name}
                y={y + padPx / 2 + r * rowPx}
                {...props}
              />
            )),
          ),
        )}
      </g>
      {now >= view.from && now <= view.until && (
        <line x1={left(now)} x2={left(now)} y1={0} y2={top + 2} className={chart.now} />
      )}
    </svg>
  )
}

interface ItemProps extends LaneRowsProps {
  item: LaneItem
  /** The item right of it in its row: its label must not run into that. */
  next: LaneItem | null
  lane: LaneName
  y: number
}

const leastBarPx = 7

function Item({ item, next, lane, y, view, place, now, chosen, wordsOf, onChoose }: ItemProps) {
  // What lasts is known to last until now and no further.
  const part = visiblePart(item.from, item.until ?? Math.max(now, item.from), view)
  if (part === null) return null
  const plotPx = place.width - place.gutter - place.right
  const left = place.gutter + xOf(part.from, view, plotPx)
  const right = place.gutter + xOf(part.until, view, plotPx)
  const width = Math.max(leastBarPx, right - left)
  const room =
    next === null ? place.width - place.right - right : place.gutter + xOf(next.from, view, plotPx) - right
  const labelPx = item.label.length * 6.9 + 10
  const inside = item.drawn === 'bar' && width > labelPx
  const beside = !inside && room > labelPx + 16
  const choosing = {
    role: 'button',
    tabIndex: 0,
    'aria-label': wordsOf(item),
    'aria-pressed': chosen === item.entry,
    onClick: () => onChoose(item.entry),
    onKeyDown: (event: KeyboardEvent) => {
      if (event.key !== 'Enter' && event.key !== ' ') return
      event.preventDefault()
      onChoose(item.entry)
    },
  }
  const look = `${classes.item} ${classes[lane]} ${item.weak ? classes.weak : ''} ${width < 12 ? classes.narrow : ''} ${chosen === item.entry ? classes.chosen : ''}`
  return (
    <>
      <g className={look} {...choosing}>
        <title>{wordsOf(item)}</title>
        {item.drawn === 'bar' ? (
          <rect x={left} y={y + 2} width={width} height={rowPx - 5} rx={2} className={classes.bar} />
        ) : (
          <LaneMark lane={lane} x={left} y={y + rowPx / 2} weak={item.weak} />
        )}
      </g>
      {(inside || beside) && (
        <text
          aria-hidden
          pointerEvents="none"
          x={inside ? left + 6 : (item.drawn === 'bar' ? left + width : left + 9) + 5}
          y={y + 16}
          className={inside ? classes.inside : classes.beside}
        >
          {item.label}
        </text>
      )}
    </>
  )
}

/** Instants of different lanes have different shapes, so that a copied picture still tells them apart. */
function LaneMark({ lane, x, y, weak }: { lane: LaneName; x: number; y: number; weak: boolean }) {
  if (lane === 'traffic' && !weak) return <path d={`M${x} ${y - 8}l8 15h-16z`} className={classes.markFull} />
  if (weak) return <circle cx={x} cy={y} r={4.5} className={classes.markOpen} />
  if (lane === 'decisions') return <path d={`M${x} ${y - 7}l7 7-7 7-7-7z`} className={classes.markFull} />
  if (lane === 'tests')
    return <rect x={x - 5.5} y={y - 5.5} width={11} height={11} className={classes.markFull} />
  return <circle cx={x} cy={y} r={6} className={classes.markFull} />
}
