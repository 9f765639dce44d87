import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { orpc } from '../../app/client.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { ActionLink } from '../../app/shell.tsx'
import { troubleOf } from '../../app/trouble.ts'
import { handoverWords as words } from '../../app/words/handover.ts'
import { Banner } from '../../parts/banner.tsx'
import { Empty, Page, Section } from '../../parts/page.tsx'
import { ChooseBays } from './choose-bays.tsx'
import { Gaps } from './gaps.tsx'
import classes from './handover.module.css'
import { MakeFile } from './make-file.tsx'

/** Choose bays, see what is missing, make the file. */
export default function HandoverScreen() {
  const { id, outline } = useJob()
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set())
  const { data, error, refetch } = useQuery(orpc.reports.gaps.queryOptions({ input: { project: id } }))
  const chosen = outline.bays.filter((bay) => !left.has(bay.id))
  if (outline.bays.length === 0) {
    return (
      <Page title={words.title} lead={words.lead}>
        <Empty title={words.noBays} action={<ActionLink href={paths.floors}>{words.toFloors}</ActionLink>}>
          {words.noBaysLead}
        </Empty>
      </Page>
    )
  }
  return (
    <Page title={words.title} lead={words.lead}>
      {error !== null && <Banner trouble={troubleOf(error)} onRetry={() => void refetch()} />}
      <div className={classes.columns}>
        <div>
          <Section title={words.bays.title}>
            <ChooseBays left={left} onLeft={setLeft} known={data?.bays ?? null} />
          </Section>
          <Section title={words.gaps.title}>
            <Gaps chosen={chosen} known={data?.bays ?? null} />
          </Section>
        </div>
        <div>
          <Section title={words.file.title}>
            <MakeFile bays={chosen.map((bay) => bay.id)} />
          </Section>
          <Section title={words.bundle.title}>
            <p className={classes.soft}>{words.bundle.lead}</p>
            <ActionLink href={paths.bundle} quiet>
              {words.bundle.open}
            </ActionLink>
          </Section>
        </div>
      </div>
    </Page>
  )
}
