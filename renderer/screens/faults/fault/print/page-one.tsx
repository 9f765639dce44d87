import type { FaultPage } from '#model/contract/faults.ts'
import { causes } from '#model/faults/causes.ts'
import type { CausePart, DiagnosedCause } from '#model/faults/shapes.ts'
import { useJob } from '../../../../app/job.tsx'
import { faultsWords } from '../../../../app/words/faults.ts'
import { numberText } from '../../../../parts/number-text.ts'
import { BandMark, bandWord } from '../../fault-marks.tsx'
import { SymptomDrawing } from '../../symptoms/symptom-drawing.tsx'
import { BarKey, CauseBar } from '../causes/cause-bar.tsx'
import { signed } from '../causes/cause-row.tsx'
import { FaultOnBay } from '../fault-on-bay.tsx'
import { Named } from '../name-cause.tsx'
import { SeenFacts } from '../seen.tsx'
import classes from './print.module.css'

const words = faultsWords.causes
const mostCauses = 4
const mostParts = 3
const mostOther = 6

/** Page 1: what is seen, the causes with what speaks for and against them, what to look at next. */
export function PageOne({ page }: { page: FaultPage }) {
  const { nameOf } = useJob()
  const { fault, diagnosis, movement, named } = page
  const [main] = fault.symptoms
  const others = diagnosis.causes.slice(mostCauses, mostCauses + mostOther)
  return (
    <>
      <section className={classes.seen}>
        {main !== undefined && <SymptomDrawing symptom={main} bare />}
        <SeenFacts page={page} />
        <FaultOnBay
          outline={page.bay.outline}
          defects={page.defects}
          label={faultsWords.page.onPlan(nameOf(fault.bay))}
        />
      </section>
      {fault.movement !== null && (
        <p>
          <strong>
            {faultsWords.gauge.title} {faultsWords.movements[movement.verdict]}.
          </strong>{' '}
          {movement.words}
        </p>
      )}
      <section>
        <h2 className={classes.part}>{words.title}</h2>
        <p className={classes.strong}>
          {diagnosis.conflicts.length === 0 && `${diagnosis.words} `}
          {words.strength}: {numberText(diagnosis.recordStrengthPercent, 0)} %.
        </p>
        {diagnosis.conflicts.map((conflict) => (
          <p key={`${conflict.cause} ${conflict.supports.id}`}>
            <strong>{conflict.question}</strong>
          </p>
        ))}
        {diagnosis.causes.slice(0, mostCauses).map((cause) => (
          <PrintedCause key={cause.id} cause={cause} />
        ))}
        <BarKey hasConflict={diagnosis.conflicts.length > 0} />
        <p>
          {faultsWords.print.otherCauses}:{' '}
          {others
            .map(
              ({ words: name, band, hollow }) =>
                `${name} (${band === null ? words.conflict : bandWord(band, hollow).toLowerCase()})`,
            )
            .join('; ')}
          .
        </p>
      </section>
      <Neighbours page={page} />
      <section className={classes.keep}>
        <h2 className={classes.part}>{faultsWords.tests.title}</h2>
        <ol className={classes.tests}>
          {diagnosis.nextTests.map(({ name, how, splits }) => (
            <li key={name}>
              <strong>{name}.</strong> {how}{' '}
              {faultsWords.print.settles(splits.map((cause) => causes[cause]).join(', '))}
            </li>
          ))}
        </ol>
      </section>
      {named !== null && (
        <section>
          <h2 className={classes.part}>{faultsWords.name.title}</h2>
          <Named named={named} />
        </section>
      )}
    </>
  )
}

function PrintedCause({ cause }: { cause: DiagnosedCause }) {
  const looked = cause.parts.filter(({ kind }) => kind === 'evidence' || kind === 'neighbours')
  return (
    <div className={classes.cause}>
      <div className={classes.causeHead}>
        <strong>{cause.words}</strong>
        <CauseBar cause={cause} />
        {cause.band === null ? (
          <strong>{words.conflict}</strong>
        ) : (
          <span>
            <BandMark band={cause.band} hollow={cause.hollow} size={14} />
            {cause.hollow && ` ${words.hollow}`}
          </span>
        )}
      </div>
      <div className={classes.sides}>
        <Side title={faultsWords.print.evidenceFor} parts={looked.filter(({ weight }) => weight > 0)} />
        <Side title={faultsWords.print.evidenceAgainst} parts={looked.filter(({ weight }) => weight < 0)} />
      </div>
    </div>
  )
}

function Side({ title, parts }: { title: string; parts: readonly CausePart[] }) {
  const heaviest = parts.toSorted((a, b) => Math.abs(b.weight) - Math.abs(a.weight))
  return (
    <div>
      <strong>{title}:</strong> {parts.length === 0 && words.nothing}
      <ul>
        {heaviest.slice(0, mostParts).map((part) => (
          <li key={part.from}>
            {signed(part.weight)} {part.because === '' ? part.text : part.because}
          </li>
        ))}
      </ul>
      {parts.length > mostParts && faultsWords.print.further(parts.length - mostParts)}
    </div>
  )
}

function Neighbours({ page: { diagnosis } }: { page: FaultPage }) {
  if (diagnosis.neighbours.length === 0) return null
  return (
    <section>
      <h2 className={classes.part}>{words.neighbours}</h2>
      <p>
        {diagnosis.neighbours
          .slice(0, 6)
          .map(({ name, standing, different }) =>
            words.besideIt(name, words.standing[standing].toLowerCase(), different.length),
          )
          .join('; ')}
        .
      </p>
    </section>
  )
}
