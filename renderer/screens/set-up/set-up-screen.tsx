import { Link, useParams } from 'wouter'
import { NotHere } from '../../app/not-here.tsx'
import { paths } from '../../app/paths.ts'
import { words } from '../../app/words.ts'
import { Page } from '../../parts/page.tsx'
import { InstrumentsPart } from './instruments-part.tsx'
import { PeoplePart } from './people-part.tsx'
import { PlacesPart } from './places-part.tsx'
import { ProjectPart } from './project-part.tsx'
import { RecordPart } from './record-part.tsx'
import { RulesPart } from './rules-part.tsx'
import classes from './set-up.module.css'

const parts = {
  project: ProjectPart,
  rules: RulesPart,
  places: PlacesPart,
  people: PeoplePart,
  instruments: InstrumentsPart,
  record: RecordPart,
} as const
type PartName = keyof typeof parts

/** Set-up: what the project is, works to and works with. */
export default function SetUpScreen() {
  const { part = 'project', thing } = useParams<{ part?: string; thing?: string }>()
  if (!Object.hasOwn(parts, part)) return <NotHere />
  const name = part as PartName
  const Part = parts[name]
  return (
    <Page title={words.setUp.parts[name]} lead={words.setUp.leads[name]}>
      <nav aria-label={words.nav.setUp}>
        <ul className={classes.tabs}>
          {Object.keys(parts).map((one) => (
            <li key={one}>
              <Link
                href={paths.setUpPart(one)}
                className={classes.tab}
                aria-current={one === part ? 'page' : undefined}
              >
                {words.setUp.parts[one as PartName]}
              </Link>
            </li>
          ))}
        </ul>
      </nav>
      <Part thing={thing} />
    </Page>
  )
}
