import type { ReactNode } from 'react'
import { Link } from 'wouter'
import type { Readiness } from '#model/readiness/verdict.ts'
import { kinds } from '#model/record/kinds.ts'
import type { BayStory } from '#model/record/story.ts'
import { entriesOf } from '#model/record/story.ts'
import { type Covering, moistureMethods } from '#model/record/words.ts'
import { limitText } from '#model/rules/index.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'
import { judgedTests } from '#model/watch/facts/moisture.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { readyWords } from '../../app/words/ready.ts'
import { numberText } from '../../parts/number-text.ts'
import { calendarDayText, dayText, momentText } from '../../parts/site-time.ts'
import { WhyButton } from '../../parts/why.tsx'
import { PointsDrawing } from './points-drawing.tsx'
import classes from './ready.module.css'

const words = readyWords.governing
const dayMs = 86_400_000

interface GoverningProps {
  facts: BayFacts
  readiness: Readiness
  covering: Covering
}

/** The one reading that decides: where, how, how much, when, with what, and why it counts. */
export function Governing({ facts, readiness, covering }: GoverningProps) {
  const { nameOf } = useJob()
  const { governing, why } = readiness
  const judged = judgedTests(facts, covering)
  const test = governing?.test ?? null
  return (
    <section>
      <h2 className={classes.title}>{words.title}</h2>
      {governing === null && <p>{words.noLimit}</p>}
      {test === null ? (
        <div className={classes.nothing}>
          <p>{words.none}</p>
          {governing !== null && <p className={classes.soft}>{words.against(limitText(governing.limit))}</p>}
        </div>
      ) : (
        <>
          <p className={classes.value}>
            {numberText(test.value, 1)} {test.unit}
            <span className={classes.against}>
              {governing !== null && words.against(limitText(governing.limit))}
              {why[0] !== undefined && <WhyButton why={why[0]} />}
            </span>
          </p>
          <TestFacts facts={facts} test={test} judged={judged} />
        </>
      )}
      <PointsDrawing
        outline={facts.story.bay.body.outline}
        tests={judged}
        governing={test?.entry ?? null}
        label={words.plan(nameOf(facts.story.bay.id))}
      />
    </section>
  )
}

interface TestFactsProps {
  facts: BayFacts
  test: NonNullable<NonNullable<Readiness['governing']>['test']>
  judged: ReturnType<typeof judgedTests>
}

function TestFacts({ facts, test, judged }: TestFactsProps) {
  const { zone, nameOf } = useJob()
  const now = useNow()
  const found = judged.find(({ entry }) => entry.id === test.entry)
  if (found === undefined) return null
  const { body } = found.entry
  const until = test.at + facts.rules.limits['test.ageDays'].value * dayMs
  return (
    <>
      <dl className={classes.facts}>
        <Fact name={words.point}>
          <Link href={paths.entry(test.entry)}>{test.point}</Link>
          {body.x !== undefined && body.y !== undefined && (
            <span className={classes.soft}>, {words.place(numberText(body.x), numberText(body.y))}</span>
          )}
        </Fact>
        <Fact name={words.method}>{moistureMethods[test.method]}</Fact>
        {body.setAt !== undefined && (
          <Fact name={words.set}>{momentText(Date.parse(body.setAt), zone, now)}</Fact>
        )}
        <Fact name={words.read}>
          {momentText(test.at, zone, now)}{' '}
          <span className={classes.soft}>{words.age(numberText(test.ageDays, 1))}</span>
        </Fact>
        <Fact name={words.instrument}>
          {body.instrument === undefined ? words.noInstrument : nameOf(body.instrument)}
        </Fact>
        {body.instrument !== undefined && (
          <Fact name={words.check}>
            <InstrumentCheck story={facts.story} instrument={body.instrument} at={test.at} />
          </Fact>
        )}
        <Fact name={words.holds}>
          {dayText(until, zone, now)} <span className={classes.soft}>{words.holdsWhy}</span>
        </Fact>
      </dl>
      <h3 className={classes.small}>{words.validity}</h3>
      <ul className={classes.reasons}>
        {[...found.acceptance.reasons, ...found.acceptance.cautions].map((reason) => (
          <li key={reason}>{reason}</li>
        ))}
      </ul>
    </>
  )
}

/** The last check before the test: what counts is the instrument as it was then. */
function InstrumentCheck({ story, instrument, at }: { story: BayStory; instrument: string; at: number }) {
  const { zone } = useJob()
  const now = useNow()
  const check = entriesOf(story, 'instrument-checked').findLast(
    (one) => one.subject === instrument && one.happenedAt <= at,
  )
  const certificate = entriesOf(story, 'instrument-added').find((one) => one.subject === instrument)?.body
    .dueOn
  const due = certificate === undefined ? '' : `; ${words.certificate(calendarDayText(certificate))}`
  if (check === undefined) return `${words.noCheck}${due}`
  const options = kinds['instrument-checked'].fields.check.options
  const how = options[check.body.check]
  const result = check.body.passed ? words.passed : words.failed
  return `${words.checked(how, dayText(check.happenedAt, zone, now), result)}${due}`
}

function Fact({ name, children }: { name: string; children: ReactNode }) {
  return (
    <div className={classes.fact}>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  )
}
