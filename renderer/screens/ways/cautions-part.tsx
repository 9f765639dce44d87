import type { WayCaution, WayId } from '#model/drying/what-if/shapes.ts'
import { cautionWords } from '../../app/words/cautions.ts'
import { waysWords } from '../../app/words/ways.ts'
import { Mark } from '../../parts/mark.tsx'
import { Section } from '../../parts/page.tsx'
import type { WayColumn } from './rows.ts'
import classes from './ways.module.css'

const words = waysWords.cautions

interface Told {
  caution: WayCaution
  ways: WayId[]
}

/** What must not be done yet and what to take care of: each once, with the ways that it belongs to. */
export function CautionsPart({ columns }: { columns: readonly WayColumn[] }) {
  const told = toldOnce(columns)
  const usesPower = columns.some(({ means }) => means.drying !== null || means.heat !== null)
  if (told.length === 0 && !usesPower) return null
  return (
    <Section title={words.title}>
      <ul className={classes.cautions}>
        {told.map(({ caution, ways }) => (
          <li key={caution.says}>
            <Mark
              shape={caution.stops ? 'octagonBar' : 'trianglePoint'}
              tone={caution.stops ? 'stop' : 'act'}
              word={caution.stops ? words.stop : words.care}
              size={19}
            />
            <div>
              <p>{caution.says}</p>
              <p className={classes.soft}>
                {ways.map((way) => waysWords.names[way]).join(' · ')}
                {' · '}
                {caution.source === caution.provenance
                  ? caution.provenance
                  : `${caution.source} (${caution.provenance})`}
              </p>
            </div>
          </li>
        ))}
        {usesPower && (
          <li>
            <Mark shape="trianglePoint" tone="act" word={words.care} size={19} />
            <p>{cautionWords.electric}</p>
          </li>
        )}
      </ul>
      <p className={classes.soft}>{words.follow}</p>
    </Section>
  )
}

function toldOnce(columns: readonly WayColumn[]): Told[] {
  const told = new Map<string, Told>()
  for (const { found } of columns) {
    for (const caution of found.cautions) {
      const before = told.get(caution.says)
      if (before === undefined) told.set(caution.says, { caution, ways: [found.way] })
      else before.ways.push(found.way)
    }
  }
  return [...told.values()].sort((a, b) => Number(b.caution.stops) - Number(a.caution.stops))
}
