import { Button } from '@mantine/core'
import type { ReactNode } from 'react'
import { Link, useLocation } from 'wouter'
import type { KindName } from '#model/record/kinds.ts'
import { paths } from '../../app/paths.ts'
import { ActionLink } from '../../app/shell.tsx'
import { words } from '../../app/words.ts'
import { EntryForm } from '../../parts/entry-form/entry-form.tsx'
import { Section } from '../../parts/page.tsx'
import classes from './set-up.module.css'

interface ThingListProps {
  part: string
  kind: KindName
  adding: boolean
  addWord: string
  saveWord: string
  /** Stands above the list. */
  lead?: ReactNode
  children: ReactNode
}

/** The things of one sort, and the form that adds one. */
export function ThingList({ part, kind, adding, addWord, saveWord, lead, children }: ThingListProps) {
  const [, go] = useLocation()
  if (adding) {
    return (
      <Section title={addWord} aside={<Link href={paths.setUpPart(part)}>{words.setUp.backToList}</Link>}>
        <EntryForm
          kind={kind}
          draftKey={`new ${kind}`}
          saveLabel={saveWord}
          onSaved={() => go(paths.setUpPart(part))}
        />
      </Section>
    )
  }
  return (
    <>
      <ActionLink href={`${paths.setUpPart(part)}/new`}>{addWord}</ActionLink>
      {lead}
      <ul className={classes.cards}>{children}</ul>
    </>
  )
}

interface ThingCardProps {
  id: string
  title: string
  line: string
  /** Stands below the line. */
  below?: ReactNode
  children?: ReactNode
}

/** One thing with its line and a way to correct it. */
export function ThingCard({ id, title, line, below, children }: ThingCardProps) {
  return (
    <li className={classes.card}>
      <div>
        <p className={classes.cardTitle}>{title}</p>
        <p className={classes.cardLine}>{line}</p>
        {below}
      </div>
      <div className={classes.cardActions}>
        {children}
        <Button component={Link} href={paths.correct(id)} variant="default">
          {words.setUp.change}
        </Button>
      </div>
    </li>
  )
}
