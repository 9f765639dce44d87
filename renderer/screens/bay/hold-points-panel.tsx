import { Button, UnstyledButton } from '@mantine/core'
import { type CSSProperties, type ReactNode, useState } from 'react'
import { Link } from 'wouter'
import { type HoldLink, type HoldState, holdChainFrom } from '#model/hold/index.ts'
import { madeFrom, makerProblem, roleProblem, rolesInForce } from '#model/people/index.ts'
import { kinds } from '#model/record/kinds.ts'
import { type HoldPoint, holdPoints, roles } from '#model/record/people.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { useCompany } from '../../app/use-company.ts'
import { holdWords as words } from '../../app/words/hold-points.ts'
import { useWriter } from '../../app/writer.ts'
import { Note } from '../../parts/banner.tsx'
import { EntryForm } from '../../parts/entry-form/entry-form.tsx'
import { Mark, type Tone } from '../../parts/mark.tsx'
import type { Shape } from '../../parts/mark-shapes.tsx'
import { Section } from '../../parts/page.tsx'
import { momentText, nearText } from '../../parts/site-time.ts'
import classes from './hold-points.module.css'

const marks: Record<HoldState, { shape: Shape; tone: Tone }> = {
  released: { shape: 'discTick', tone: 'good' },
  waived: { shape: 'ringDot', tone: 'watch' },
  held: { shape: 'octagonBar', tone: 'stop' },
  open: { shape: 'trianglePoint', tone: 'act' },
  'not yet due': { shape: 'emptyRing', tone: 'plain' },
  'does not apply': { shape: 'dashedSquare', tone: 'plain' },
}

interface HoldPointsPanelProps {
  bay: string
  facts: BayFacts
}

/** The chain of hold points in the order of the job; one is picked to see why it stands as it does, and to decide. */
export function HoldPointsPanel({ bay, facts }: HoldPointsPanelProps) {
  const [picked, setPicked] = useState<string | null>(null)
  const chain = holdChainFrom(facts)
  const binding = chain.filter(({ state }) => state !== 'does not apply')
  const others = chain.filter(({ state }) => state === 'does not apply')
  const letGo = binding.filter(({ state }) => state === 'released' || state === 'waived').length
  const shown = chain.find(({ point }) => point === picked)
  return (
    <Section
      title={words.title}
      aside={binding.length > 0 && <p className={classes.soft}>{words.summary(letGo, binding.length)}</p>}
    >
      {binding.length === 0 && <p>{words.none}</p>}
      <ol className={classes.chain} style={inRows(binding.length)}>
        {binding.map((link) => (
          <li key={link.point} className={classes.link} data-let-go={isLetGo(link) || undefined}>
            <UnstyledButton
              className={classes.point}
              aria-expanded={picked === link.point}
              onClick={() => setPicked(picked === link.point ? null : link.point)}
            >
              <span className={classes.knot}>
                <Mark {...marks[link.state]} word={words.states[link.state]} size={26} bare />
              </span>
              <span className={classes.name}>{holdPoints[link.point]}</span>
              <span className={classes.state}>{words.states[link.state]}</span>
              {link.passedBy.length > 0 && <span className={classes.passed}>{words.passed}</span>}
            </UnstyledButton>
          </li>
        ))}
      </ol>
      {shown !== undefined && (
        <OnePoint key={shown.point} bay={bay} link={shown} facts={facts} onClose={() => setPicked(null)} />
      )}
      {others.length > 0 && (
        <p className={classes.soft}>
          {words.notFor}:{' '}
          {others
            .map(({ point, because }) => `${holdPoints[point].toLowerCase()} (${lower(because)})`)
            .join(', ')}
          .
        </p>
      )}
    </Section>
  )
}

interface OnePointProps extends HoldPointsPanelProps {
  link: HoldLink
  onClose: () => void
}

function OnePoint({ bay, link, facts, onClose }: OnePointProps) {
  const { zone, nameOf } = useJob()
  const now = useNow()
  const [deciding, setDeciding] = useState(false)
  const { by, at, saw, decision, dueAt, evidence, passedBy, findings } = link
  return (
    <div className={classes.sheet}>
      <div>
        <h3 className={classes.title}>{holdPoints[link.point]}</h3>
        <p className={classes.stands}>
          <Mark {...marks[link.state]} word={words.states[link.state]} />
          <span>{link.because}</span>
        </p>
        <dl className={classes.facts}>
          {by !== null && at !== null && (
            <Fact name={words.by}>
              {nameOf(by)}, {momentText(at, zone, now)}
            </Fact>
          )}
          {saw !== null && decision !== null && (
            <Fact name={words.saw}>
              <Link href={paths.entry(decision)}>{saw}</Link>
            </Fact>
          )}
          <Fact name={words.holdsBack}>{link.holdsBack}</Fact>
          {by === null && (
            <Fact name={words.due}>{dueAt === null ? words.dueUnknown : nearText(dueAt, now, zone)}</Fact>
          )}
          <Fact name={words.who}>{link.mayRelease.map((role) => roles[role]).join(', ')}</Fact>
          <Fact name={words.evidence}>
            <EntryLinks entries={evidence} facts={facts} />
          </Fact>
          {passedBy.length > 0 && (
            <Fact name={words.wentPast}>
              <EntryLinks entries={passedBy.map(({ entry }) => entry)} facts={facts} />
              {passedBy.some(({ held }) => held) && ` ${words.held}`}
            </Fact>
          )}
          {findings.length > 0 && (
            <Fact name={words.doubts}>
              {findings.map(({ what }) => (
                <p key={what}>{what}</p>
              ))}
            </Fact>
          )}
          <Fact name={words.source}>
            {link.source} ({link.provenance})
          </Fact>
        </dl>
      </div>
      {deciding ? (
        <EntryForm
          note={<Statement point={link.point} facts={facts} />}
          kind="hold-point-released"
          subject={bay}
          draftKey={`hold-point-released ${bay} ${link.point}`}
          start={{ point: link.point, decision: 'released' }}
          saveLabel={words.save}
          onSaved={() => setDeciding(false)}
        />
      ) : (
        <div className={classes.actions}>
          <Button onClick={() => setDeciding(true)}>{by === null ? words.decide : words.decideAgain}</Button>
          <Button variant="subtle" onClick={onClose}>
            {words.close}
          </Button>
        </div>
      )}
    </div>
  )
}

/** What the signature stands under, and why the one who writes may not let this point go, when they may not. */
function Statement({ point, facts }: { point: HoldPoint; facts: BayFacts }) {
  const writer = useWriter()
  const company = useCompany()
  const body = { point, decision: 'released' }
  const mayNot =
    writer === null || company === null
      ? null
      : (roleProblem(
          { kind: 'hold-point-released', act: 'write first', body },
          rolesInForce(writer, company),
        ) ??
        makerProblem({ kind: 'hold-point-released', person: writer, body }, madeFrom(facts.story.entries)))
  return (
    <>
      {mayNot !== null && <Note tone="act">{mayNot}</Note>}
      <p className={classes.soft}>{words.statement}</p>
    </>
  )
}

const mostShown = 4

/** Entries by title and moment; a bay has twenty batches, and a few say enough. */
function EntryLinks({ entries, facts }: { entries: readonly string[]; facts: BayFacts }) {
  const { zone } = useJob()
  const now = useNow()
  const found = facts.story.entries.filter(({ id }) => entries.includes(id))
  if (found.length === 0) return words.noEvidence
  return (
    <ul className={classes.entries}>
      {found.slice(0, mostShown).map(({ id, kind, happenedAt }) => (
        <li key={id}>
          <Link href={paths.entry(id)}>
            {kinds[kind].title}, {momentText(happenedAt, zone, now)}
          </Link>
        </li>
      ))}
      {found.length > mostShown && <li>{words.more(found.length - mostShown)}</li>}
    </ul>
  )
}

function Fact({ name, children }: { name: string; children: ReactNode }) {
  return (
    <div className={classes.fact}>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  )
}

const mostInRow = 9

/** The points in one row, or in two of the same length; on a narrow screen the style sheet halves that again. */
function inRows(count: number): CSSProperties {
  const inRow = count <= mostInRow ? count : Math.ceil(count / 2)
  return { '--in-row': inRow, '--in-narrow-row': Math.ceil(inRow / 2) } as CSSProperties
}

function isLetGo({ state }: HoldLink): boolean {
  return state === 'released' || state === 'waived'
}

function lower(sentence: string): string {
  return `${sentence.charAt(0).toLowerCase()}${sentence.slice(1).replace(/\.$/, '')}`
}
