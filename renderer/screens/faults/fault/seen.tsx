import { Button } from '@mantine/core'
import { type ReactNode, useState } from 'react'
import { Link } from 'wouter'
import type { FaultPage } from '#model/contract/faults.ts'
import { structuralSigns } from '#model/faults/words.ts'
import { kinds } from '#model/record/kinds.ts'
import { useNow } from '../../../app/clock.ts'
import { useJob } from '../../../app/job.tsx'
import { paths } from '../../../app/paths.ts'
import { faultsWords } from '../../../app/words/faults.ts'
import { Note } from '../../../parts/banner.tsx'
import { EntryForm } from '../../../parts/entry-form/entry-form.tsx'
import { numberText } from '../../../parts/number-text.ts'
import { Section } from '../../../parts/page.tsx'
import { PhotoStrip } from '../../../parts/photos/photo-grid.tsx'
import { calendarDayText, momentText } from '../../../parts/site-time.ts'
import { SymptomDrawing } from '../symptoms/symptom-drawing.tsx'
import classes from './fault.module.css'
import { FaultOnBay } from './fault-on-bay.tsx'

const words = faultsWords.page

/** What is seen: picture, place, size, and who found it. */
export function Seen({ page }: { page: FaultPage }) {
  const { nameOf } = useJob()
  const [measuring, setMeasuring] = useState(false)
  const { fault, defects, bay } = page
  const structural = defects.some(
    ({ body }) => body.structuralSigns !== undefined && body.structuralSigns !== 'none',
  )
  return (
    <Section title={words.seen}>
      {structural && <Note tone="act">{words.structure}</Note>}
      <div className={classes.seen}>
        <div className={classes.pictures}>
          {fault.symptoms.slice(0, 2).map((code) => (
            <SymptomDrawing key={code} symptom={code} />
          ))}
        </div>
        <SeenFacts page={page} />
        <FaultOnBay outline={bay.outline} defects={defects} label={words.onPlan(nameOf(fault.bay))} />
      </div>
      <div className={classes.block}>
        <PhotoStrip subject={fault.bay} of={fault.id} also={fault.defects} tag="defect" />
      </div>
      {measuring ? (
        <div className={classes.inlineForm}>
          <h3 className={classes.small}>{faultsWords.measure.title}</h3>
          <p className={classes.soft}>{faultsWords.measure.lead}</p>
          <EntryForm
            kind="defect-measured"
            subject={fault.bay}
            draftKey={`defect-measured ${fault.id}`}
            start={{ defect: fault.id }}
            given={['defect']}
            saveLabel={faultsWords.measure.save}
            onSaved={() => setMeasuring(false)}
          />
        </div>
      ) : (
        fault.state !== 'closed' && (
          <div className={classes.acts}>
            <Button variant="default" onClick={() => setMeasuring(true)}>
              {words.more}
            </Button>
          </div>
        )
      )}
    </Section>
  )
}

/** The facts as they stand: what was measured last counts. */
export function SeenFacts({ page }: { page: FaultPage }) {
  const { nameOf, zone } = useJob()
  const now = useNow()
  const { fault, defects, measured } = page
  const [main] = defects
  const found: Record<string, unknown> = Object.assign(
    {},
    ...defects.toReversed().map(({ body }) => body),
    ...measured.map(({ body }) => body),
  )
  const { facts } = words
  const amount = (name: string, unit: string) =>
    typeof found[name] === 'number' ? `${numberText(found[name])} ${unit}` : null
  const yesNo = (name: string) =>
    typeof found[name] === 'boolean' ? (found[name] ? facts.yes : facts.no) : null
  const fields = kinds['defect-found'].fields
  const extent = fields.extent.options[main?.body.extent ?? 'spot']
  const growing = main?.body.growing
  const sign = main?.body.structuralSigns
  const lines: [string, ReactNode][] = [
    [facts.firstSeen, calendarDayText(fault.firstSeenOn)],
    [
      facts.reported,
      main === undefined ? null : (
        <>
          {momentText(main.happenedAt, zone, now)}, {nameOf(main.person)}{' '}
          <Link href={paths.entry(main.id)} className={classes.noPrint}>
            {words.entry}
          </Link>
        </>
      ),
    ],
    [facts.extent, extent],
    [facts.length, amount('lengthM', 'm')],
    [facts.area, fault.areaM2 === null ? null : `${numberText(fault.areaM2)} m²`],
    [facts.width, fault.widthMm === null ? null : `${numberText(fault.widthMm)} mm`],
    [facts.card, yesNo('cardSlidesIn')],
    [facts.step, amount('stepMm', 'mm')],
    [facts.weakTo, amount('weakToMm', 'mm')],
    [facts.hollow, amount('hollowM2', 'm²')],
    [facts.rocks, yesNo('rocks')],
    [facts.growing, growing === undefined ? null : fields.growing.options?.[growing]?.toLowerCase()],
    [facts.structure, sign === undefined ? null : structuralSigns[sign]],
    [facts.note, notesOf(page)],
  ]
  return (
    <dl className={classes.facts}>
      {lines
        .filter(([, value]) => value !== null && value !== undefined && value !== '')
        .map(([name, value]) => (
          <div key={name} className={classes.fact}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
    </dl>
  )
}

function notesOf({ defects }: FaultPage): string {
  return [...new Set(defects.flatMap(({ body }) => body.note ?? []))].join(' · ')
}
