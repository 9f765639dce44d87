import { Button } from '@mantine/core'
import { useMutation, useQuery } from '@tanstack/react-query'
import type { KeptBundle } from '#model/contract/index.ts'
import { client, orpc } from '../../app/client.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { troubleOf } from '../../app/trouble.ts'
import { words } from '../../app/words.ts'
import { handOut } from '../../charts/save.ts'
import { sizeText } from '../../parts/backup-list.tsx'
import { Banner } from '../../parts/banner.tsx'
import { Section } from '../../parts/page.tsx'
import { momentText } from '../../parts/site-time.ts'
import classes from './bundle.module.css'
import { Fingerprint } from './bundle-fingerprint.tsx'

const say = words.bundle.kept
/** A larger file is better copied on the disk than carried through a page. */
const mostBytesSaved = 500_000_000

/** The bundles of this machine: what each holds, its fingerprint, and a way to save a copy. */
export function BundleList() {
  const { data, error } = useQuery(orpc.bundles.list.queryOptions())
  return (
    <Section title={say.title}>
      {error !== null && <Banner trouble={troubleOf(error)} />}
      {data?.bundles.length === 0 && <p>{say.none}</p>}
      {data !== undefined && data.bundles.length > 0 && (
        <>
          <p className={classes.path}>{say.where(data.folder)}</p>
          <ul className={classes.list}>
            {data.bundles.map((bundle) => (
              <Line key={bundle.name} bundle={bundle} />
            ))}
          </ul>
        </>
      )}
    </Section>
  )
}

function Line({ bundle }: { bundle: KeptBundle }) {
  const { zone } = useJob()
  const now = useNow()
  const { name, about, bytes, fingerprint } = bundle
  const save = useMutation({
    mutationFn: () => client.bundles.file({ name }),
    onSuccess: (file) => handOut(file, name),
  })
  const when = momentText(Date.parse(about.madeAt), zone, now)
  return (
    <li className={classes.line}>
      <div>
        <p>
          <strong>
            {words.bundle.line(words.bundle.scopeOf[about.scope](about.bays), about.given, when)}
          </strong>
        </p>
        {about.reason !== null && <p>{about.reason}</p>}
        <p className={classes.path}>
          {name}, {sizeText(bytes)}
        </p>
        <p>
          <span className={classes.soft}>{say.fingerprint}</span> <Fingerprint hex={fingerprint} />
        </p>
        {save.error !== null && <Banner trouble={troubleOf(save.error)} />}
      </div>
      {bytes > mostBytesSaved ? (
        <p className={classes.soft}>{say.tooLarge}</p>
      ) : (
        <Button variant="default" onClick={() => save.mutate()} loading={save.isPending}>
          {say.save}
        </Button>
      )}
    </li>
  )
}
