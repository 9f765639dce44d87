import { Button, CloseButton, UnstyledButton } from '@mantine/core'
import { useEffect, useRef } from 'react'
import { Link } from 'wouter'
import { type StoryEntry, sources } from '#model/record/entry.ts'
import { kinds } from '#model/record/kinds.ts'
import { limitText } from '#model/rules/index.ts'
import type { Alert } from '#model/watch/alert.ts'
import type { JudgedTest } from '#model/watch/facts/moisture.ts'
import { isOpen } from '#model/watch/index.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { bayWords } from '../../app/words/bay.ts'
import { BodyList } from '../../parts/body-list.tsx'
import { CheckLines } from '../../parts/check-lines.tsx'
import { Mark } from '../../parts/mark.tsx'
import { quantityText } from '../../parts/number-text.ts'
import { SeverityMark } from '../../parts/severity-mark.tsx'
import { momentText } from '../../parts/site-time.ts'
import { EntryHistory } from '../entries/entry-history.tsx'
import classes from './bay.module.css'
import type { BayReading } from './bay-reading.ts'
import { AnswerForm } from './open-alerts.tsx'

const words = bayWords.panel

export type Chosen = { kind: 'entry'; entry: string } | { kind: 'alerts'; alerts: readonly string[] }

interface SidePanelProps {
  bay: string
  chosen: Chosen
  reading: Pick<BayReading, 'facts' | 'alerts' | 'tests'>
  onEntry: (entry: string) => void
  onClose: () => void
}

/** What was picked: an entry with its author, its history and what it led to, or alerts with what shows them. */
export function SidePanel({ bay, chosen, reading, onEntry, onClose }: SidePanelProps) {
  const { entries } = reading.facts.story
  const entry =
    chosen.kind === 'entry'
      ? entries.find(
          ({ id, versions }) => id === chosen.entry || versions.some((one) => one.id === chosen.entry),
        )
      : undefined
  const alerts = chosen.kind === 'alerts' ? reading.alerts.filter(({ id }) => chosen.alerts.includes(id)) : []
  const title = entry === undefined ? (alerts[0]?.title ?? words.title) : kinds[entry.kind].title
  const heading = useRef<HTMLHeadingElement>(null)
  const key = chosen.kind === 'entry' ? chosen.entry : chosen.alerts.join()
  // biome-ignore lint/correctness/useExhaustiveDependencies: the focus goes to the panel whenever something else is picked
  useEffect(() => heading.current?.focus({ preventScroll: true }), [key])
  return (
    <aside className={`${classes.panel} ${classes.dock}`} aria-label={title}>
      <header className={classes.panelHead}>
        <h2 ref={heading} tabIndex={-1} className={classes.panelTitle}>
          {title}
        </h2>
        <CloseButton size="xl" aria-label={words.close} onClick={onClose} />
      </header>
      {entry !== undefined && <EntrySheet entry={entry} reading={reading} />}
      {alerts.map((alert) => (
        <AlertSheet key={alert.id} bay={bay} alert={alert} onEntry={onEntry} titled={alerts.length > 1} />
      ))}
    </aside>
  )
}

function EntrySheet({ entry, reading }: { entry: StoryEntry; reading: SidePanelProps['reading'] }) {
  const { zone, nameOf } = useJob()
  const now = useNow()
  const test = reading.tests.find((one) => one.entry.id === entry.id)
  const resting = reading.alerts.filter(({ evidence }) => evidence.some((one) => one.entry === entry.id))
  return (
    <div className={classes.split}>
      <div>
        <dl className={classes.facts}>
          <Fact name={words.happened} value={momentText(entry.happenedAt, zone, now)} />
          <Fact name={words.recorded} value={momentText(entry.recordedAt, zone, now)} />
          <Fact name={words.by} value={`${nameOf(entry.person)} (${sources[entry.source].toLowerCase()})`} />
        </dl>
        {entry.late && (
          <p>
            <Mark shape="ringDot" tone="act" word={words.late} size={18} />
          </p>
        )}
        <div className={classes.block} />
        <BodyList fields={kinds[entry.kind].fields} body={entry.body} />
        <div className={`${classes.row} ${classes.block}`}>
          <Button component={Link} href={paths.entry(entry.id)} variant="default">
            {words.open}
          </Button>
          <Button component={Link} href={paths.correct(entry.id)} variant="subtle">
            {words.correct}
          </Button>
        </div>
      </div>
      {test !== undefined && <Validity test={test} />}
      <div>
        <h3 className={classes.small}>{words.why}</h3>
        {resting.length === 0 && <p>{words.noAlert}</p>}
        <ul className={classes.evidence}>
          {resting.map((alert) => (
            <li key={alert.id}>
              <SeverityMark severity={alert.severity} size={18} /> <strong>{alert.title}.</strong>{' '}
              {alert.whatToDo}
            </li>
          ))}
        </ul>
      </div>
      <div>
        <h3 className={classes.small}>{words.history}</h3>
        {entry.versions.length === 1 ? <p>{words.onlyVersion}</p> : <EntryHistory fact={entry} />}
      </div>
    </div>
  )
}

/** Validity before value: what the method asks for, line by line, and the reasons in words. */
function Validity({ test }: { test: JudgedTest }) {
  const { acceptance, contradictions, valid } = test
  const unproven = acceptance.verdict === 'not known' && contradictions.length === 0
  return (
    <div>
      <h3 className={classes.small}>{words.validity}</h3>
      <p>
        {valid ? (
          <Mark shape="discTick" tone="good" word={words.valid} />
        ) : unproven ? (
          <Mark shape="diamondAsk" tone="unproven" word={words.unknownValid} />
        ) : (
          <Mark shape="squareCross" tone="stop" word={words.invalid} />
        )}
      </p>
      <ul className={classes.list}>
        {[...contradictions, ...acceptance.reasons, ...acceptance.cautions].map((reason) => (
          <li key={reason}>{reason}</li>
        ))}
      </ul>
      <div className={classes.block} />
      <CheckLines findings={acceptance.findings} text={limitText} />
    </div>
  )
}

interface AlertSheetProps {
  bay: string
  alert: Alert
  titled: boolean
  onEntry: (entry: string) => void
}

function AlertSheet({ bay, alert, titled, onEntry }: AlertSheetProps) {
  const { zone, nameOf } = useJob()
  const now = useNow()
  const say = bayWords.alerts
  const when = `${say.since} ${momentText(alert.since, zone, now)}, ${
    alert.until === null ? say.stands : say.until(momentText(alert.until, zone, now))
  }`
  return (
    <div className={classes.split}>
      <div className={classes.alertText}>
        {titled && <h3>{alert.title}</h3>}
        <p>
          <SeverityMark severity={alert.severity} />
        </p>
        <p className={classes.soft}>{when}</p>
        <p>{alert.whatToDo}</p>
        {alert.nonconformance && <p className={classes.soft}>{say.nonconformance}</p>}
        {alert.answeredBy !== null && (
          <p>
            {say.answered(nameOf(alert.answeredBy.person), momentText(alert.answeredBy.at, zone, now))}:{' '}
            <strong>{alert.answeredBy.answer}</strong>
          </p>
        )}
      </div>
      <div>
        <h3 className={classes.small}>{say.evidence}</h3>
        <ul className={classes.evidence}>
          {alert.evidence.map(({ entry, what, value, unit, at }) => {
            const text = `${what}: ${typeof value === 'number' ? quantityText(value, unit) : value}${
              at === null ? '' : `, ${momentText(at, zone, now)}`
            }`
            return (
              <li key={`${entry} ${what} ${at}`}>
                {entry === null ? (
                  text
                ) : (
                  <UnstyledButton className={classes.link} onClick={() => onEntry(entry)}>
                    {text}
                  </UnstyledButton>
                )}
              </li>
            )
          })}
        </ul>
        {alert.limit !== null && (
          <p className={classes.soft}>
            {say.limit}: {limitText(alert.limit)}, {alert.limit.source} ({alert.limit.provenance})
          </p>
        )}
      </div>
      {isOpen(alert) && <AnswerForm bay={bay} alert={alert} onDone={() => undefined} />}
    </div>
  )
}

function Fact({ name, value }: { name: string; value: string }) {
  return (
    <div className={classes.fact}>
      <dt>{name}</dt>
      <dd>{value}</dd>
    </div>
  )
}
