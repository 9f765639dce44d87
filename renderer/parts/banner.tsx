import { Button } from '@mantine/core'
import type { ReactNode } from 'react'
import type { Trouble } from '../app/trouble.ts'
import { words } from '../app/words.ts'
import classes from './banner.module.css'
import { SeverityMark } from './severity-mark.tsx'

interface BannerProps {
  trouble: Trouble
  onRetry?: () => void
  /** What the button that tries again says. */
  retryWord?: string
  /** The only thing on screen. */
  whole?: boolean
  children?: ReactNode
}

/** A call failed: what is wrong and what to do, in a sentence. Announced when it appears. */
export function Banner({
  trouble,
  onRetry,
  retryWord = words.tryAgain,
  whole = false,
  children,
}: BannerProps) {
  return (
    <div className={whole ? classes.whole : undefined}>
      <div className={classes.banner} role="alert">
        <SeverityMark severity="stop" size={26} />
        <div>
          <p className={classes.text}>{trouble.banner}</p>
          {children}
          {onRetry !== undefined && (
            <Button variant="default" onClick={onRetry} mt="sm">
              {retryWord}
            </Button>
          )}
        </div>
      </div>
    </div>
  )
}

/** A quiet word that is not a failure: what this means, what comes next. */
export function Note({ children, tone = 'plain' }: { children: ReactNode; tone?: 'plain' | 'act' | 'good' }) {
  return <div className={`${classes.note} ${classes[tone]}`}>{children}</div>
}
