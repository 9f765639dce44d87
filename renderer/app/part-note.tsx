import { Note } from '../parts/banner.tsx'
import { momentText } from '../parts/site-time.ts'
import { useJob } from './job.tsx'
import classes from './part-note.module.css'
import { words } from './words.ts'

const say = words.bundle.part

/** In a record that holds only some bays of the project, every page says so: what is not here is not known here. */
export function PartNote() {
  const { outline, zone } = useJob()
  const { part } = outline
  if (part === null) return null
  const held = part.held.map(({ name }) => name)
  const named = part.named.map(({ name }) => name)
  return (
    <div className={classes.place}>
      <Note tone="act">
        <details>
          <summary>
            <strong>{say.title(held.length, part.ofBays)}</strong>
          </summary>
          <p>{say.what(held, momentText(Date.parse(part.asOf), zone))}</p>
          {named.length > 0 && <p>{say.named(named)}</p>}
        </details>
      </Note>
    </div>
  )
}
