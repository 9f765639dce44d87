import type { FaultPage } from '#model/contract/faults.ts'
import type { RepairOption } from '#model/faults/repair/shapes.ts'
import { faultsWords } from '../../../../app/words/faults.ts'
import { words as allWords } from '../../../../app/words.ts'
import { numberText } from '../../../../parts/number-text.ts'
import { OptionMark } from '../../fault-marks.tsx'
import { optionCautions } from '../repair/option-cautions.ts'
import { amountText, costText, daysText, inOneLine, ownMeasure, rulesText } from '../repair/option-texts.ts'
import { Decision } from '../repair/options.tsx'
import { ranked } from '../repair/options-table.tsx'
import classes from './print.module.css'

const words = faultsWords.options

/** Page 2: the options beside each other, what they cost and need, the cautions, and room to sign. */
export function PageTwo({ page }: { page: FaultPage }) {
  const { options, rates, currency, daysLeft, newScreedDays } = page
  const { columns } = words
  const cautions = new Set(
    options.filter(({ verdict }) => verdict !== 'excluded').flatMap(({ option }) => optionCautions[option]),
  )
  return (
    <>
      <section>
        <h2 className={classes.part}>{words.title}</h2>
        <Decision page={page} />
      </section>
      <table className={classes.options}>
        <thead>
          <tr>
            <th scope="col">{columns.option}</th>
            <th scope="col">{columns.why}</th>
            <th scope="col">{columns.quantities}</th>
            <th scope="col">{columns.cost}</th>
            <th scope="col">{columns.days}</th>
            <th scope="col">{columns.back}</th>
            <th scope="col">{columns.retest}</th>
          </tr>
        </thead>
        <tbody>
          {ranked(options).map((option) => (
            <tr key={option.option}>
              <th scope="row">{option.words}</th>
              <td>
                <OptionMark verdict={option.verdict} size={13} /> <Reason option={option} page={page} />
              </td>
              <td>
                {option.quantities.map((quantity) => `${quantity.what} ${amountText(quantity)}`).join('; ') ||
                  '–'}
              </td>
              <td>{option.cost === null ? words.noCost : costText(option.cost, currency)}</td>
              <td>{option.daysLost === null ? words.noDays : daysText(option.daysLost)}</td>
              <td>{words.percent(numberText(option.residualPercent, 0))}</td>
              <td>{option.verdict === 'excluded' ? '–' : inOneLine(option.retest)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className={classes.strong}>{rates.basis === 'illustrative' ? words.illustrative : words.own}</p>
      {daysLeft !== null && <p>{faultsWords.daysLeft.counted(daysLeft)}</p>}
      {newScreedDays !== null && (
        <p>{faultsWords.newScreed.found(Math.ceil(newScreedDays.p50), Math.ceil(newScreedDays.p90))}</p>
      )}
      <p>{words.caution}</p>
      <section className={classes.keep}>
        <h2 className={classes.part}>{faultsWords.print.cautions}</h2>
        <ul className={classes.cautions}>
          {[...cautions].map((id) => (
            <li key={id}>{allWords.cautions[id]}</li>
          ))}
          <li>{allWords.cautions.structure}</li>
        </ul>
      </section>
      <div className={classes.sign}>
        <p>{faultsWords.print.signature}</p>
        <p>{faultsWords.print.engineer}</p>
      </div>
    </>
  )
}

function Reason({ option, page }: { option: RepairOption; page: FaultPage }) {
  const measure = ownMeasure(option, page)
  const rules = rulesText(option)
  return (
    <>
      {option.because}
      {measure !== null && ` ${words.measure}: ${measure}`}
      {rules !== null && ` (${rules})`}
    </>
  )
}
