import { Button } from '@mantine/core'
import { type ReactNode, useEffect, useRef } from 'react'
import { Link, useLocation } from 'wouter'
import type { ProjectSummary } from '#model/contract/index.ts'
import { PinPlace, SavedPlace, useCommandField } from './on-demand.tsx'
import { PartNote } from './part-note.tsx'
import { Rail } from './rail.tsx'
import { ScreenGuard } from './screen-guard.tsx'
import classes from './shell.module.css'
import { words } from './words.ts'

/** The frame around every page: the rail on the left, the page, the bar that says what was saved last. */
export function Shell({ projects, children }: { projects: ProjectSummary[]; children: ReactNode }) {
  const command = useCommandField()
  const [place] = useLocation()
  useTopOfPage()
  return (
    <div className={classes.shell}>
      <button type="button" className={classes.skip} onClick={() => document.getElementById('page')?.focus()}>
        {words.nav.skip}
      </button>
      <Rail projects={projects} onFind={command.open} />
      <main id="page" tabIndex={-1} className={classes.page}>
        <SavedPlace />
        <PartNote />
        <ScreenGuard place={place}>{children}</ScreenGuard>
      </main>
      {command.place}
      <PinPlace />
    </div>
  )
}

/** A new page begins at its top. */
function useTopOfPage(): void {
  const [place] = useLocation()
  const before = useRef(place)
  useEffect(() => {
    if (before.current === place) return
    before.current = place
    scrollTo(0, 0)
  }, [place])
}

/** A link that looks like the one big action of its place. */
export function ActionLink({
  href,
  children,
  quiet = false,
}: {
  href: string
  children: ReactNode
  quiet?: boolean
}) {
  return (
    <Button component={Link} href={href} variant={quiet ? 'default' : 'filled'} size="md">
      {children}
    </Button>
  )
}
