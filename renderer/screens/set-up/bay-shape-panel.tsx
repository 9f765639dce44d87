import { checkBay } from '#model/movement/bay.ts'
import type { Screed } from '#model/record/words.ts'
import { limitText, rulesOfProject } from '#model/rules/index.ts'
import type { Finding } from '#model/rules/limit.ts'
import { useJob } from '../../app/job.tsx'
import { words } from '../../app/words.ts'
import { CheckLines } from '../../parts/check-lines.tsx'
import { LivePanel } from '../../parts/live-panel.tsx'

const units = { Area: 'm²', 'Longest side': 'm' }

/** Size, sides and corners of a bay against the rules, while it is being typed. */
export function BayShapePanel({ body }: { body: Record<string, unknown> }) {
  const { outline } = useJob()
  const zone = outline.zones.find(({ id }) => id === body.zone)
  const points = body.outline as { x: number; y: number }[] | undefined
  const findings = shapeFindings(outline, zone, points, body.screed as Screed | undefined)
  return (
    <LivePanel title={words.setUp.places.shapeTitle} lead={words.setUp.places.shapeLead}>
      {findings === null ? (
        <p>{words.live.waits}</p>
      ) : (
        <CheckLines findings={findings} text={limitText} units={units} />
      )}
    </LivePanel>
  )
}

function shapeFindings(
  outline: ReturnType<typeof useJob>['outline'],
  zone: ReturnType<typeof useJob>['outline']['zones'][number] | undefined,
  points: { x: number; y: number }[] | undefined,
  screed: Screed | undefined,
): Finding[] | null {
  if (zone === undefined || points === undefined || screed === undefined) return null
  if (points.length < 3 || points.some(({ x, y }) => x === undefined || y === undefined)) return null
  const floor = outline.floors.find(({ id }) => id === zone.body.floor)
  try {
    return checkBay({
      polygonM: points,
      heated: zone.body.heated,
      covering: zone.body.covering,
      screed,
      baseJoints: floor?.body.baseJoints,
      rules: rulesOfProject(outline.project.body),
    }).findings
  } catch (cause) {
    // An outline that crosses itself is told beside its own box.
    if (cause instanceof Error && 'field' in cause) return null
    throw cause
  }
}
