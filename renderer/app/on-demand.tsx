import { useHotkeys } from '@mantine/hooks'
import { lazy, Suspense, useState } from 'react'
import { useLastWritten } from './last-written.ts'
import { usePinAsk } from './pin-ask.ts'

/**
 * Parts of the frame that are there only after somebody has acted. Each is loaded then and not at the start: the first
 * page of the morning is there sooner.
 */
const CommandField = lazy(() => import('./command-field.tsx'))
const PinDialog = lazy(() => import('./pin-dialog.tsx'))
const SavedBar = lazy(() => import('./saved-bar.tsx'))

/** Says what was saved last. */
export function SavedPlace() {
  const last = useLastWritten()
  return <Suspense fallback={null}>{last !== null && <SavedBar last={last} />}</Suspense>
}

/** Asks for the PIN that a signature needs. */
export function PinPlace() {
  const ask = usePinAsk()
  return <Suspense fallback={null}>{ask !== null && <PinDialog ask={ask} />}</Suspense>
}

/** Opens the command field with Ctrl K (or Cmd K), also while a field has the focus. */
export function useCommandField() {
  const [opened, setOpened] = useState<boolean | 'never'>('never')
  const open = () => setOpened(true)
  useHotkeys([['mod+K', open]], [])
  const place = (
    <Suspense fallback={null}>
      {opened !== 'never' && <CommandField opened={opened} onClose={() => setOpened(false)} />}
    </Suspense>
  )
  return { open, place }
}
