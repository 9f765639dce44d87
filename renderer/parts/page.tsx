import type { ReactNode } from 'react'
import classes from './page.module.css'

interface PageProps {
  title: ReactNode
  /** One sentence under the title: what this page answers. */
  lead?: ReactNode
  /** Stands right of the title. */
  actions?: ReactNode
  /** Reading width for forms and prose; the default uses the room. */
  narrow?: boolean
  children: ReactNode
}

/** The frame of every screen: one h1, its lead, its actions. */
export function Page({ title, lead, actions, narrow = false, children }: PageProps) {
  return (
    <div className={narrow ? classes.narrow : classes.page}>
      <header className={classes.head}>
        <div>
          <h1 className={classes.title}>{title}</h1>
          {lead !== undefined && <div className={classes.lead}>{lead}</div>}
        </div>
        {actions !== undefined && <div className={classes.actions}>{actions}</div>}
      </header>
      {children}
    </div>
  )
}

/** A headed part of a page. */
export function Section({
  title,
  children,
  aside,
}: {
  title: ReactNode
  children: ReactNode
  aside?: ReactNode
}) {
  return (
    <section className={classes.section}>
      <header className={classes.sectionHead}>
        <h2 className={classes.sectionTitle}>{title}</h2>
        {aside}
      </header>
      {children}
    </section>
  )
}

/** Nothing here yet: says what would stand here and teaches the next step. */
export function Empty({
  title,
  children,
  action,
}: {
  title: string
  children: ReactNode
  action?: ReactNode
}) {
  return (
    <div className={classes.empty}>
      <h2 className={classes.emptyTitle}>{title}</h2>
      <div>{children}</div>
      {action !== undefined && <div className={classes.emptyAction}>{action}</div>}
    </div>
  )
}
