import { Link } from 'wouter'
import { causes } from '#model/faults/causes.ts'
import { evidenceItem } from '#model/faults/evidence.ts'
import type { Diagnosis, NeighbourComparison } from '#model/faults/shapes.ts'
import { paths } from '../../../../app/paths.ts'
import { faultsWords } from '../../../../app/words/faults.ts'
import { words as allWords } from '../../../../app/words.ts'
import { Mark } from '../../../../parts/mark.tsx'
import classes from '../fault.module.css'
import { EntryLinks } from './entry-links.tsx'

const words = faultsWords.causes

const looks = {
  'proven sound': { shape: 'discTick', tone: 'good' },
  'has a fault': { shape: 'trianglePoint', tone: 'act' },
  'not proven': { shape: 'diamondAsk', tone: 'unproven' },
} as const

/** The bays beside it: what is true there as well speaks against a cause where that bay is sound. */
export function Neighbours({ diagnosis }: { diagnosis: Diagnosis }) {
  return (
    <div className={classes.block}>
      <h3 className={classes.small}>{words.neighbours}</h3>
      {diagnosis.neighbours.length === 0 && <p className={classes.soft}>{words.neighboursNone}</p>}
      <div className={classes.neighbours}>
        {diagnosis.neighbours.map((one) => (
          <Neighbour key={one.bay} one={one} />
        ))}
      </div>
    </div>
  )
}

function Neighbour({ one }: { one: NeighbourComparison }) {
  return (
    <article className={classes.neighbour}>
      <h4 className={classes.neighbourName}>
        <Link href={paths.bay(one.bay)}>{allWords.names.bay(one.name)}</Link>
        <Mark {...looks[one.standing]} word={words.standing[one.standing]} size={18} />
      </h4>
      <p className={classes.because}>
        {one.because} <EntryLinks entries={one.entries} />
      </p>
      {one.lowers.length > 0 && (
        <p>
          <strong>{words.lowers}:</strong> {one.lowers.map((cause) => causes[cause].toLowerCase()).join(', ')}
        </p>
      )}
      {one.different.length > 0 && (
        <details>
          <summary>
            {words.different} ({one.different.length})
          </summary>
          <ul className={classes.plain}>
            {one.different.map(({ id, here, there }) => (
              <li key={id}>
                {evidenceItem(id).text}. {words.here}: {here} {words.there}: {there}
              </li>
            ))}
          </ul>
        </details>
      )}
      {one.same.length > 0 && (
        <details>
          <summary>
            {words.same} ({one.same.length})
          </summary>
          <ul className={classes.plain}>
            {one.same.map((id) => (
              <li key={id}>{evidenceItem(id).text}</li>
            ))}
          </ul>
        </details>
      )}
    </article>
  )
}
