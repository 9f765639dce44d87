import { Link } from 'wouter'
import type { Condition } from '#model/readiness/verdict.ts'
import { paths } from '../../app/paths.ts'
import { readyWords as words } from '../../app/words/ready.ts'
import { ConditionMark } from '../../parts/state-mark.tsx'
import classes from './ready.module.css'

const rank = { 'not met': 0, unknown: 1, met: 2 } as const
const mostLinks = 6

/** Every condition with its state and the reason, what is not met first. */
export function Conditions({ conditions }: { conditions: readonly Condition[] }) {
  return (
    <section>
      <h2 className={classes.title}>{words.conditions.title}</h2>
      <ul className={classes.conditions}>
        {conditions
          .toSorted((a, b) => rank[a.state] - rank[b.state])
          .map(({ name, state, because, entries }) => (
            <li key={name} className={classes.condition} data-state={state}>
              <div className={classes.conditionHead}>
                <strong>{name}</strong>
                <ConditionMark state={state} size={18} />
              </div>
              <p className={classes.because}>{because}</p>
              {entries.length > 0 && (
                <p className={classes.links}>
                  {words.conditions.links}{' '}
                  {entries.slice(0, mostLinks).map((entry, i) => (
                    <Link key={entry} href={paths.entry(entry)}>
                      {words.conditions.entry(i + 1)}
                    </Link>
                  ))}
                </p>
              )}
            </li>
          ))}
      </ul>
    </section>
  )
}
