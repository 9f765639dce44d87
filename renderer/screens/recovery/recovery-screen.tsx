import { Button, Checkbox } from '@mantine/core'
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { HostInfo } from '#model/contract/index.ts'
import { orpc } from '../../app/client.ts'
import { useNow } from '../../app/clock.ts'
import { troubleOf } from '../../app/trouble.ts'
import { asSentence } from '../../app/words/trouble.ts'
import { words } from '../../app/words.ts'
import { BackupList } from '../../parts/backup-list.tsx'
import { Banner, Note } from '../../parts/banner.tsx'
import { Page, Section } from '../../parts/page.tsx'
import classes from './recovery.module.css'

interface RecoveryScreenProps {
  state: Extract<HostInfo['recordState'], { state: 'recovery' }>
  host: HostInfo
}

const say = words.recovery

/** The record cannot be opened. The app still starts: why, what is safe, what can be done. Nothing here deletes. */
export default function RecoveryScreen({ state, host }: RecoveryScreenProps) {
  const now = useNow()
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone
  const backups = useQuery(orpc.record.backups.queryOptions())
  return (
    <main className={classes.page}>
      <Page title={say.title} lead={say.lead} narrow>
        <Banner trouble={{ banner: asSentence(state.reason), fields: {} }}>
          <p className={classes.code}>{say.code(state.code)}</p>
        </Banner>
        <Section title={say.where}>
          <p className={classes.folder}>{host.dataFolder}</p>
          <p>{say.whereLead}</p>
        </Section>
        <Section title={words.setUp.record.backups}>
          {backups.error !== null && <Banner trouble={troubleOf(backups.error)} />}
          <BackupList backups={backups.data?.backups ?? []} zone={zone} now={now} />
          <p className={classes.lead}>{say.restore}</p>
        </Section>
        <Section title={say.moveTitle}>
          <MoveAside />
        </Section>
      </Page>
    </main>
  )
}

function MoveAside() {
  const queries = useQueryClient()
  const [sure, setSure] = useState(false)
  const move = useMutation(orpc.recovery.moveAside.mutationOptions())
  if (move.data !== undefined) {
    return (
      <Note tone="good">
        <p role="status">{say.moved(move.data.movedTo)}</p>
        <Button mt="sm" onClick={() => void queries.resetQueries()}>
          {say.goOn}
        </Button>
      </Note>
    )
  }
  return (
    <div className={classes.move}>
      <p>{say.moveLead}</p>
      <Checkbox
        size="md"
        label={say.sure}
        checked={sure}
        onChange={(event) => setSure(event.currentTarget.checked)}
      />
      {move.error !== null && <Banner trouble={troubleOf(move.error)} />}
      <Button disabled={!sure} loading={move.isPending} onClick={() => move.mutate({})}>
        {say.move}
      </Button>
      <Button variant="default" onClick={() => void queries.resetQueries()}>
        {words.tryAgain}
      </Button>
    </div>
  )
}
