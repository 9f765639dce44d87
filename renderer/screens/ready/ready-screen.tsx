import { Button, Select } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { useLocation, useParams } from 'wouter'
import type { ReadyPage } from '#model/contract/index.ts'
import type { BayId } from '#model/record/ids.ts'
import { type Covering, coverings } from '#model/record/words.ts'
import { orpc } from '../../app/client.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { ActionLink } from '../../app/shell.tsx'
import { troubleOf } from '../../app/trouble.ts'
import { readyWords as words } from '../../app/words/ready.ts'
import { words as allWords } from '../../app/words.ts'
import { Banner } from '../../parts/banner.tsx'
import { Waiting } from '../../parts/waiting.tsx'
import { BayList } from './bay-list.tsx'
import classes from './ready.module.css'
import { ReadySheet } from './ready-sheet.tsx'

/** May this bay be covered, with this covering, today? One page a bay. */
export default function ReadyScreen() {
  const { bay } = useParams<{ bay?: string }>()
  const { outline } = useJob()
  const known = outline.bays.find(({ id }) => id === bay)
  if (known === undefined) return <BayList />
  const planned = outline.zones.find(({ id }) => id === known.body.zone)?.body.covering ?? 'resilient'
  return <OneBay key={known.id} bay={known.id} planned={planned} />
}

function OneBay({ bay, planned }: { bay: BayId; planned: Covering }) {
  const { outline, nameOf } = useJob()
  const [, go] = useLocation()
  const [covering, setCovering] = useState<Covering>(planned)
  const { data, error, isPlaceholderData, refetch } = useQuery({
    ...orpc.bays.ready.queryOptions({ input: { bay, covering } }),
    placeholderData: (before: ReadyPage | undefined) => before,
  })
  return (
    <div className={classes.page}>
      <div className={classes.choose}>
        <Select
          label={words.bay}
          searchable
          data={outline.bays.map(({ id, state }) => ({
            value: id,
            label: `${nameOf(id)}, ${allWords.states[state.word].toLowerCase()}`,
          }))}
          value={bay}
          onChange={(next) => next !== null && go(paths.ready(next))}
        />
        <Select
          label={words.covering}
          data={Object.entries(coverings).map(([value, label]) => ({
            value,
            label: value === planned ? words.planned(label) : label,
          }))}
          value={covering}
          onChange={(next) => next !== null && setCovering(next as Covering)}
        />
        <div className={classes.actions}>
          <Button variant="default" onClick={() => window.print()}>
            {words.print}
          </Button>
          <ActionLink href={paths.bay(bay)} quiet>
            {words.life}
          </ActionLink>
        </div>
      </div>
      {error !== null && <Banner trouble={troubleOf(error)} onRetry={() => void refetch()} />}
      {data === undefined ? (
        error === null && <Waiting />
      ) : (
        <div aria-busy={isPlaceholderData}>
          <ReadySheet page={data} covering={covering} />
        </div>
      )}
    </div>
  )
}
