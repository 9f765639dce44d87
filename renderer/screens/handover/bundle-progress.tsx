import { Button, Progress } from '@mantine/core'
import { words } from '../../app/words.ts'

interface BundleProgressProps {
  done: number
  of: number
  label: string
  text: (percent: number) => string
  onStop: () => void
}

/** How far long work on a bundle is, with a way to stop it. */
export function BundleProgress({ done, of, label, text, onStop }: BundleProgressProps) {
  const percent = Math.floor((100 * done) / Math.max(1, of))
  return (
    <>
      <Progress value={percent} aria-label={label} transitionDuration={200} />
      <p role="status">{text(percent)}</p>
      <Button variant="default" onClick={onStop}>
        {words.bundle.make.stop}
      </Button>
    </>
  )
}
