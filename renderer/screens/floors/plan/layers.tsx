import type { ReactNode } from 'react'
import type { ProjectOutline } from '#model/contract/index.ts'
import type { StoryEntry } from '#model/record/entry.ts'
import { floorsWords as words } from '../../../app/words/floors.ts'
import { numberText } from '../../../parts/number-text.ts'
import { middleOf } from '../draw/corners.ts'
import { factsOf } from '../floor-facts.ts'
import { AlertSign } from './alert-pins.tsx'
import type { PlanBay } from './bay-shapes.tsx'
import { batchHatch } from './hatches.tsx'
import classes from './plan.module.css'
import { type PlanView, type Size, toScreen } from './view.ts'

export const layerNames = [
  'joints',
  'baseJoints',
  'heating',
  'batches',
  'tests',
  'defects',
  'alerts',
] as const
export type LayerName = (typeof layerNames)[number]
export type Layers = Readonly<Record<LayerName, boolean>>

interface LayersProps {
  floor: ProjectOutline['floors'][number]
  zones: ProjectOutline['zones']
  bays: readonly PlanBay[]
  facts: readonly StoryEntry[]
  layers: Layers
  view: PlanView
  size: Size
}

type LayerProps = Omit<LayersProps, 'layers'>

/** What stands under the names of the bays: heated ground and batches. */
export function LowerLayers({ layers, ...rest }: LayersProps) {
  return (
    <>
      {layers.heating && <HeatedGround {...rest} />}
      {layers.batches && <Batches {...rest} />}
    </>
  )
}

/** What stands above the bays: joints, places of tests, defects. */
export function UpperLayers({ layers, ...rest }: LayersProps) {
  return (
    <g className={classes.ink}>
      {layers.baseJoints && <BaseJoints {...rest} />}
      {layers.joints && <Joints {...rest} />}
      {layers.tests && <Tests {...rest} />}
      {layers.defects && <Defects {...rest} />}
    </g>
  )
}

/** A hatched band inside the edge of every bay of a heated zone. */
function HeatedGround({ zones, bays, view, size }: LayerProps) {
  const heated = zones.filter(({ body }) => body.heated)
  return bays
    .filter(({ body }) => heated.some(({ id }) => id === body.zone))
    .map(({ id, body }) => {
      const points = body.outline
        .map((corner) => toScreen(corner, view, size))
        .map(({ x, y }) => `${x},${y}`)
        .join(' ')
      return (
        <g key={id} pointerEvents="none">
          <clipPath id={`inside-${id}`}>
            <polygon points={points} />
          </clipPath>
          <polygon points={points} clipPath={`url(#inside-${id})`} className={classes.heatEdge} />
        </g>
      )
    })
}

function Batches({ bays, facts, view, size }: LayerProps) {
  return factsOf(facts, 'batch-mixed', idsOf(bays)).map(({ id, body }) => {
    const { fromX, fromY, toX, toY } = body
    if (fromX === undefined || fromY === undefined || toX === undefined || toY === undefined) return null
    const a = toScreen({ x: Math.min(fromX, toX), y: Math.max(fromY, toY) }, view, size)
    const b = toScreen({ x: Math.max(fromX, toX), y: Math.min(fromY, toY) }, view, size)
    return (
      <g key={id} pointerEvents="none">
        <rect
          x={a.x}
          y={a.y}
          width={b.x - a.x}
          height={b.y - a.y}
          fill={batchHatch}
          className={classes.batch}
        />
        {b.x - a.x > 16 && (
          <text x={(a.x + b.x) / 2} y={b.y - 5} className={`${classes.small} ${classes.label}`}>
            {body.number}
          </text>
        )}
      </g>
    )
  })
}

function BaseJoints({ floor, view, size }: LayerProps) {
  return (floor.body.baseJoints ?? []).map((joint) => {
    const from = toScreen({ x: joint.fromX, y: joint.fromY }, view, size)
    const to = toScreen({ x: joint.toX, y: joint.toY }, view, size)
    return (
      <line
        key={`${joint.fromX} ${joint.fromY} ${joint.toX} ${joint.toY}`}
        x1={from.x}
        y1={from.y}
        x2={to.x}
        y2={to.y}
        className={classes.baseJoint}
        pointerEvents="none"
      />
    )
  })
}

function Joints({ bays, facts, view, size }: LayerProps) {
  return factsOf(facts, 'joint-formed', idsOf(bays)).map(({ id, body }) => {
    const from = toScreen({ x: body.fromX, y: body.fromY }, view, size)
    const to = toScreen({ x: body.toX, y: body.toY }, view, size)
    const line = { x1: from.x, y1: from.y, x2: to.x, y2: to.y, pointerEvents: 'none' } as const
    return (
      <g key={id}>
        <line
          {...line}
          className={classes.joint}
          strokeDasharray={body.joint === 'inducer' ? '6 4' : undefined}
        />
        {body.joint === 'movement' && <line {...line} className={classes.jointGap} />}
      </g>
    )
  })
}

/** Box and sleeve tests as a square, soundness as a ring, thickness as a small cross. */
function Tests({ bays, facts, view, size }: LayerProps) {
  const ids = idsOf(bays)
  const moisture = latestByPoint(factsOf(facts, 'moisture-read', ids))
  return (
    <g pointerEvents="none">
      {placed(factsOf(facts, 'thickness-measured', ids)).map((point) => {
        const { x, y } = toScreen(point, view, size)
        return <path key={point.key} d={`M${x - 4} ${y}h8M${x} ${y - 4}v8`} className={classes.pointInk} />
      })}
      {placed(factsOf(facts, 'soundness-tested', ids)).map((point) => {
        const { x, y } = toScreen(point, view, size)
        return <circle key={point.key} cx={x} cy={y} r={6} className={classes.pointInk} />
      })}
      {moisture.map(({ id, body }) => {
        if (body.x === undefined || body.y === undefined) return null
        const { x, y } = toScreen({ x: body.x, y: body.y }, view, size)
        return (
          <g key={id}>
            <rect x={x - 6} y={y - 6} width={12} height={12} className={classes.point} />
            <text x={x} y={y - 11} className={`${classes.small} ${classes.label}`}>
              {body.point}
            </text>
          </g>
        )
      })}
    </g>
  )
}

/** A defect without a place stands in the middle of its bay; several of one bay stand side by side. */
function Defects({ bays, facts, view, size }: LayerProps) {
  const ids = idsOf(bays)
  const closed = new Set<string>(factsOf(facts, 'defect-closed', ids).map(({ body }) => body.defect))
  const open = factsOf(facts, 'defect-found', ids).filter(({ id }) => !closed.has(id))
  return open.map(({ id, subject, body }) => {
    const bay = bays.find((one) => one.id === subject)
    if (bay === undefined) return null
    const beside = open.filter((one) => one.subject === subject).findIndex((one) => one.id === id)
    const given = body.x !== undefined && body.y !== undefined
    const middle = middleOf(bay.body.outline)
    const { x, y } = toScreen({ x: body.x ?? middle.x, y: body.y ?? middle.y }, view, size)
    const [left, top] = given ? [x, y] : [x - 20 + beside * 40, y + 38]
    return (
      <g key={id} pointerEvents="none">
        <path d={`M${left} ${top - 9}l9 16h-18z`} className={classes.defect} />
        <text x={left} y={top + 20} className={`${classes.small} ${classes.label}`}>
          {body.symptom}
          {body.widthMm !== undefined && ` ${numberText(body.widthMm)} mm`}
        </text>
      </g>
    )
  })
}

const idsOf = (bays: readonly PlanBay[]): ReadonlySet<string> => new Set(bays.map(({ id }) => id))

/** The points of a test whose place on the plan is known. */
function placed(facts: readonly { id: string; body: { points: readonly { x?: number; y?: number }[] } }[]) {
  return facts.flatMap(({ id, body }) =>
    body.points.flatMap(({ x, y }, i) =>
      x === undefined || y === undefined ? [] : [{ key: `${id} ${i}`, x, y }],
    ),
  )
}

function latestByPoint<T extends { subject: string; body: { point: string } }>(
  newestFirst: readonly T[],
): T[] {
  const seen = new Map<string, T>()
  for (const fact of newestFirst) {
    const place = `${fact.subject} ${fact.body.point}`
    if (!seen.has(place)) seen.set(place, fact)
  }
  return [...seen.values()]
}

/** The signs used above, for the key beside the plan. */
export function LayerKey({ layers }: { layers: Layers }) {
  const line = (className: string | undefined) => <line x1={2} x2={30} y1={9} y2={9} className={className} />
  const signs: [LayerName, string, ReactNode][] = [
    ['joints', words.key.joint, line(classes.joint)],
    ['baseJoints', words.key.baseJoint, line(classes.baseJoint)],
    ['heating', words.key.heated, <rect key="h" width={32} height={18} fill="url(#hatch-heated)" />],
    [
      'batches',
      words.key.batch,
      <rect key="b" x={1} y={1} width={30} height={16} fill={batchHatch} className={classes.batch} />,
    ],
    [
      'tests',
      words.key.moisture,
      <rect key="m" x={10} y={3} width={12} height={12} className={classes.point} />,
    ],
    ['tests', words.key.soundness, <circle key="s" cx={16} cy={9} r={6} className={classes.pointInk} />],
    ['tests', words.key.thickness, <path key="t" d="M12 9h8M16 5v8" className={classes.pointInk} />],
    ['defects', words.key.defect, <path key="d" d="M16 1l9 16h-18z" className={classes.defect} />],
    ['alerts', words.key.alert, <AlertSign key="a" />],
  ]
  return (
    <ul className={classes.key} aria-label={words.key.label}>
      {signs
        .filter(([layer]) => layers[layer])
        .map(([, word, sign]) => (
          <li key={word} className={classes.keyLine}>
            <svg width={32} height={18} aria-hidden>
              {sign}
            </svg>
            {word}
          </li>
        ))}
    </ul>
  )
}
