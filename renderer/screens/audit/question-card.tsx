import { Button } from '@mantine/core'
import { useState } from 'react'
import { Link } from 'wouter'
import { honestyRules, type Question } from '#model/audit/index.ts'
import type { Evidence } from '#model/watch/alert.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { words } from '../../app/words.ts'
import { quantityText } from '../../parts/number-text.ts'
import { momentText, saidOnSite } from '../../parts/site-time.ts'
import classes from './audit.module.css'
import { RaiseForm } from './raise-form.tsx'

const say = words.audit.questions

/** One question: what looks odd, what usually explains it, what it rests on. */
export function QuestionCard({ question }: { question: Question }) {
  const { zone, nameOf } = useJob()
  const [raising, setRaising] = useState(false)
  const { rule, asks, innocent, bays, evidence, source, provenance } = question
  const [first] = bays
  return (
    <li className={classes.card}>
      <h3 className={classes.cardTitle}>{honestyRules[rule]}</h3>
      <p>{saidOnSite(asks, zone)}</p>
      <p className={classes.soft}>
        {say.innocent}: {innocent}
      </p>
      <ul className={classes.evidence}>
        {evidence.map((one) => (
          <li key={`${one.what} ${one.entry} ${one.at}`}>
            <EvidenceText evidence={one} />
          </li>
        ))}
      </ul>
      {bays.length > 0 && (
        <p>
          {say.bays}:{' '}
          {bays.map((bay, i) => (
            <span key={bay}>
              {i > 0 && ', '}
              <Link href={paths.auditBay(bay)}>{nameOf(bay)}</Link>
            </span>
          ))}
        </p>
      )}
      <p className={classes.soft}>{say.source(source, provenance)}</p>
      {first !== undefined &&
        (raising ? (
          <RaiseForm bay={first} rule={honestyRules[rule]} what={asks} onDone={() => setRaising(false)} />
        ) : (
          <div className={classes.acts}>
            <Button variant="default" onClick={() => setRaising(true)}>
              {say.ask}
            </Button>
          </div>
        ))}
    </li>
  )
}

/** "Used on: 2026-11-14, Sat 14 Nov 10:00", as a link where an entry shows it; a person by name. */
function EvidenceText({ evidence }: { evidence: Evidence }) {
  const { zone, nameOf } = useJob()
  const now = useNow()
  const { what, value, unit, at, entry } = evidence
  const person = typeof value === 'string' && value === entry
  const shown =
    typeof value === 'number'
      ? quantityText(value, unit)
      : [person ? nameOf(value) : value, unit].filter((text) => text !== '').join(' ')
  const parts = [shown, at === null ? '' : momentText(at, zone, now)].filter((text) => text !== '')
  const text = `${what}: ${parts.join(', ')}`
  return entry === null ? text : <Link href={paths.entry(entry)}>{text}</Link>
}
