import { Kbd, NativeSelect, UnstyledButton } from '@mantine/core'
import { Link, useLocation } from 'wouter'
import type { ProjectSummary } from '#model/contract/index.ts'
import { momentText } from '../parts/site-time.ts'
import { useNow } from './clock.ts'
import { chooseProject, useJob } from './job.tsx'
import { LockNow } from './lock-now.tsx'
import { paths } from './paths.ts'
import classes from './rail.module.css'
import { ThemeSwitch } from './theme-switch.tsx'
import { words } from './words.ts'
import { WriterPicker } from './writer-picker.tsx'

const pages = [
  { href: paths.today, word: words.nav.today, also: [] },
  { href: paths.floors, word: words.nav.floors, also: ['/bay'] },
  { href: paths.readyList, word: words.nav.ready, also: [] },
  { href: paths.waysList, word: words.ways.nav, also: [] },
  { href: paths.audit, word: words.audit.nav, also: [] },
  { href: paths.faults, word: words.nav.faults, also: [] },
  { href: paths.handover, word: words.handover.nav, also: [] },
  { href: paths.entries, word: words.nav.entries, also: [] },
  { href: paths.setUp, word: words.nav.setUp, also: ['/import'] },
]

/** Left rail: the project, the pages, who is writing, and what "now" is on site. */
export function Rail({ projects, onFind }: { projects: ProjectSummary[]; onFind: () => void }) {
  const [place] = useLocation()
  return (
    <header className={classes.rail}>
      <div className={classes.top}>
        <p className={classes.app}>{words.app}</p>
        <ProjectName projects={projects} />
        <Link href={paths.record} className={classes.record}>
          {words.nav.record}
        </Link>
        <UnstyledButton className={classes.find} onClick={onFind}>
          {words.rail.find} <Kbd className={classes.keys}>{words.rail.findKeys}</Kbd>
        </UnstyledButton>
        <nav aria-label={words.nav.label}>
          <ul className={classes.pages}>
            {pages.map(({ href, word, also }) => (
              <li key={href}>
                <Link
                  href={href}
                  className={classes.link}
                  aria-current={isHere(place, href, also) ? 'page' : undefined}
                >
                  {word}
                </Link>
              </li>
            ))}
          </ul>
        </nav>
      </div>
      <div className={classes.foot}>
        <WriterPicker />
        <LockNow />
        <AsOf />
        <ThemeSwitch />
      </div>
    </header>
  )
}

function isHere(place: string, href: string, also: readonly string[]): boolean {
  if (href === '/') return place === '/'
  return [href, ...also].some((start) => place === start || place.startsWith(`${start}/`))
}

function ProjectName({ projects }: { projects: ProjectSummary[] }) {
  const { id, outline } = useJob()
  if (projects.length < 2) return <p className={classes.project}>{outline.project.body.name}</p>
  return (
    <NativeSelect
      label={words.rail.project}
      data={projects.map((project) => ({ value: project.id, label: project.name }))}
      value={id}
      onChange={(event) => chooseProject(event.currentTarget.value)}
    />
  )
}

function AsOf() {
  const { zone } = useJob()
  const now = useNow()
  return (
    <p className={classes.asOf}>
      {words.rail.asOf}: <strong>{momentText(now, zone)}</strong>
      <br />
      {words.rail.siteTime(zone)}
    </p>
  )
}
