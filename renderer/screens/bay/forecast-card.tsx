import { Button, Progress } from '@mantine/core'
import type { ReactNode } from 'react'
import type { ReadyForecast } from '#model/drying/forecast-shape.ts'
import { limitText } from '#model/rules/index.ts'
import type { JudgedTest } from '#model/watch/facts/moisture.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { troubleOf } from '../../app/trouble.ts'
import { bayWords } from '../../app/words/bay.ts'
import { Banner } from '../../parts/banner.tsx'
import { numberText } from '../../parts/number-text.ts'
import { saidOnSite } from '../../parts/site-time.ts'
import { WhyButton } from '../../parts/why.tsx'
import classes from './bay.module.css'
import { rangeText, shortDay } from './date-range.ts'
import type { ForecastWork } from './use-forecast.ts'

const words = bayWords.forecast
/** Above this chance of never a date would mislead. */
const neverAbove = 0.1

interface ForecastCardProps {
  work: ForecastWork
  /** Only the range and what drives it. */
  brief?: boolean
  /** The tests that the estimate was set against. */
  tests?: readonly JudgedTest[]
}

/** When the bay may be dry: a range, what drives it, what was assumed. It plans; it never releases. */
export function ForecastCard({ work, brief = false, tests = [] }: ForecastCardProps) {
  const { state, last, again, stop } = work
  return (
    <div>
      {state.kind === 'running' && <Working done={state.done} of={state.of} onStop={stop} />}
      {state.kind === 'stopped' && (
        <div className={classes.working}>
          <p>{words.stopped}</p>
          <Button variant="default" onClick={again}>
            {words.again}
          </Button>
        </div>
      )}
      {state.kind === 'failed' && <Banner trouble={troubleOf(state.error)} onRetry={again} />}
      {last !== null && <Found forecast={last} brief={brief} tests={tests} />}
    </div>
  )
}

function Working({ done, of, onStop }: { done: number; of: number; onStop: () => void }) {
  const percent = of === 0 ? 0 : Math.floor((100 * done) / of)
  return (
    <div className={classes.working} role="status">
      <div className={classes.bar}>
        <p>{words.working(percent)}</p>
        <Progress value={percent} aria-label={words.title} />
      </div>
      <Button variant="default" onClick={onStop}>
        {words.cancel}
      </Button>
    </div>
  )
}

interface FoundProps {
  forecast: ReadyForecast
  brief: boolean
  tests: readonly JudgedTest[]
}

function Found({ forecast, brief, tests }: FoundProps) {
  const { zone } = useJob()
  if (forecast.missing.length > 0) {
    return (
      <Part title={words.missing}>
        <ul className={classes.list}>
          {forecast.missing.map((line) => (
            <li key={line}>{saidOnSite(line, zone)}</li>
          ))}
        </ul>
      </Part>
    )
  }
  return (
    <div className={brief ? classes.brief : classes.forecast}>
      <div>
        <Range forecast={forecast} />
        <p className={classes.never}>{words.never}</p>
      </div>
      <Part title={words.drivers}>
        <Drivers forecast={forecast} />
      </Part>
      {!brief && (
        <Part title={words.assumptions}>
          <ul className={classes.list}>
            {forecast.assumptions.map((line) => (
              <li key={line}>{saidOnSite(line, zone)}</li>
            ))}
          </ul>
          <ReadingChecks forecast={forecast} tests={tests} />
        </Part>
      )}
    </div>
  )
}

/** How each reading stands against what all the others foretell. */
function ReadingChecks({ forecast, tests }: Omit<FoundProps, 'brief'>) {
  const { zone } = useJob()
  const now = useNow()
  const checks = forecast.readingsCheck.flatMap(({ id, z, note }) => {
    const test = z === null ? undefined : tests.find(({ entry }) => entry.id === id)
    if (test === undefined) return []
    return [{ id, at: `${test.entry.body.point}, ${shortDay(test.at, zone, now)}`, note }]
  })
  if (checks.length === 0) return null
  return (
    <>
      <h3 className={`${classes.small} ${classes.block}`}>{words.checks}</h3>
      <ul className={classes.list}>
        {checks.map(({ id, at, note }) => (
          <li key={id}>
            {at}: {note}
          </li>
        ))}
      </ul>
    </>
  )
}

/** "Likely 14–29 Jan, cautious 8 Feb", or that it is not reached. */
function Range({ forecast }: { forecast: ReadyForecast }) {
  const { zone } = useJob()
  const now = useNow()
  const { p10, p50, p90, notReachedProbability, limit, why, learned } = forecast
  const percent = Math.round(100 * notReachedProbability)
  const day = (iso: string) => shortDay(Date.parse(iso), zone, now)
  const [firstWhy] = why
  return (
    <div className={classes.block}>
      <p className={classes.range}>{headline(forecast, zone, now)}</p>
      {p50 === null ? (
        <p>{words.notReachedWhy(percent)}</p>
      ) : (
        <>
          <p className={classes.cautious}>{p90 === null ? words.cautiousNever : words.cautious(day(p90))}</p>
          {p10 !== null && p90 !== null && (
            <p className={classes.soft}>{words.meaning(day(p10), day(p50), day(p90))}</p>
          )}
          {notReachedProbability > neverAbove && <p>{words.chanceOfNever(percent)}</p>}
        </>
      )}
      <p className={classes.soft}>
        {limit !== null && words.limit(limitText(limit))}{' '}
        {firstWhy !== undefined && <WhyButton why={firstWhy} />}
      </p>
      {learned !== null && (
        <p className={classes.soft}>
          {words.learned(
            numberText(learned.diffusivityFactor.p50),
            numberText(learned.diffusivityFactor.p10),
            numberText(learned.diffusivityFactor.p90),
          )}
        </p>
      )}
    </div>
  )
}

/** From the early date to that of even chances. A date that has passed is not a date to plan on. */
function headline({ p10, p50, asOf }: ReadyForecast, zone: string, now: number): string {
  if (p50 === null) return words.notReached
  const [from, until] = [Date.parse(p10 ?? p50), Date.parse(p50)]
  if (until <= Date.parse(asOf)) return words.alreadyDry
  if (from <= Date.parse(asOf)) return words.likelyBy(shortDay(until, zone, now))
  return words.likely(rangeText(from, until, zone, now))
}

function Drivers({ forecast }: { forecast: ReadyForecast }) {
  return (
    <dl className={classes.drivers}>
      {forecast.drivers.map(({ name, daysPerUnit, unit }) => (
        <div key={name} className={classes.driver}>
          <dt>{name}</dt>
          <dd>
            <strong>{words.days(`${daysPerUnit > 0 ? '+' : ''}${numberText(daysPerUnit, 1)}`)}</strong>{' '}
            <span className={classes.soft}>{words.per(unit)}</span>
          </dd>
        </div>
      ))}
    </dl>
  )
}

function Part({ title, children }: { title: string; children: ReactNode }) {
  return (
    <div>
      <h3 className={classes.small}>{title}</h3>
      {children}
    </div>
  )
}
