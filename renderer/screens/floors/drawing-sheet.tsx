import type { ProjectOutline } from '#model/contract/index.ts'
import type { StoryEntry } from '#model/record/entry.ts'
import type { Screed } from '#model/record/words.ts'
import { useJob } from '../../app/job.tsx'
import { DrawPanel } from './draw/draw-panel.tsx'
import { shapeOf } from './draw/shape-verdict.tsx'
import { type Drawing, useBayDrawing } from './draw/use-bay-drawing.ts'
import { factsOf } from './floor-facts.ts'
import classes from './floors.module.css'
import type { PlanBay } from './plan/bay-shapes.tsx'
import { FloorPlan } from './plan/floor-plan.tsx'
import type { Layers } from './plan/layers.tsx'

interface DrawingSheetProps {
  about: Drawing
  floor: ProjectOutline['floors'][number]
  bays: readonly PlanBay[]
  facts: readonly StoryEntry[]
  layers: Layers
  onSaved: (bay: string) => void
  onLeave: () => void
}

/** The plan to draw on, and the form beside it; one draft feeds both. */
export function DrawingSheet({ about, floor, bays, facts, layers, onSaved, onLeave }: DrawingSheetProps) {
  const { outline } = useJob()
  const drawing = useBayDrawing(about)
  const own = about.kind === 'edit' ? about.bay.id : null
  const others = bays.filter(({ id }) => id !== own)
  const shape = shapeOf({
    corners: drawing.corners,
    zone: outline.zones.find(({ id }) => id === drawing.body.zone),
    floor,
    project: outline.project,
    screed: typeof drawing.body.screed === 'string' ? (drawing.body.screed as Screed) : undefined,
    joints: own === null ? [] : factsOf(facts, 'joint-formed', new Set([own])).map(({ body }) => body),
    others: others.map(({ body }) => body),
  })
  return (
    <div className={classes.drawSheet}>
      <div className={classes.stays}>
        <FloorPlan
          floor={floor}
          zones={outline.zones}
          bays={others}
          facts={facts}
          layers={layers}
          chosen={null}
          onChoose={() => undefined}
          drawing={drawing}
          wrong={shape.kind === 'refused'}
        />
      </div>
      <DrawPanel about={about} drawing={drawing} shape={shape} onSaved={onSaved} onLeave={onLeave} />
    </div>
  )
}
