import type { ProjectOutline } from '#model/contract/index.ts'
import { bayShape, checkBay, type Point, type Segment } from '#model/movement/index.ts'
import type { Screed } from '#model/record/words.ts'
import { limitText, rulesOfProject } from '#model/rules/index.ts'
import type { CheckResult } from '#model/rules/limit.ts'
import { severities } from '#model/watch/alert.ts'
import { floorsWords as words } from '../../../app/words/floors.ts'
import { words as allWords } from '../../../app/words.ts'
import { CheckLines } from '../../../parts/check-lines.tsx'
import { Mark } from '../../../parts/mark.tsx'
import { numberText } from '../../../parts/number-text.ts'
import classes from '../floors.module.css'
import { overlaps } from './overlap.ts'

/** What the drawn outline means. `refused`: it cannot stand at all. */
export type Shape =
  | { kind: 'undrawn'; corners: number }
  | { kind: 'refused'; sentence: string }
  | {
      kind: 'drawn'
      areaM2: number
      longestSideM: number
      ratio: number
      check: CheckResult | null
      liesOn: string[]
    }

interface ShapeQuestion {
  corners: readonly Point[]
  zone: ProjectOutline['zones'][number] | undefined
  floor: ProjectOutline['floors'][number]
  project: ProjectOutline['project']
  screed: Screed | undefined
  joints: readonly Segment[]
  others: readonly { name: string; outline: readonly Point[] }[]
}

/** Size and shape of the drawn outline, its check against the rules of the project, and the bays that it lies on. */
export function shapeOf({ corners, zone, floor, project, screed, joints, others }: ShapeQuestion): Shape {
  if (corners.length < 3) return { kind: 'undrawn', corners: corners.length }
  try {
    const shape = bayShape(corners)
    const check =
      zone === undefined || screed === undefined
        ? null
        : checkBay({
            polygonM: corners,
            heated: zone.body.heated,
            covering: zone.body.covering,
            screed,
            baseJoints: floor.body.baseJoints,
            joints,
            rules: rulesOfProject(project.body),
          })
    const liesOn = others.filter(({ outline }) => overlaps(corners, outline)).map(({ name }) => name)
    return { kind: 'drawn', ...shape, check, liesOn }
  } catch (cause) {
    if (cause instanceof Error && 'field' in cause) return { kind: 'refused', sentence: cause.message }
    throw cause
  }
}

/** The same in words, beside the plan, while it is drawn. */
export function ShapeVerdict({ shape }: { shape: Shape }) {
  return (
    <section className={classes.shape} aria-live="polite" aria-label={words.drawing.shape}>
      <ShapeLines shape={shape} />
    </section>
  )
}

function ShapeLines({ shape }: { shape: Shape }) {
  if (shape.kind === 'undrawn') {
    return <p>{shape.corners === 0 ? words.drawing.undrawn : words.drawing.tooFew(shape.corners)}</p>
  }
  if (shape.kind === 'refused') {
    return (
      <p className={classes.refused}>
        <Mark shape="octagonBar" tone="stop" word={severities.stop} bare /> {shape.sentence}
      </p>
    )
  }
  const { areaM2, longestSideM, ratio, check, liesOn } = shape
  return (
    <>
      <dl className={classes.figures}>
        <Figure name={words.drawing.area} value={`${numberText(areaM2)} m²`} />
        <Figure name={words.drawing.longest} value={`${numberText(longestSideM)} m`} />
        <Figure name={words.drawing.ratio} value={`${numberText(ratio)} : 1`} />
      </dl>
      {liesOn.length > 0 && (
        <p className={classes.refused}>
          <Mark shape="trianglePoint" tone="act" word={severities.watch} bare />{' '}
          {words.drawing.overlap(liesOn.join(', '))}
        </p>
      )}
      {check !== null && <Checked check={check} />}
    </>
  )
}

function Figure({ name, value }: { name: string; value: string }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{value}</dd>
    </div>
  )
}

function Checked({ check }: { check: CheckResult }) {
  const limited = check.findings.filter(({ limit }) => limit !== null)
  const sentence =
    check.verdict === 'pass'
      ? words.drawing.pass
      : check.verdict === 'fail'
        ? words.drawing.fail
        : words.drawing.notKnown
  return (
    <>
      <p className={classes.checked}>
        {check.verdict === 'pass' ? (
          <Mark shape="discTick" tone="good" word={allWords.live.kept} bare />
        ) : check.verdict === 'fail' ? (
          <Mark shape="trianglePoint" tone="act" word={allWords.live.notKept} bare />
        ) : (
          <Mark shape="diamondAsk" tone="unproven" word={allWords.conditions.unknown} bare />
        )}{' '}
        {sentence}
      </p>
      {limited.length > 0 && <CheckLines findings={limited} text={limitText} />}
    </>
  )
}
