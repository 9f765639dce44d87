import { Button } from '@mantine/core'
import { floorsWords as words } from '../../../app/words/floors.ts'
import { EntryForm } from '../../../parts/entry-form/entry-form.tsx'
import classes from '../floors.module.css'
import { type Shape, ShapeVerdict } from './shape-verdict.tsx'
import type { BayDrawing, Drawing } from './use-bay-drawing.ts'

interface DrawPanelProps {
  about: Drawing
  drawing: BayDrawing
  shape: Shape
  onSaved: (bay: string) => void
  onLeave: () => void
}

/** Beside the plan while a bay is drawn: how to, what it means, and all that a bay is besides its outline. */
export function DrawPanel({ about, drawing, shape, onSaved, onLeave }: DrawPanelProps) {
  return (
    <section className={classes.drawPanel} aria-labelledby="drawing-title">
      <header className={classes.cardHead}>
        <h2 id="drawing-title" className={classes.cardTitle}>
          {about.kind === 'new' ? words.drawing.newTitle : words.drawing.editTitle(about.bay.body.name)}
        </h2>
        <Button variant="subtle" onClick={onLeave}>
          {words.drawing.cancel}
        </Button>
      </header>
      <p className={classes.how}>{words.drawing.how}</p>
      <p className={classes.how}>{words.drawing.howKeys}</p>
      <ShapeVerdict shape={shape} />
      {drawing.corners.length > 0 && (
        <Button
          variant="default"
          className={classes.startOver}
          onClick={() => {
            drawing.setCorners([])
            drawing.setTapping(true)
          }}
        >
          {words.drawing.startOver}
        </Button>
      )}
      <EntryForm
        key={drawing.draftKey}
        kind="bay-planned"
        draftKey={drawing.draftKey}
        start={drawing.start}
        {...(about.kind === 'edit'
          ? {
              subject: about.bay.id,
              correcting: about,
              saveLabel: words.drawing.saveEdit,
            }
          : { saveLabel: words.drawing.save })}
        onSaved={(entry) => onSaved(entry.subject)}
      />
    </section>
  )
}
