import type { LoggerCheck, LoggerReading } from '#model/contract/index.ts'
import { seriesQuantities } from '#model/record/index.ts'
import { useJob } from '../../app/job.tsx'
import { words } from '../../app/words.ts'
import { Note } from '../../parts/banner.tsx'
import { numberText, quantityText } from '../../parts/number-text.ts'
import { momentText } from '../../parts/site-time.ts'
import classes from './import.module.css'

const say = words.imports

interface CheckReportProps {
  check: LoggerCheck
  reading: LoggerReading
  header: string[]
}

/** Every row read: how many are good, which are bad and why, what the clock change did, and a sample. */
export function CheckReport({ check, reading, header }: CheckReportProps) {
  const { zone } = useJob()
  const span =
    check.firstAt === null || check.lastAt === null
      ? null
      : say.span(
          momentText(Date.parse(check.firstAt), zone, 0),
          momentText(Date.parse(check.lastAt), zone, 0),
        )
  return (
    <div className={classes.report}>
      <p role="status" className={classes.counts}>
        {say.counts(check.good, check.rows, check.badCount)}
      </p>
      {span !== null && <p>{span}</p>}
      {check.duplicates > 0 && <Note tone="act">{say.duplicates(check.duplicates)}</Note>}
      {check.alreadyInRecord.map((from) => (
        <Note key={from} tone="act">
          {say.alreadyFrom(from)}
        </Note>
      ))}
      {check.partlyKept > 0 && <Note>{say.partlyKept(check.partlyKept)}</Note>}
      {check.newestFirst && <Note>{say.newestFirst}</Note>}
      {check.clockChanges.map((change) => (
        <Note key={change}>{change}</Note>
      ))}
      <ul className={classes.ranges}>
        {check.perColumn.map(({ index, quantity, good, min, max }) => (
          <li key={index}>
            <strong>{seriesQuantities[quantity].label}</strong> ({header[index] ?? index + 1}):{' '}
            {say.range(
              good,
              min === null ? words.notKnown : quantityText(min, seriesQuantities[quantity].unit),
              max === null ? words.notKnown : quantityText(max, seriesQuantities[quantity].unit),
            )}
          </li>
        ))}
      </ul>
      {check.bad.length > 0 && <BadRows check={check} />}
      <Sample check={check} reading={reading} zone={zone} />
    </div>
  )
}

function BadRows({ check: { bad, badCount } }: { check: LoggerCheck }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: scrolls inside its frame, by keyboard too
    <section className={classes.frame} tabIndex={0} aria-label={say.bad(badCount)}>
      <table className={classes.table}>
        <caption>{bad.length < badCount ? say.badFirst(bad.length, badCount) : say.bad(badCount)}</caption>
        <thead>
          <tr>
            <th scope="col">{say.line}</th>
            <th scope="col">{say.why}</th>
            <th scope="col">{say.text}</th>
          </tr>
        </thead>
        <tbody>
          {bad.map(({ line, text, reason }) => (
            <tr key={line}>
              <td>{line}</td>
              <td className={classes.wrap}>{reason}</td>
              <td>{text}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}

interface SampleProps {
  check: LoggerCheck
  reading: LoggerReading
  zone: string
}

function Sample({ check, reading, zone }: SampleProps) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: scrolls inside its frame, by keyboard too
    <section className={classes.frame} tabIndex={0} aria-label={say.sample}>
      <table className={classes.table}>
        <caption>{say.sample}</caption>
        <thead>
          <tr>
            <th scope="col">{words.form.when}</th>
            {reading.columns.map(({ index, quantity }) => (
              <th key={index} scope="col">
                {seriesQuantities[quantity].label}, {seriesQuantities[quantity].unit}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {check.sample.map(({ at, values }) => (
            <tr key={at}>
              <td>{momentText(Date.parse(at), zone, 0)}</td>
              {values.map((value, i) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: a value is its column
                <td key={i}>{value === null ? words.notKnown : numberText(value)}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}
