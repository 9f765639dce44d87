import { Select } from '@mantine/core'
import { useState } from 'react'
import { useParams } from 'wouter'
import type { LoggerPreview } from '#model/contract/index.ts'
import type { BayId } from '#model/record/ids.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { ActionLink } from '../../app/shell.tsx'
import { words } from '../../app/words.ts'
import { useWriter } from '../../app/writer.ts'
import { Note } from '../../parts/banner.tsx'
import { Empty, Page } from '../../parts/page.tsx'
import { FileStep } from './file-step.tsx'
import classes from './import.module.css'
import { ReadStep } from './read-step.tsx'

const say = words.imports

/** A logger's file, step by step: chosen, looked at, checked, and only then written, in one piece. */
export default function ImportScreen() {
  const { bay: given } = useParams<{ bay?: string }>()
  const { outline, nameOf } = useJob()
  const writer = useWriter()
  const [bay, setBay] = useState<string | null>(
    given ?? (outline.bays.length === 1 ? outline.bays[0]!.id : null),
  )
  const [chosen, setChosen] = useState<{ file: File; preview: LoggerPreview } | null>(null)
  if (outline.bays.length === 0) {
    return (
      <Page title={say.title} lead={say.lead}>
        <Empty
          title={words.record.noBayTitle}
          action={<ActionLink href={paths.setUpPart('places')}>{words.record.noBayAction}</ActionLink>}
        >
          {words.record.noBay}
        </Empty>
      </Page>
    )
  }
  return (
    <Page title={say.title} lead={say.lead}>
      <div className={classes.steps}>
        {writer === null && <Note tone="act">{words.trouble.nobodyWrites}</Note>}
        <Select
          label={say.bay}
          placeholder={words.form.choose}
          maw="24rem"
          data={outline.bays.map(({ id }) => ({ value: id as string, label: nameOf(id) }))}
          value={bay}
          onChange={(next) => {
            setBay(next)
            setChosen(null)
          }}
          searchable
        />
        {bay !== null && <FileStep key={bay} bay={bay as BayId} onRead={setChosen} />}
        {bay !== null && chosen !== null && writer !== null && (
          <ReadStep key={chosen.preview.upload} bay={bay as BayId} writer={writer} {...chosen} />
        )}
      </div>
    </Page>
  )
}
