import { TextInput } from '@mantine/core'
import { keepPreviousData, useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'wouter'
import type { Amendment, Change } from '#model/audit/index.ts'
import type { LateLine } from '#model/contract/index.ts'
import type { FieldSet } from '#model/record/fields.ts'
import { type KindName, kinds } from '#model/record/kinds.ts'
import { orpc } from '../../app/client.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { troubleOf } from '../../app/trouble.ts'
import { words } from '../../app/words.ts'
import { Banner, Note } from '../../parts/banner.tsx'
import { useValueText } from '../../parts/body-list.tsx'
import { Mark } from '../../parts/mark.tsx'
import { numberText } from '../../parts/number-text.ts'
import { Section } from '../../parts/page.tsx'
import { calendarDayText, dayOnSite, momentText, siteIso } from '../../parts/site-time.ts'
import { Waiting } from '../../parts/waiting.tsx'
import classes from './audit.module.css'

const say = words.audit.changes

/** What changed in the record since somebody last looked, and who changed it. */
export function ChangesPart() {
  const { id, zone } = useJob()
  const now = useNow()
  const [day, setDay] = useState('')
  const typed = dayOnSite(day, zone)
  const isFuture = typed !== null && typed.from > now
  const chosen = isFuture ? null : typed
  const sinceDay = chosen === null ? null : calendarDayText(day)
  const since = chosen === null ? undefined : siteIso(chosen.from, zone)
  const { data, error, isPending, refetch } = useQuery({
    ...orpc.audit.amendments.queryOptions({
      input: since === undefined ? { project: id } : { project: id, since },
    }),
    placeholderData: keepPreviousData,
  })
  return (
    <>
      <TextInput
        type="date"
        label={say.since}
        description={sinceDay === null ? say.all : say.sinceHelp}
        error={isFuture ? words.audit.matrix.future : undefined}
        className={classes.day}
        value={day}
        onChange={(event) => setDay(event.currentTarget.value)}
      />
      {error !== null && <Banner trouble={troubleOf(error)} onRetry={() => void refetch()} />}
      {isPending && <Waiting />}
      {data !== undefined && (
        <>
          {data.more && <Note>{say.more}</Note>}
          <Section title={say.amendments}>
            {data.amendments.length === 0 && <p>{say.none(sinceDay)}</p>}
            <ul className={classes.lines}>
              {data.amendments.map((one) => (
                <AmendmentLine key={one.version} amendment={one} />
              ))}
            </ul>
          </Section>
          <Section title={say.late}>
            {data.late.length === 0 && <p>{say.noLate(sinceDay)}</p>}
            <ul className={classes.lines}>
              {data.late.map((one) => (
                <LateLineItem key={one.entry} line={one} />
              ))}
            </ul>
          </Section>
        </>
      )}
    </>
  )
}

function AmendmentLine({ amendment }: { amendment: Amendment }) {
  const { zone, nameOf } = useJob()
  const now = useNow()
  const { entry, kind, subject, what, at, person, reason, changes, conflict, firstAt, firstBy } = amendment
  return (
    <li className={classes.line}>
      <div>
        <p>
          {what === 'withdrawn' ? (
            <Mark shape="squareCross" tone="act" word={say.withdrawn} />
          ) : (
            <Mark shape="ringDot" tone="watch" word={say[what]} />
          )}
        </p>
        <p className={classes.soft}>{say.by(nameOf(person), momentText(at, zone, now))}</p>
      </div>
      <div>
        <p>
          <Link href={paths.entry(entry)} className={classes.strong}>
            {kinds[kind].title}
          </Link>{' '}
          {nameOf(subject)}
        </p>
        <p>{reason === null ? say.noReason : say.reason(reason)}</p>
        {(what === 'corrected' || changes.length > 0) && <Changes kind={kind} changes={changes} />}
        {conflict && <Note tone="act">{say.conflict}</Note>}
        <p className={classes.soft}>{say.first(nameOf(firstBy), momentText(firstAt, zone, now))}</p>
      </div>
    </li>
  )
}

function Changes({ kind, changes }: { kind: KindName; changes: readonly Change[] }) {
  const text = useValueText()
  const { zone } = useJob()
  if (changes.length === 0) return <p className={classes.soft}>{say.nothing}</p>
  const fields: FieldSet = kinds[kind].fields
  const shown = (field: string, value: unknown) => {
    if (field === 'happenedAt') return momentText(Date.parse(String(value)), zone)
    const known = fields[field]
    return known === undefined ? String(value) : text(known, value)
  }
  return (
    <ul className={classes.changes}>
      {changes.map(({ field, label, from, to }) => (
        <li key={field}>
          {label}: <del>{shown(field, from)}</del> <ins>{shown(field, to)}</ins>
        </li>
      ))}
    </ul>
  )
}

function LateLineItem({ line }: { line: LateLine }) {
  const { zone, nameOf } = useJob()
  const now = useNow()
  const { entry, kind, subject, person, happenedAt, recordedAt, hours, decisive } = line
  return (
    <li className={classes.line}>
      <div>
        <p>
          <strong>{say.lateBy(numberText(hours / 24, 1))}</strong>
        </p>
        {decisive && <Mark shape="trianglePoint" tone="act" word={say.decisive} size={17} />}
      </div>
      <div>
        <p>
          <Link href={paths.entry(entry)} className={classes.strong}>
            {kinds[kind].title}
          </Link>{' '}
          {nameOf(subject)}
        </p>
        <p className={classes.soft}>
          {say.happened} {momentText(happenedAt, zone, now)}. {say.written}{' '}
          {say.by(nameOf(person), momentText(recordedAt, zone, now))}
        </p>
      </div>
    </li>
  )
}
