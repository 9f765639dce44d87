import { Button } from '@mantine/core'
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import type { BackupInfo } from '#model/contract/index.ts'
import { orpc } from '../../app/client.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { troubleOf } from '../../app/trouble.ts'
import { words } from '../../app/words.ts'
import { BackupList, savedText, savedWhole } from '../../parts/backup-list.tsx'
import { Banner, Note } from '../../parts/banner.tsx'
import { Section } from '../../parts/page.tsx'
import { Waiting } from '../../parts/waiting.tsx'
import { NotificationSwitch } from './notification-switch.tsx'
import classes from './set-up.module.css'
import { VerifyRecord } from './verify-record.tsx'

const say = words.setUp.record

/** Where the record lies, whether it is whole, and its backups. */
export function RecordPart() {
  return (
    <>
      <Whereabouts />
      <NotificationSwitch />
      <Section title={say.verifyTitle}>
        <VerifyRecord />
      </Section>
      <Section title={say.backups}>
        <Backups />
      </Section>
      <p className={classes.cautionLine}>{say.caution}</p>
    </>
  )
}

function Whereabouts() {
  const { data } = useQuery(orpc.host.info.queryOptions())
  if (data === undefined) return <Waiting />
  const lines = [
    [say.folder, data.dataFolder],
    [say.device, data.device],
    [say.version, data.version],
    [say.hostLabel, say.host[data.host]],
  ] as const
  return (
    <dl className={classes.pairs}>
      {lines.map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd className={name === say.folder ? classes.mono : undefined}>{value}</dd>
        </div>
      ))}
    </dl>
  )
}

function Backups() {
  const queries = useQueryClient()
  const { zone } = useJob()
  const now = useNow()
  const { data, error } = useQuery(orpc.record.backups.queryOptions())
  const backUp = useMutation({
    ...orpc.record.backUp.mutationOptions(),
    onSettled: () => queries.invalidateQueries({ queryKey: orpc.record.backups.key() }),
  })
  const failed = backUp.error ?? error
  return (
    <>
      <p className={classes.cardLine}>{say.backupsLead}</p>
      <Button mt="sm" mb="md" onClick={() => backUp.mutate({})} loading={backUp.isPending}>
        {say.backUp}
      </Button>
      {failed !== null && <Banner trouble={troubleOf(failed)} />}
      {backUp.data !== undefined && <Saved backup={backUp.data.backup} />}
      <BackupList backups={data?.backups ?? []} zone={zone} now={now} />
    </>
  )
}

function Saved({ backup }: { backup: BackupInfo }) {
  return (
    <Note tone={savedWhole(backup) ? 'good' : 'act'}>{say.backedUp(backup.file, savedText(backup))}</Note>
  )
}
