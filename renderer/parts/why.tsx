import { Popover, UnstyledButton } from '@mantine/core'
import type { ReactNode } from 'react'
import type { Why } from '#model/why.ts'
import { useJob } from '../app/job.tsx'
import { words } from '../app/words.ts'
import { numberText, quantityText } from './number-text.ts'
import { saidOnSite } from './site-time.ts'
import classes from './why.module.css'

const valueText = (value: number | string | null, unit: string, zone: string): string => {
  if (value === null) return words.notKnown
  return typeof value === 'number' ? quantityText(value, unit) : saidOnSite(value, zone)
}

/** The number with a "why?" beside it, which opens what went into it, the formula, its source and how sure that is. */
export function WhyButton({ why, children }: { why: Why; children?: ReactNode }) {
  return (
    <span className={classes.pair}>
      {children}
      <Popover width={420} position="bottom-start" withArrow shadow="md" trapFocus returnFocus>
        <Popover.Target>
          <UnstyledButton className={classes.ask} aria-label={words.why.of(why.what)}>
            {words.why.ask}
          </UnstyledButton>
        </Popover.Target>
        <Popover.Dropdown className={classes.drop}>
          <WhySheet why={why} />
        </Popover.Dropdown>
      </Popover>
    </span>
  )
}

/** The same answer, printed in place. */
export function WhySheet({ why }: { why: Why }) {
  const { zone } = useJob()
  return (
    <div className={classes.sheet}>
      <p className={classes.what}>
        {why.what}: <strong>{valueText(why.value, why.unit, zone)}</strong>
      </p>
      <table className={classes.inputs}>
        <caption className={classes.caption}>{words.why.from}</caption>
        <tbody>
          {why.inputs.map(({ name, value, unit }) => (
            <tr key={`${name} ${unit}`}>
              <th scope="row">{saidOnSite(name, zone)}</th>
              <td>{typeof value === 'number' ? numberText(value, 3) : valueText(value, '', zone)}</td>
              <td className={classes.unit}>{unit}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className={classes.formula}>{why.formula}</p>
      <p className={classes.source}>
        {why.source}
        <span className={classes.provenance}> · {why.provenance}</span>
      </p>
    </div>
  )
}
