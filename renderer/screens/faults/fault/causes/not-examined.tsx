import { Button } from '@mantine/core'
import type { EvidenceId } from '#model/faults/evidence.ts'
import type { Diagnosis } from '#model/faults/shapes.ts'
import { faultsWords } from '../../../../app/words/faults.ts'
import classes from '../fault.module.css'

const words = faultsWords.causes

/** What nobody has looked at, kept apart: it adds nothing, and every item can be answered. */
export function NotExamined({
  diagnosis,
  onAnswer,
}: {
  diagnosis: Diagnosis
  onAnswer: (evidence: EvidenceId) => void
}) {
  const open = diagnosis.evidence.filter(({ state }) => state === 'not examined')
  if (open.length === 0) return null
  return (
    <details className={classes.block}>
      <summary className={classes.summary}>{words.notExamined(open.length)}</summary>
      <p className={classes.soft}>{words.notExaminedLead}</p>
      <ul className={classes.openItems}>
        {open.map(({ id, text, because }) => (
          <li key={id} className={classes.openItem}>
            <span>
              {text}
              {because !== '' && <span className={classes.because}>{because}</span>}
            </span>
            <Button
              variant="subtle"
              size="sm"
              aria-label={`${words.answer}: ${text}`}
              onClick={() => onAnswer(id)}
            >
              {words.answer}
            </Button>
          </li>
        ))}
      </ul>
    </details>
  )
}
