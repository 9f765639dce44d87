import { Button } from '@mantine/core'
import { standingOf, useLock, usePins } from './use-pins.ts'
import { peopleWords } from './words/people.ts'
import { useWriter } from './writer.ts'

const words = peopleWords.rail

/** Shown while the one who writes has proven their PIN: one press before walking away from the machine. */
export function LockNow() {
  const { sheet } = usePins()
  const lock = useLock()
  const standing = standingOf(sheet, useWriter())
  if (standing === null || standing.provenForMs === null) return null
  return (
    <Button variant="default" onClick={() => void lock()}>
      {words.lock}
    </Button>
  )
}
