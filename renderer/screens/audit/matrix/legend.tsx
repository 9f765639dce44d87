import { words } from '../../../app/words.ts'
import { type Standing, StandingMark } from '../standing.tsx'
import classes from './matrix.module.css'

const say = words.audit

/** What each mark means, and how to walk through the cells. */
export function Legend() {
  return (
    <div className={classes.legend}>
      <ul aria-label={say.matrix.legend} className={classes.marks}>
        {(Object.keys(say.states) as Standing[]).map((standing) => (
          <li key={standing}>
            <StandingMark standing={standing} size={17} />
          </li>
        ))}
      </ul>
      <p className={classes.keys}>{say.matrix.keys}</p>
    </div>
  )
}
