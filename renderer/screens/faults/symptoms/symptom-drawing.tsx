import { type SymptomCode, symptoms } from '#model/record/words.ts'
import { scenes } from './scenes.tsx'
import classes from './symptoms.module.css'

interface SymptomDrawingProps {
  symptom: SymptomCode
  /** True where the word stands beside the drawing. */
  bare?: boolean
  small?: boolean
}

/** A symptom as a drawing: what to compare with what lies on the floor. */
export function SymptomDrawing({ symptom, bare = false, small = false }: SymptomDrawingProps) {
  return (
    <span className={small ? classes.small : undefined}>
      <svg
        className={classes.drawing}
        viewBox="0 0 96 64"
        role={bare ? undefined : 'img'}
        aria-label={bare ? undefined : symptoms[symptom]}
        aria-hidden={bare || undefined}
      >
        {scenes[symptom]}
      </svg>
    </span>
  )
}
