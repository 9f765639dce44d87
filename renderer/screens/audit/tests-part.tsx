import { useState } from 'react'
import { Link } from 'wouter'
import type { AuditOpen } from '#model/contract/index.ts'
import { moistureMethods } from '#model/record/words.ts'
import type { Verdict } from '#model/rules/limit.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { troubleOf } from '../../app/trouble.ts'
import { words } from '../../app/words.ts'
import { Banner } from '../../parts/banner.tsx'
import { Mark, type Tone } from '../../parts/mark.tsx'
import type { Shape } from '../../parts/mark-shapes.tsx'
import { quantityText } from '../../parts/number-text.ts'
import { Segmented } from '../../parts/segmented.tsx'
import { momentText, saidOnSite } from '../../parts/site-time.ts'
import { Waiting } from '../../parts/waiting.tsx'
import classes from './audit.module.css'
import { useOpen } from './use-open.ts'

const say = words.audit.tests
type Test = AuditOpen['tests'][number]

const marks: Record<Verdict, { shape: Shape; tone: Tone }> = {
  pass: { shape: 'discTick', tone: 'good' },
  fail: { shape: 'ringDot', tone: 'watch' },
  invalid: { shape: 'squareCross', tone: 'stop' },
  'not known': { shape: 'diamondAsk', tone: 'unproven' },
}

/** Every moisture test with its verdict: valid, or just a number. */
export function TestsPart() {
  const { data, error, isPending, refetch } = useOpen()
  const [filter, setFilter] = useState<'all' | 'invalid'>('all')
  if (isPending) return <Waiting />
  if (error !== null) return <Banner trouble={troubleOf(error)} onRetry={() => void refetch()} />
  const { tests } = data
  if (tests.length === 0) return <p>{say.none}</p>
  const valid = tests.filter((test) => test.valid).length
  const invalid = tests.filter(({ verdict }) => verdict === 'invalid').length
  const shown = filter === 'all' ? tests : tests.filter((test) => !test.valid)
  return (
    <>
      <p className={classes.count}>{say.counts(valid, invalid, tests.length - valid - invalid)}</p>
      <Segmented
        label={say.filter}
        hideLabel
        options={say.filters}
        value={filter}
        onChange={(next) => setFilter(next as 'all' | 'invalid')}
      />
      <table className={classes.table}>
        <thead>
          <tr>
            {[say.when, say.place, say.method, say.value, say.verdict, say.why].map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {shown.map((test) => (
            <TestRow key={test.entry} test={test} />
          ))}
        </tbody>
      </table>
    </>
  )
}

function TestRow({ test }: { test: Test }) {
  const { zone, nameOf, outline } = useJob()
  const now = useNow()
  const { bay, entry, at, point, method, value, unit, verdict, reasons } = test
  const zoneOfBay = outline.bays.find(({ id }) => id === bay)?.body.zone
  const agreed = outline.zones.find(({ id }) => id === zoneOfBay)?.body.moistureMethod
  return (
    <tr>
      <td>
        <Link href={paths.entry(entry)}>{momentText(at, zone, now)}</Link>
      </td>
      <td>
        <Link href={paths.auditBay(bay)}>{nameOf(bay)}</Link>, {point}
      </td>
      <td>
        {moistureMethods[method]}
        {agreed !== undefined && agreed !== method && (
          <span className={classes.soft}> ({say.notAgreed})</span>
        )}
      </td>
      <td className={classes.number}>{value === null ? words.notKnown : quantityText(value, unit)}</td>
      <td>
        <Mark {...marks[verdict]} word={say.verdicts[verdict]} />
      </td>
      <td className={classes.reasons}>{saidOnSite(reasons.join(' '), zone)}</td>
    </tr>
  )
}
