import type { ReactNode } from 'react'
import { Link } from 'wouter'
import { entriesOf } from '#model/record/story.ts'
import { symptoms } from '#model/record/words.ts'
import { airTrace } from '#model/watch/facts/air.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { readyWords as words } from '../../app/words/ready.ts'
import { words as allWords } from '../../app/words.ts'
import { numberText } from '../../parts/number-text.ts'
import { agoText, calendarDayText, dayText } from '../../parts/site-time.ts'
import classes from './ready.module.css'

/** Age, thickness, joints to carry through, and the climate as last read. */
export function BodySummary({ facts }: { facts: BayFacts }) {
  const now = useNow()
  const { story, thickness, life, air } = facts
  const mm = thickness.map((point) => point.mm)
  const mean = mm.reduce((sum, one) => sum + one, 0) / Math.max(1, mm.length)
  const joints = entriesOf(story, 'joint-formed').length
  const base = story.floor.body.baseJoints?.length ?? 0
  const [airC, rh] = [airTrace(air, 'airC'), airTrace(air, 'rhPercent')]
  const last = airC.at.at(-1)
  return (
    <section>
      <h2 className={classes.title}>{words.body.title}</h2>
      <dl className={classes.facts}>
        <Fact name={words.body.age}>
          {life.ageDays === null ? words.notLaid : words.body.days(Math.floor(life.ageDays))}
        </Fact>
        <Fact name={words.body.thickness}>
          {mm.length === 0
            ? allWords.notKnown
            : `${numberText(mean, 0)} mm (${numberText(Math.min(...mm))} to ${numberText(Math.max(...mm))})`}
        </Fact>
        <Fact name={words.body.climate}>
          {last === undefined
            ? allWords.notKnown
            : `${numberText(airC.value.at(-1)!, 1)} °C, ${rh.value.length === 0 ? allWords.notKnown : `${numberText(rh.value.at(-1)!, 0)} %`}, ${agoText(last, now)}`}
        </Fact>
        <Fact name={words.body.joints}>
          {joints === 0 ? words.body.noJoints : String(joints)}
          {base > 0 && <span className={classes.soft}>; {words.body.baseJoints(base)}</span>}
        </Fact>
      </dl>
    </section>
  )
}

/** Started, highest, ended, off since. */
export function HeatingSummary({ facts }: { facts: BayFacts }) {
  const { zone } = useJob()
  const now = useNow()
  const { heating, story } = facts
  const running = heating.filter(({ state }) => state === 'running')
  const first = running[0]
  const last = heating.at(-1)
  const flows = running.flatMap(({ flowC }) => flowC ?? [])
  const lastRun = heating.findLastIndex(({ state }) => state === 'running')
  const off = heating[lastRun + 1]
  return (
    <section>
      <h2 className={classes.title}>{words.heating.title}</h2>
      {!story.zone.body.heated && <p>{words.heating.none}</p>}
      {story.zone.body.heated && last === undefined && <p>{words.heating.noLog}</p>}
      {last !== undefined && (
        <dl className={classes.facts}>
          <Fact name={words.heating.first}>
            {first === undefined ? allWords.notKnown : dayText(first.at, zone, now)}
          </Fact>
          <Fact name={words.heating.highest}>
            {flows.length === 0 ? allWords.notKnown : `${numberText(Math.max(...flows), 0)} °C`}
            <span className={classes.soft}>, {words.heating.readings(heating.length)}</span>
          </Fact>
          <Fact name={words.heating.off}>
            {off === undefined
              ? words.heating.running
              : `${dayText(off.at, zone, now)}, ${agoText(off.at, now)}`}
          </Fact>
        </dl>
      )}
    </section>
  )
}

export function OpenDefects({ facts }: { facts: BayFacts }) {
  const closed = new Set(entriesOf(facts.story, 'defect-closed').map(({ body }) => String(body.defect)))
  const open = entriesOf(facts.story, 'defect-found').filter(({ id }) => !closed.has(id))
  const names: Readonly<Record<string, string>> = symptoms
  return (
    <section>
      <h2 className={classes.title}>{words.defects.title}</h2>
      {open.length === 0 && <p>{words.defects.none}</p>}
      <ul className={classes.reasons}>
        {open.map(({ id, body }) => (
          <li key={id}>
            <Link href={paths.entry(id)}>{names[body.symptom] ?? body.symptom}</Link>
            <span className={classes.soft}>, {words.defects.seen(calendarDayText(body.firstSeenOn))}</span>
          </li>
        ))}
      </ul>
    </section>
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
