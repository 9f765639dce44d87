import { Button, Textarea } from '@mantine/core'
import { type FormEvent, useState } from 'react'
import { photosWords as words } from '../../app/words/photos.ts'
import classes from './photos.module.css'

interface CaptionBoxProps {
  caption: string | undefined
  busy: boolean
  /** Resolves when it is written. */
  onSave: (caption: string | undefined) => Promise<void>
}

/** What stands under a photo, and the box to write it. */
export function CaptionBox({ caption, busy, onSave }: CaptionBoxProps) {
  const [typed, setTyped] = useState<string | null>(null)
  const save = async (event: FormEvent) => {
    event.preventDefault()
    const next = typed?.trim() ?? ''
    if (next !== (caption ?? '')) await onSave(next === '' ? undefined : next)
    setTyped(null)
  }
  if (typed === null) {
    return (
      <div>
        <p className={classes.caption}>{caption ?? words.noCaption}</p>
        <Button variant="subtle" px={0} onClick={() => setTyped(caption ?? '')}>
          {caption === undefined ? words.writeCaption : words.changeCaption}
        </Button>
      </div>
    )
  }
  return (
    <form className={classes.measuring} onSubmit={(event) => void save(event)}>
      <Textarea
        autoFocus
        autosize
        minRows={2}
        maxLength={400}
        label={words.caption}
        value={typed}
        onChange={(event) => setTyped(event.currentTarget.value)}
      />
      <div className={classes.row}>
        <Button type="submit" loading={busy}>
          {words.save}
        </Button>
        <Button variant="default" onClick={() => setTyped(null)}>
          {words.cancel}
        </Button>
      </div>
    </form>
  )
}
