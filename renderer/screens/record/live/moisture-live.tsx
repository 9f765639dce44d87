import { acceptMoisture, type MoistureAcceptance, moistureLimit, moistureUnit } from '#model/checks/index.ts'
import type { MoistureTest } from '#model/checks/moisture/test.ts'
import type { ProjectOutline } from '#model/contract/index.ts'
import type { MoistureMethod } from '#model/record/words.ts'
import { type Limit, limitText, rulesOfProject } from '#model/rules/index.ts'
import { useNow } from '../../../app/clock.ts'
import { useJob } from '../../../app/job.tsx'
import { words } from '../../../app/words.ts'
import { LiveNumber, LivePanel } from '../../../parts/live-panel.tsx'
import { quantityText } from '../../../parts/number-text.ts'
import { siteIso } from '../../../parts/site-time.ts'
import type { LiveProps } from './index.ts'
import classes from './live.module.css'
import { whenUsable } from './read-now.ts'

const say = words.live.moisture

/** Whether this test could prove anything: what its method still demands, before it is saved. */
export function MoistureLive({ subject, form }: LiveProps) {
  const { outline, zone } = useJob()
  const now = useNow()
  const { body } = form.reading
  const bay = outline.bays.find(({ id }) => id === subject)
  if (bay === undefined || typeof body.method !== 'string') return null
  const readings = body.readings as { at?: string }[] | undefined
  const at = readings?.at(-1)?.at ?? siteIso(now, zone)
  const test = { ...body, readings: readings?.filter(isWhole), at } as unknown as MoistureTest
  const limit = limitFor(outline, bay, test.method)
  const judged = whenUsable(() => acceptMoisture(test, limit, contextOf(outline, bay, test)))
  return (
    <LivePanel title={say.title}>
      {limit !== null && <p>{say.limit(limitText(limit), limit.source, limit.provenance)}</p>}
      {judged === null ? <p>{words.live.waits}</p> : <Judged judged={judged} />}
    </LivePanel>
  )
}

function Judged({ judged }: { judged: MoistureAcceptance }) {
  const { verdict, value, unit, reasons, cautions } = judged
  return (
    <>
      <LiveNumber
        what={say.shows}
        value={value === null ? say.nothingYet : quantityText(value, unit)}
        tone={verdict === 'pass' ? 'good' : verdict === 'fail' ? 'act' : 'open'}
        meaning={say.verdicts[verdict]}
      />
      <ul className={classes.reasons}>
        {reasons.map((reason) => (
          <li key={reason}>{reason}</li>
        ))}
      </ul>
      {cautions.length > 0 && (
        <ul className={classes.cautions}>
          {cautions.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      )}
    </>
  )
}

type Bay = ProjectOutline['bays'][number]
const isWhole = (reading: Record<string, unknown>) =>
  reading.at !== undefined && reading.rhPercent !== undefined

function limitFor(outline: ProjectOutline, bay: Bay, method: MoistureMethod): Limit | null {
  const zone = outline.zones.find(({ id }) => id === bay.body.zone)?.body
  if (zone === undefined) return null
  if (zone.limitByContract !== undefined && zone.moistureMethod === method) {
    return {
      value: zone.limitByContract,
      unit: moistureUnit(method),
      operator: '<=',
      source: zone.limitReason ?? say.contract,
      provenance: 'company rule',
    }
  }
  const ruleSet = rulesOfProject(outline.project.body)
  return moistureLimit({
    covering: zone.covering,
    method,
    screed: bay.body.screed,
    heated: zone.heated,
    ruleSet,
  })
}

function contextOf(outline: ProjectOutline, bay: Bay, test: MoistureTest) {
  const zone = outline.zones.find(({ id }) => id === bay.body.zone)?.body
  const instrument = outline.instruments.find(({ id }) => id === test.instrument)
  return {
    rules: rulesOfProject(outline.project.body),
    screed: bay.body.screed,
    construction: bay.body.construction,
    heated: zone?.heated ?? false,
    thicknessMm: bay.body.designThicknessMm,
    outlineM: bay.body.outline,
    instrument:
      instrument === undefined
        ? null
        : {
            certificateDueOn: instrument.body.dueOn ?? null,
            lastCheck:
              instrument.lastCheckedAt === null
                ? null
                : { at: instrument.lastCheckedAt, passed: instrument.lastCheckPassed === true },
          },
  }
}
