import type { WaysFound } from '#model/drying/what-if/shapes.ts'
import { useJob } from '../../app/job.tsx'
import { waysWords } from '../../app/words/ways.ts'
import { Section } from '../../parts/page.tsx'
import { type Clock, likelyCell, type WayColumn } from './rows.ts'
import classes from './ways.module.css'

const words = waysWords.bays

/** The dates of each bay of a room, for those who cover one bay after the other. */
export function BaysPart({ columns, clock }: { columns: readonly WayColumn[]; clock: Clock }) {
  const { nameOf } = useJob()
  const bays = columns[0]?.found.bays.map(({ bay }) => bay) ?? []
  if (bays.length < 2) return null
  return (
    <Section title={words.title}>
      <p className={classes.soft}>{words.lead}</p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys */}
      <section className={classes.scroll} tabIndex={0} aria-label={words.title}>
        <table className={classes.table}>
          <caption className={classes.hidden}>{words.title}</caption>
          <thead>
            <tr>
              <th scope="col">{words.bay}</th>
              {columns.map(({ found }) => (
                <th key={found.way} scope="col">
                  {waysWords.names[found.way]}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {bays.map((bay) => (
              <tr key={bay}>
                <th scope="row">{nameOf(bay)}</th>
                {columns.map(({ found }) => {
                  const own = found.bays.find((one) => one.bay === bay)
                  return (
                    <td key={found.way} className={found.slowest === bay ? classes.slowest : undefined}>
                      {own === undefined ? '–' : likelyCell({ ...found, ...own, why: [] }, clock).main}
                    </td>
                  )
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </Section>
  )
}

/** Bays that nothing can be worked out for, with what is missing by name. */
export function WithoutPart({ without }: Pick<WaysFound, 'without'>) {
  const { nameOf } = useJob()
  if (without.length === 0) return null
  return (
    <Section title={words.without}>
      <ul className={classes.list}>
        {without.map(({ bay, missing }) => (
          <li key={bay}>
            <strong>{nameOf(bay)}</strong>: {missing.join(' ')}
          </li>
        ))}
      </ul>
    </Section>
  )
}
