import classes from './mark.module.css'
import { type Shape, shapes } from './mark-shapes.tsx'

export type Tone = 'good' | 'stop' | 'act' | 'watch' | 'unproven' | 'plain' | 'accent'

interface MarkProps {
  shape: Shape
  tone: Tone
  /** The word. A mark never stands without one, on screen or for a screen reader. */
  word: string
  size?: number
  /** True where the word already stands beside the mark. */
  bare?: boolean
}

/** A drawn mark with its word. */
export function Mark({ shape, tone, word, size = 20, bare = false }: MarkProps) {
  // A word that is said elsewhere leaves the drawing as ornament: an image without a name would be a riddle.
  const named = bare && word !== ''
  const drawing = (
    <svg
      className={`${classes.mark} ${classes[tone]}`}
      width={size}
      height={size}
      viewBox="0 0 24 24"
      role={named ? 'img' : undefined}
      aria-label={named ? word : undefined}
      aria-hidden={named ? undefined : true}
    >
      {shapes[shape]}
    </svg>
  )
  if (bare) return drawing
  return (
    <span className={`${classes.labelled} ${classes[tone]}`}>
      {drawing}
      {word}
    </span>
  )
}
