import type { ReactNode } from 'react'
import classes from './live-panel.module.css'

/** What the typed numbers mean, beside the form while it is filled in. */
export function LivePanel({ title, lead, children }: { title: string; lead?: string; children: ReactNode }) {
  return (
    <section className={classes.panel} aria-live="polite">
      <h2 className={classes.title}>{title}</h2>
      {lead !== undefined && <p className={classes.lead}>{lead}</p>}
      {children}
    </section>
  )
}

interface LiveNumberProps {
  what: string
  /** The number with its unit, or words when it is not known yet. */
  value: ReactNode
  meaning: ReactNode
  tone?: 'good' | 'act' | 'stop' | 'open'
}

/** One number that the form works out, with what it means. */
export function LiveNumber({ what, value, meaning, tone = 'open' }: LiveNumberProps) {
  return (
    <div className={`${classes.number} ${classes[tone]}`}>
      <p className={classes.what}>{what}</p>
      <p className={classes.value}>{value}</p>
      <p className={classes.meaning}>{meaning}</p>
    </div>
  )
}
