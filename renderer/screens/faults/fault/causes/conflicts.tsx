import { bandOf } from '#model/faults/score.ts'
import type { Conflict, Evidence } from '#model/faults/shapes.ts'
import { faultsWords } from '../../../../app/words/faults.ts'
import { Mark } from '../../../../parts/mark.tsx'
import classes from '../fault.module.css'
import { EntryLinks } from './entry-links.tsx'

const words = faultsWords.causes

/** Where two true items speak against each other: a question to the record, never an average. */
export function Conflicts({ conflicts }: { conflicts: readonly Conflict[] }) {
  if (conflicts.length === 0) return null
  return (
    <section className={classes.conflicts} aria-labelledby="fault-conflicts">
      <h3 id="fault-conflicts" className={classes.small}>
        {words.conflicts}
      </h3>
      <ul className={classes.plain}>
        {conflicts.map((conflict) => (
          <li key={`${conflict.cause} ${conflict.supports.id} ${conflict.refutes.id}`}>
            <Mark shape="squareCross" tone="stop" word={conflict.question} />
            <Side evidence={conflict.supports} />
            <Side evidence={conflict.refutes} />
            <p className={classes.soft}>
              {words.ifBoth(bandText(conflict.ifSupports), bandText(conflict.ifRefutes))}{' '}
              {conflict.outranks !== null && words.outranks(outranking(conflict))}
            </p>
          </li>
        ))}
      </ul>
    </section>
  )
}

function Side({ evidence }: { evidence: Evidence }) {
  return (
    <p>
      {evidence.text}: {evidence.because} <EntryLinks entries={evidence.entries} />
    </p>
  )
}

const bandText = (probability: number) => faultsWords.bands[bandOf(probability)].toLowerCase()

function outranking({ outranks, supports, refutes }: Conflict): string {
  return (outranks === supports.id ? supports : refutes).text
}
