import { useQuery } from '@tanstack/react-query'
import { orpc } from '../../app/client.ts'
import { useJob } from '../../app/job.tsx'
import { troubleOf } from '../../app/trouble.ts'
import { words } from '../../app/words.ts'
import { Banner } from '../../parts/banner.tsx'
import { Section } from '../../parts/page.tsx'
import classes from './set-up.module.css'

const say = words.setUp.tuning

/** Rules that fire on most bays: a question to the rule or to the way of working, for the quality manager. */
export function TuningList() {
  const { id } = useJob()
  const { data, error, refetch } = useQuery(orpc.projects.tuning.queryOptions({ input: { project: id } }))
  if (error !== null) return <Banner trouble={troubleOf(error)} onRetry={() => void refetch()} />
  if (data === undefined || data.items.length === 0) return null
  return (
    <Section title={say.title}>
      <p className={classes.cardLine}>{say.lead}</p>
      <ul className={classes.cards}>
        {data.items.map(({ rule, title, bays, of, sharePercent }) => (
          <li key={rule} className={classes.card}>
            <span className={classes.cardTitle}>{title}</span>
            <span>{say.fired(bays, of, Math.round(sharePercent))}</span>
          </li>
        ))}
      </ul>
    </Section>
  )
}
