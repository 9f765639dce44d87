import { Button } from '@mantine/core'
import { type FormEvent, useState } from 'react'
import { useLocation, useParams } from 'wouter'
import type { SymptomCode } from '#model/record/words.ts'
import { nowMs } from '../../../app/clock.ts'
import { newId } from '../../../app/ids.ts'
import { useJob } from '../../../app/job.tsx'
import { paths } from '../../../app/paths.ts'
import { NobodyWrites, useRecorder } from '../../../app/recorder.ts'
import { ActionLink } from '../../../app/shell.tsx'
import { troubleOf } from '../../../app/trouble.ts'
import { faultsWords } from '../../../app/words/faults.ts'
import { words as allWords } from '../../../app/words.ts'
import { Banner, Note } from '../../../parts/banner.tsx'
import { CautionLines } from '../../../parts/caution.tsx'
import type { DraftValues } from '../../../parts/entry-form/draft.ts'
import { EntryFields } from '../../../parts/entry-form/entry-fields.tsx'
import { ProblemList } from '../../../parts/entry-form/problem-list.tsx'
import { type EntryForm, useEntryForm } from '../../../parts/entry-form/use-entry-form.ts'
import { Empty, Page } from '../../../parts/page.tsx'
import { siteDay } from '../../../parts/site-time.ts'
import { SymptomPicker } from '../symptoms/symptom-picker.tsx'
import { bayUnder, isWhole, type Place } from './place.ts'
import { PlacePart } from './place-part.tsx'
import classes from './report.module.css'
import { draftOfPlace, draftOfSymptoms, entriesOfReport, placeOf, symptomsOf } from './report-draft.ts'

const words = faultsWords.report

/** Something is wrong with a bay: where, what it looks like, how big. */
export default function ReportScreen() {
  const { bay } = useParams<{ bay?: string }>()
  const { outline } = useJob()
  if (outline.bays.length === 0) {
    const { noBays, noBaysLead, toFloors } = faultsWords.list
    return (
      <Page title={words.title}>
        <Empty title={noBays} action={<ActionLink href={paths.floors}>{toFloors}</ActionLink>}>
          {noBaysLead}
        </Empty>
      </Page>
    )
  }
  return <ReportForm key={bay} from={bay} />
}

function ReportForm({ from }: { from: string | undefined }) {
  const { outline, zone } = useJob()
  const [, go] = useLocation()
  const recorder = useRecorder()
  const form = useEntryForm({
    kind: 'defect-found',
    draftKey: from === undefined ? 'report a fault' : `report a fault ${from}`,
    zone,
    start: { bay: from, firstSeenOn: siteDay(nowMs(), zone) },
  })
  const { values } = form.draft
  const place = placeOf(values)
  const symptoms = symptomsOf(values)
  const bay = outline.bays.find(({ id }) => id === values.bay)?.id ?? null
  const [chosenFloor, setFloor] = useState<string | null>(null)
  const floors = outline.floors.toSorted((a, b) => a.body.level - b.body.level)
  const floor = chosenFloor ?? outline.bays.find(({ id }) => id === bay)?.floor ?? floors[0]?.id
  const put = (part: DraftValues) => form.change({ values: { ...values, ...part } })
  const onPlace = (next: Place) => {
    const under = bayUnder(
      next,
      outline.bays.filter((one) => one.floor === floor),
    )
    put({ ...draftOfPlace(next), ...(under === null ? {} : { bay: under.id }) })
  }
  const missing = [
    ...(bay === null ? [{ field: 'bay', message: words.bayNeeded }] : []),
    ...(place.points.length > 0 && !isWhole(place)
      ? [{ field: 'outline', message: faultsWords.place.tooFew[place.shape] }]
      : []),
  ]
  const problems = [
    ...missing,
    ...form.problems.map((problem) =>
      problem.field === 'symptom' ? { ...problem, message: words.symptomNeeded } : problem,
    ),
  ]
  const save = async (event: FormEvent) => {
    event.preventDefault()
    const main = form.submit()
    if (main === null || bay === null || missing.length > 0) return
    const facts = entriesOfReport(values, main).map((entry) => ({
      ...main,
      ...entry,
      kind: 'defect-found' as const,
      subject: bay,
    }))
    try {
      await recorder.mutateAsync(facts)
      form.clear()
      go(paths.fault(main.id), { replace: true })
    } catch (error) {
      // The mutation keeps the error for the banner; here its sentences go to their boxes.
      form.refuse(troubleOf(error).fields)
    }
  }
  return (
    <Page title={words.title} lead={words.lead}>
      <form noValidate className={classes.form} onSubmit={(event) => void save(event)}>
        <PlacePart
          place={place}
          onPlace={onPlace}
          floor={floors.find(({ id }) => id === floor)}
          onFloor={(next) => {
            setFloor(next)
            put({ ...draftOfPlace({ ...place, points: [] }), bay: undefined })
          }}
          bay={bay}
          onBay={(next) => put({ bay: next })}
          error={form.tried && bay === null ? words.bayNeeded : undefined}
        />
        <SymptomPicker
          chosen={symptoms}
          onChange={(next) => put(draftOfSymptoms(values, next, newId))}
          error={form.tried && symptoms.length === 0 ? words.symptomNeeded : undefined}
        />
        <section className={classes.part} aria-labelledby="fault-size">
          <h2 id="fault-size" className={classes.title}>
            {words.size}
          </h2>
          {symptoms.some(isCrack) && <Note>{words.card}</Note>}
          <EntryFields form={withoutSymptom(form)} />
        </section>
        <CautionLines ids={['structure']} subject={bay ?? ''} />
        {form.tried && <ProblemList formId="defect-found" problems={problems} />}
        {recorder.error !== null && (
          <Banner
            trouble={
              recorder.error instanceof NobodyWrites
                ? { banner: allWords.trouble.nobodyWrites, fields: {} }
                : troubleOf(recorder.error)
            }
          />
        )}
        <div className={classes.acts}>
          <Button type="submit" size="lg" loading={recorder.isPending}>
            {words.save}
          </Button>
          {form.draft.changed && (
            <>
              <Button variant="subtle" onClick={form.clear}>
                {allWords.form.clearForm}
              </Button>
              <span className={classes.soft}>{allWords.form.kept}</span>
            </>
          )}
        </div>
      </form>
    </Page>
  )
}

const cracks: ReadonlySet<SymptomCode> = new Set(['S05', 'S06', 'S07', 'S08', 'S09'])
const isCrack = (code: SymptomCode) => cracks.has(code)

/** The pictures ask for the symptom; its box does not ask again. */
function withoutSymptom(form: EntryForm): EntryForm {
  const { symptom: _, ...first } = form.first
  return { ...form, first }
}
