import { Button } from '@mantine/core'
import { useState } from 'react'
import type { ProjectOutline } from '#model/contract/index.ts'
import type { EntryId } from '#model/record/ids.ts'
import { client } from '../../app/client.ts'
import { useJob } from '../../app/job.tsx'
import { troubleOf } from '../../app/trouble.ts'
import { floorsWords as words } from '../../app/words/floors.ts'
import { Banner, Note } from '../../parts/banner.tsx'
import { BayCard } from './bay-card.tsx'
import type { Drawing } from './draw/use-bay-drawing.ts'
import { DrawingSheet } from './drawing-sheet.tsx'
import { useFloorFacts } from './floor-facts.ts'
import classes from './floors.module.css'
import { LayerSwitches } from './layer-switches.tsx'
import { FloorPlan } from './plan/floor-plan.tsx'
import { LayerKey, type Layers } from './plan/layers.tsx'

const allLayers: Layers = {
  joints: true,
  baseJoints: true,
  heating: true,
  batches: false,
  tests: true,
  defects: true,
  alerts: true,
}

/** While a bay is drawn only what bounds it is shown. */
const drawnOver: Layers = { ...allLayers, batches: false, tests: false, defects: false, alerts: false }

/** One floor: its plan, and beside it the bay that was picked or the bay that is drawn. */
export function FloorSheet({ floor }: { floor: ProjectOutline['floors'][number] }) {
  const { outline, id: project } = useJob()
  const [layers, setLayers] = useState(allLayers)
  const [chosen, setChosen] = useState<string | null>(null)
  const [drawing, setDrawing] = useState<Drawing | null>(null)
  const [trouble, setTrouble] = useState<unknown>(null)
  const { data: facts = [], error, refetch } = useFloorFacts(project)
  const bays = outline.bays.filter((bay) => bay.floor === floor.id)
  const bay = bays.find(({ id }) => id === chosen)
  const hasZone = outline.zones.some(({ body }) => body.floor === floor.id)

  const edit = async () => {
    if (bay === undefined) return
    setTrouble(null)
    try {
      setDrawing(await standingOutline(bay))
    } catch (cause) {
      setTrouble(cause)
    }
  }
  const shared = { floor, facts, layers: drawing === null ? layers : drawnOver, bays }

  return (
    <>
      {error !== null && <Banner trouble={troubleOf(error)} onRetry={() => void refetch()} />}
      {trouble !== null && <Banner trouble={troubleOf(trouble)} />}
      {drawing === null && (
        <div className={classes.bar}>
          <LayerSwitches layers={layers} onChange={setLayers} />
          {hasZone && (
            <Button onClick={() => setDrawing({ kind: 'new', floor: floor.id })}>{words.draw}</Button>
          )}
        </div>
      )}
      {!hasZone && <Note tone="act">{words.noZone}</Note>}
      {drawing !== null ? (
        <DrawingSheet
          {...shared}
          about={drawing}
          onLeave={() => setDrawing(null)}
          onSaved={(saved) => {
            setDrawing(null)
            setChosen(saved)
          }}
        />
      ) : (
        <div className={classes.sheet}>
          <div>
            <FloorPlan
              {...shared}
              zones={outline.zones}
              chosen={chosen}
              onChoose={setChosen}
              drawing={null}
              wrong={false}
            />
            <LayerKey layers={layers} />
          </div>
          {bay === undefined ? (
            <p className={classes.hint}>{bays.length === 0 ? words.noBays : words.card.pick}</p>
          ) : (
            <BayCard bay={bay} facts={facts} onEdit={() => void edit()} onClose={() => setChosen(null)} />
          )}
        </div>
      )}
    </>
  )
}

/** The version of the bay that stands now: a correction points at it. */
async function standingOutline(bay: ProjectOutline['bays'][number]): Promise<Drawing> {
  const { versions } = await client.record.history({ entry: bay.id as string as EntryId })
  const standing = versions.findLast(({ kind }) => kind === 'bay-planned')
  if (standing === undefined) throw new Error(`The plan of bay ${bay.body.name} has no version that stands`)
  return {
    kind: 'edit',
    bay,
    version: standing.id,
    happenedAt: standing.happenedAt,
    answers: standing.answers,
  }
}
