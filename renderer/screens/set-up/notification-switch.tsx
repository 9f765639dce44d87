import { Switch } from '@mantine/core'
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { orpc } from '../../app/client.ts'
import { troubleOf } from '../../app/trouble.ts'
import { words } from '../../app/words.ts'
import { Banner } from '../../parts/banner.tsx'
import { Section } from '../../parts/page.tsx'
import classes from './set-up.module.css'

const say = words.setUp.notifications

/** The off switch of the desktop's reminders; a browser reminds of nothing and has none. */
export function NotificationSwitch() {
  const queries = useQueryClient()
  const { data } = useQuery(orpc.host.info.queryOptions())
  const set = useMutation({
    ...orpc.host.setNotifications.mutationOptions(),
    onSettled: () => queries.invalidateQueries({ queryKey: orpc.host.info.key() }),
  })
  if (data === undefined || data.notifications === null) return null
  return (
    <Section title={say.title}>
      <Switch
        size="md"
        label={say.label}
        checked={data.notifications}
        disabled={set.isPending}
        onChange={(event) => set.mutate({ on: event.currentTarget.checked })}
      />
      <p className={classes.cardLine}>{say.lead}</p>
      {set.error !== null && <Banner trouble={troubleOf(set.error)} />}
    </Section>
  )
}
