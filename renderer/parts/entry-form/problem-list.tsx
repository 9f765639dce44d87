import { words } from '../../app/words.ts'
import classes from './entry-form.module.css'
import { boxId } from './field-props.ts'
import type { FieldProblem } from './read-draft.ts'

/** Everything that keeps the form from being saved, in sentences, each leading to its box. */
export function ProblemList({ formId, problems }: { formId: string; problems: readonly FieldProblem[] }) {
  if (problems.length === 0) return null
  return (
    <div className={classes.problems} role="alert">
      <p className={classes.problemsTitle}>{words.form.putRight(problems.length)}</p>
      <ul>
        {problems.map(({ field, message }) => (
          <li key={field + message}>
            <button
              type="button"
              className={classes.problem}
              onClick={() => document.getElementById(boxId(formId, field))?.focus()}
            >
              {message}
            </button>
          </li>
        ))}
      </ul>
    </div>
  )
}
