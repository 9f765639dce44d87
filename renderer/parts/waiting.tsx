import { Loader } from '@mantine/core'
import { words } from '../app/words.ts'
import classes from './waiting.module.css'

/** Something is being fetched. Says so in words for those who cannot see it turn. */
export function Waiting({ whole = false, what = words.waiting }: { whole?: boolean; what?: string }) {
  return (
    <p className={whole ? classes.whole : classes.inPlace} role="status">
      <Loader size="sm" aria-hidden /> {what}
    </p>
  )
}
