import { useMemo } from 'react'
import { Link } from 'wouter'
import type { ReadyPage } from '#model/contract/index.ts'
import { type HoldsUntil, holdsUntil } from '#model/readiness/index.ts'
import type { Condition } from '#model/readiness/verdict.ts'
import { storyAsOf } from '#model/record/story.ts'
import { type Covering, coverings } from '#model/record/words.ts'
import { rulesOfProject } from '#model/rules/index.ts'
import { factsOf } from '#model/watch/facts/index.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { readyWords as words } from '../../app/words/ready.ts'
import { waysWords } from '../../app/words/ways.ts'
import { words as allWords } from '../../app/words.ts'
import { dayText, nearText } from '../../parts/site-time.ts'
import { VerdictMark } from '../../parts/state-mark.tsx'
import { ForecastCard } from '../bay/forecast-card.tsx'
import { useForecast } from '../bay/use-forecast.ts'
import { Conditions } from './conditions.tsx'
import { Decide } from './decide.tsx'
import { Decisions } from './decisions.tsx'
import { Governing } from './governing.tsx'
import classes from './ready.module.css'
import { BodySummary, HeatingSummary, OpenDefects } from './summaries.tsx'

const looks = { ready: classes.ready, 'not ready': classes.notReady, 'not proven': classes.notProven }

const states = ['not met', 'unknown'] as const

function namesOf(conditions: readonly Condition[], state: Condition['state']): string {
  const names = conditions.filter((one) => one.state === state).map(({ name }) => name)
  return names.map((name, i) => (i === 0 ? name : name.toLowerCase())).join(', ')
}

/** The one page that a floor layer decides on. */
export function ReadySheet({ page, covering }: { page: ReadyPage; covering: Covering }) {
  const { story, readiness } = page
  const { nameOf, zone } = useJob()
  const now = useNow()
  const facts = useMemo(
    () => factsOf(storyAsOf(story, readiness.asOf), readiness.asOf, rulesOfProject(story.project.body)),
    [story, readiness.asOf],
  )
  const { verdict, conditions } = readiness
  const laid = facts.life.t0 !== null
  const work = useForecast(
    story.bay.id,
    covering,
    laid && verdict !== 'ready' ? String(story.entries.length) : null,
  )
  const open = conditions.filter(({ state }) => state !== 'met')
  const holding = holdsUntil(facts, covering)
  return (
    <article className={classes.sheet}>
      <header className={`${classes.verdict} ${looks[verdict]}`}>
        <div>
          <h1 className={classes.bayName}>
            {nameOf(story.bay.id)}
            <span className={classes.where}>
              {story.floor.body.name}, {story.zone.body.name}
            </span>
          </h1>
          <p className={classes.word}>
            <VerdictMark verdict={verdict} size={44} />
          </p>
          <p className={classes.forWhat}>{words.forCovering(coverings[covering])}</p>
        </div>
        <div className={classes.verdictSide}>
          <p>{words.meaning[verdict]}</p>
          {open.length > 0 && (
            <p className={classes.openList}>
              {states
                .filter((state) => open.some((one) => one.state === state))
                .map((state) => `${allWords.conditions[state]}: ${namesOf(open, state)}`)
                .join('. ')}
            </p>
          )}
          <Holding holding={holding} />
          <p className={classes.soft}>{words.asOf(nearText(readiness.asOf, now, zone).toLowerCase())}</p>
        </div>
      </header>
      <div className={classes.columns}>
        <div className={classes.stack}>
          <Governing facts={facts} readiness={readiness} covering={covering} />
          <BodySummary facts={facts} />
          <HeatingSummary facts={facts} />
          <OpenDefects facts={facts} />
          {verdict !== 'ready' && laid && (
            <section className={classes.estimate}>
              <h2 className={classes.title}>{words.when}</h2>
              <ForecastCard work={work} brief />
              <Link href={paths.ways(story.bay.id)} className={classes.toWays}>
                {waysWords.fromBay}
              </Link>
            </section>
          )}
        </div>
        <Conditions conditions={conditions} />
      </div>
      <Decisions story={story} />
      <Decide
        key={`${story.bay.id} ${covering}`}
        story={story}
        facts={facts}
        readiness={readiness}
        covering={covering}
        holdsUntil={holding.endedBy === null ? holding.until : null}
      />
      <p className={classes.caution}>{words.caution}</p>
    </article>
  )
}

/** Until when the tests prove anything, or what ended it. */
function Holding({ holding: { until, endedBy } }: { holding: HoldsUntil }) {
  const { zone } = useJob()
  const now = useNow()
  if (endedBy !== null) return <p>{words.holds.wetted(endedBy.what)}</p>
  if (until === null) return null
  const when = dayText(until, zone, now)
  return <p>{until >= now ? words.holds.until(when) : words.holds.past(when)}</p>
}
