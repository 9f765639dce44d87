import type { PinStanding } from '#model/contract/index.ts'
import { peopleWords } from '../../app/words/people.ts'
import { Mark } from '../../parts/mark.tsx'

const words = peopleWords.part

/** Whether a PIN is set, and whether one has to wait after wrong tries. */
export function PinState({ standing }: { standing: PinStanding }) {
  const { isSet, waitMs, wrongTries } = standing
  if (waitMs > 0) return <Mark shape="squareCross" tone="stop" word={words.waits(waitMs)} />
  if (wrongTries > 0) return <Mark shape="trianglePoint" tone="act" word={words.wrong(wrongTries)} />
  return isSet ? (
    <Mark shape="discTick" tone="good" word={words.signed(true)} />
  ) : (
    <Mark shape="emptyRing" tone="plain" word={words.signed(false)} />
  )
}
