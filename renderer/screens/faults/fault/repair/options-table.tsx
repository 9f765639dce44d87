import type { FaultPage } from '#model/contract/faults.ts'
import type { RepairOption } from '#model/faults/repair/shapes.ts'
import { faultsWords } from '../../../../app/words/faults.ts'
import { numberText } from '../../../../parts/number-text.ts'
import { WhyButton } from '../../../../parts/why.tsx'
import { OptionMark } from '../../fault-marks.tsx'
import classes from '../fault.module.css'
import { whyCost, whyDays, whyQuantity, whyResidual, whyWholeLife } from '../whys.ts'
import { amountText, costText, daysText, ownMeasure, rulesText } from './option-texts.ts'

const words = faultsWords.options
const rank = { allowed: 0, 'measure first': 1, excluded: 2 } as const

/** What may be done first; within each, in the order of how much is done. */
export function ranked(options: readonly RepairOption[]): RepairOption[] {
  return options.toSorted((a, b) => rank[a.verdict] - rank[b.verdict])
}

/** The options beside each other, to be read in a meeting. */
export function OptionsTable({ page }: { page: FaultPage }) {
  const { columns } = words
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys
    <section className={classes.scroll} tabIndex={0} aria-label={words.caption}>
      <table className={classes.options}>
        <caption className={classes.hidden}>{words.caption}</caption>
        <thead>
          <tr>
            <th scope="col">{columns.option}</th>
            <th scope="col">{columns.why}</th>
            <th scope="col">{columns.quantities}</th>
            <th scope="col">{columns.cost}</th>
            <th scope="col">{columns.daysAndBack}</th>
            <th scope="col">{columns.retest}</th>
          </tr>
        </thead>
        <tbody>
          {ranked(page.options).map((option) => (
            <Option key={option.option} option={option} page={page} />
          ))}
        </tbody>
      </table>
    </section>
  )
}

function Option({ option, page }: { option: RepairOption; page: FaultPage }) {
  const { rates, currency } = page
  const measure = ownMeasure(option, page)
  const rules = rulesText(option)
  return (
    <tr>
      <th scope="row" className={option.verdict === 'excluded' ? classes.quiet : undefined}>
        {option.words}
      </th>
      <td>
        <OptionMark verdict={option.verdict} />
        <p>{option.because}</p>
        {measure !== null && (
          <p>
            <strong>{words.measure}:</strong> {measure}
          </p>
        )}
        {rules !== null && <p className={classes.ruleId}>{rules}</p>}
      </td>
      <td>
        {option.quantities.length === 0 && <span className={classes.soft}>{words.noQuantities}</span>}
        <ul className={classes.bare}>
          {option.quantities.map((quantity) => (
            <li key={quantity.what}>
              {quantity.what}{' '}
              <WhyButton why={whyQuantity(quantity)}>
                <strong className={classes.figure}>{amountText(quantity)}</strong>
              </WhyButton>
            </li>
          ))}
        </ul>
      </td>
      <td>
        {option.cost === null ? (
          <span className={classes.soft}>{words.noCost}</span>
        ) : (
          <WhyButton why={whyCost(option, rates, currency)}>
            <strong className={classes.figure}>{costText(option.cost, currency)}</strong>
          </WhyButton>
        )}
        <p className={classes.soft}>
          {words.whole}:{' '}
          {option.wholeLife === null ? (
            words.wholeUnknown
          ) : (
            <WhyButton why={whyWholeLife(option, rates, currency)}>
              <span className={classes.figure}>{costText(option.wholeLife, currency)}</span>
            </WhyButton>
          )}
        </p>
      </td>
      <td>
        {option.daysLost === null ? (
          <span className={classes.soft}>{words.noDays}</span>
        ) : (
          <WhyButton why={whyDays(option)}>
            <strong className={classes.figure}>{daysText(option.daysLost)}</strong>
          </WhyButton>
        )}
        <p className={classes.soft}>
          {words.back}{' '}
          <WhyButton why={whyResidual(option, rates)}>
            <span className={classes.figure}>{words.percent(numberText(option.residualPercent, 0))}</span>
          </WhyButton>
        </p>
      </td>
      <td>
        <ul className={classes.bare}>
          {option.retest.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </td>
    </tr>
  )
}
