import { TextInput } from '@mantine/core'
import { useState } from 'react'
import { Link, useParams } from 'wouter'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { ActionLink } from '../../app/shell.tsx'
import { words } from '../../app/words.ts'
import { Empty, Page, Section } from '../../parts/page.tsx'
import { recordable } from '../../parts/recordable.ts'
import { Segmented } from '../../parts/segmented.tsx'
import { groupKinds } from './kind-groups.ts'
import classes from './record.module.css'

const say = words.record

/** What to write down: first where, then what. */
export default function PickScreen() {
  const { subject } = useParams<{ subject?: string }>()
  const { outline, nameOf } = useJob()
  const [picked, setPicked] = useState<string | null>(subject ?? onlyOne(outline.bays))
  if (outline.bays.length === 0) {
    return (
      <Page title={say.title}>
        <Empty
          title={say.noBayTitle}
          action={<ActionLink href={paths.setUpPart('places')}>{say.noBayAction}</ActionLink>}
        >
          {say.noBay}
        </Empty>
      </Page>
    )
  }
  const about = picked === null ? null : subjectType(outline, picked)
  return (
    <Page title={say.title} lead={say.lead}>
      {outline.bays.length <= 40 ? (
        <Segmented
          label={say.where}
          options={Object.fromEntries([
            ...outline.bays.map(({ id }) => [id, nameOf(id)]),
            ...outline.zones.map(({ id }) => [id, say.wholeZone(nameOf(id))]),
            [outline.project.id, say.wholeProject],
          ])}
          value={picked}
          onChange={setPicked}
        />
      ) : (
        <BayFinder picked={picked} onPick={setPicked} />
      )}
      {picked !== null && about !== null && <Kinds about={about} subject={picked} />}
    </Page>
  )
}

function Kinds({ about, subject }: { about: 'bay' | 'zone' | 'project'; subject: string }) {
  return groupKinds(recordable(about)).map(({ title, kinds }) => (
    <Section key={title} title={title}>
      <ul className={classes.kinds}>
        {kinds.map(({ kind, title: kindTitle }) => (
          <li key={kind}>
            <Link href={paths.recordKind(kind, subject)} className={classes.kind}>
              {kindTitle}
            </Link>
          </li>
        ))}
      </ul>
    </Section>
  ))
}

/** More than forty bays are found by name, not by looking. */
function BayFinder({ picked, onPick }: { picked: string | null; onPick: (id: string) => void }) {
  const { outline, nameOf } = useJob()
  const [wanted, setWanted] = useState('')
  const found = outline.bays
    .filter(({ id }) => nameOf(id).toLowerCase().includes(wanted.trim().toLowerCase()) || id === picked)
    .slice(0, 24)
  return (
    <>
      <TextInput
        label={say.findBay}
        maw="24rem"
        mb="md"
        value={wanted}
        onChange={(event) => setWanted(event.currentTarget.value)}
      />
      <Segmented
        label={say.where}
        options={Object.fromEntries(found.map(({ id }) => [id, nameOf(id)]))}
        value={picked}
        onChange={onPick}
      />
    </>
  )
}

function onlyOne(bays: readonly { id: string }[]): string | null {
  return bays.length === 1 ? bays[0]!.id : null
}

function subjectType({ project, zones, bays }: ReturnType<typeof useJob>['outline'], id: string) {
  if (bays.some((bay) => bay.id === id)) return 'bay'
  if (zones.some((zone) => zone.id === id)) return 'zone'
  return project.id === id ? 'project' : null
}
