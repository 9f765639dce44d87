import { Button } from '@mantine/core'
import { useMutation } from '@tanstack/react-query'
import { Link } from 'wouter'
import type { FaultFact } from '#model/contract/faults.ts'
import { client } from '../../../../app/client.ts'
import { useNow } from '../../../../app/clock.ts'
import { useJob } from '../../../../app/job.tsx'
import { paths } from '../../../../app/paths.ts'
import { troubleOf } from '../../../../app/trouble.ts'
import { faultsWords } from '../../../../app/words/faults.ts'
import { handOut } from '../../../../charts/save.ts'
import { Banner } from '../../../../parts/banner.tsx'
import { momentText } from '../../../../parts/site-time.ts'
import classes from '../fault.module.css'

const words = faultsWords.freeze

/** One set of frozen evidence: what, when, by whom, its hashes, and its files to save elsewhere. */
export function Frozen({ seal }: { seal: FaultFact<'evidence-frozen'> }) {
  const { nameOf, zone } = useJob()
  const now = useNow()
  const save = useMutation({
    mutationFn: (what: 'bundle' | 'report') => client.faults.frozenFile({ entry: seal.id, what }),
    onSuccess: ({ file, name }) => handOut(file, name),
  })
  const { body } = seal
  const at = body.asOf === undefined ? seal.happenedAt : Date.parse(body.asOf)
  const bays = (body.bays ?? []).map(({ bay }) => nameOf(bay)).join(', ')
  const files = (['report', 'bundle'] as const).filter((what) => body[what] !== undefined)
  return (
    <article className={classes.named} aria-label={words.by(nameOf(seal.person), momentText(at, zone, now))}>
      <p className={classes.namedCause}>{words.by(nameOf(seal.person), momentText(at, zone, now))}</p>
      <p>{words.what(bays, body.entriesCount)}</p>
      {body.reason !== undefined && <p>{body.reason}</p>}
      {body.note !== undefined && <p>{body.note}</p>}
      <Hash name={words.hash} file={body.bundle} hex={body.contentHash} />
      <Hash name={words.reportHash} file={body.report} hex={body.reportHash} />
      <div className={classes.acts}>
        {files.map((what) => (
          <Button key={what} variant="default" loading={save.isPending} onClick={() => save.mutate(what)}>
            {words.save[what]}
          </Button>
        ))}
        <Link href={paths.entry(seal.id)}>{faultsWords.page.entry}</Link>
      </div>
      {files.length === 0 && <p className={classes.soft}>{words.elsewhere}</p>}
      {save.error !== null && <Banner trouble={troubleOf(save.error)} />}
    </article>
  )
}

interface HashProps {
  name: string
  file: string | undefined
  hex: string | undefined
}

/** In groups of four, as people read a hash to each other. */
function Hash({ name, file, hex }: HashProps) {
  if (hex === undefined) return null
  return (
    <div>
      <p className={classes.soft}>
        {name}
        {file !== undefined && ` (${file})`}
      </p>
      <p className={classes.hash}>{hex.match(/.{1,4}/g)?.join(' ')}</p>
    </div>
  )
}
