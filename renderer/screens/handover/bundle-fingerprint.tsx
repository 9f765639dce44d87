import { Button } from '@mantine/core'
import { useState } from 'react'
import { words } from '../../app/words.ts'
import classes from './bundle.module.css'

const say = words.bundle.kept

/** A hash in groups of four, as people read it to each other. */
export function Fingerprint({ hex }: { hex: string }) {
  return <span className={classes.print}>{hex.match(/.{1,4}/g)?.join(' ')}</span>
}

/** Puts the fingerprint where it can be pasted into a letter or a message. */
export function CopyFingerprint({ hex }: { hex: string }) {
  const [copied, setCopied] = useState(false)
  const copy = () => {
    // Where the clipboard is not given to pages, the fingerprint can still be marked and copied by hand.
    navigator.clipboard.writeText(hex).then(
      () => setCopied(true),
      () => setCopied(false),
    )
  }
  return (
    <Button variant="default" onClick={copy}>
      {copied ? say.copied : say.copy}
    </Button>
  )
}
