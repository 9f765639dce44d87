import { useState } from 'react'
import type { CausePart, DiagnosedCause, Diagnosis } from '#model/faults/shapes.ts'
import { faultsWords } from '../../../../app/words/faults.ts'
import { numberText } from '../../../../parts/number-text.ts'
import { WhyButton } from '../../../../parts/why.tsx'
import { BandMark } from '../../fault-marks.tsx'
import classes from '../fault.module.css'
import { whyCause } from '../whys.ts'
import { CauseBar } from './cause-bar.tsx'
import { EntryLinks } from './entry-links.tsx'

const words = faultsWords.causes

/** One cause: its bar and band; opened, its parts with what shows each of them. */
export function CauseRow({ cause, diagnosis }: { cause: DiagnosedCause; diagnosis: Diagnosis }) {
  const [opened, setOpened] = useState(false)
  return (
    <details className={classes.cause} onToggle={(event) => setOpened(event.currentTarget.open)}>
      <summary className={classes.causeHead}>
        <span className={classes.causeName}>{cause.words}</span>
        <CauseBar cause={cause} />
        <span className={classes.band}>
          {cause.band === null ? (
            <strong className={classes.torn}>{words.conflict}</strong>
          ) : (
            <>
              <BandMark band={cause.band} hollow={cause.hollow} />
              {cause.hollow && <span className={classes.soft}>{words.hollow}</span>}
            </>
          )}
        </span>
      </summary>
      {opened && <CauseParts cause={cause} diagnosis={diagnosis} />}
    </details>
  )
}

function CauseParts({ cause, diagnosis }: { cause: DiagnosedCause; diagnosis: Diagnosis }) {
  const start = cause.parts.filter(({ kind }) => kind === 'start' || kind === 'further symptom')
  const looked = cause.parts.filter(({ kind }) => kind === 'evidence' || kind === 'neighbours')
  return (
    <div className={classes.parts}>
      <Parts title={words.start} parts={start} />
      <Parts title={words.supports} parts={looked.filter(({ weight }) => weight > 0)} />
      <Parts title={words.refutes} parts={looked.filter(({ weight }) => weight < 0)} />
      <div>
        <h3 className={classes.small}>{words.missing}</h3>
        {cause.missing.length === 0 ? (
          <p className={classes.soft}>{words.missingNone}</p>
        ) : (
          <ul className={classes.plain}>
            {cause.missing.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        )}
      </div>
      <p className={classes.sum}>
        {words.sum}: <strong>{signed(cause.logOdds)}</strong> <WhyButton why={whyCause(cause, diagnosis)} />
      </p>
    </div>
  )
}

function Parts({ title, parts }: { title: string; parts: readonly CausePart[] }) {
  return (
    <div>
      <h3 className={classes.small}>{title}</h3>
      {parts.length === 0 && <p className={classes.soft}>{words.nothing}</p>}
      <ul className={classes.partList}>
        {parts.map((part) => (
          <li key={`${part.kind} ${part.from}`} className={classes.part}>
            <strong className={classes.weight}>{signed(part.weight)}</strong>
            <span>
              {part.text}
              {part.because !== '' && <span className={classes.because}>{part.because}</span>}
              {part.halved && <span className={classes.soft}>{words.halved}</span>}
              <EntryLinks entries={part.entries} />
            </span>
          </li>
        ))}
      </ul>
    </div>
  )
}

/** A weight with its sign: "+2.5", "−1.8", "0". */
export function signed(weight: number): string {
  return weight > 0 ? `+${numberText(weight, 2)}` : numberText(weight, 2)
}
