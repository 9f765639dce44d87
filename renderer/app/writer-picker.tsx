import { NativeSelect } from '@mantine/core'
import type { PersonId } from '#model/record/ids.ts'
import { useJob } from './job.tsx'
import { useLock } from './use-pins.ts'
import { words } from './words.ts'
import { chooseWriter, useWriter } from './writer.ts'

/** Every entry is signed by a person: the one picked here. Who hands over to somebody else leaves no proof behind. */
export function WriterPicker() {
  const { people } = useJob().outline
  const writer = useWriter()
  const lock = useLock()
  const pick = (value: string) => {
    if (writer !== null && value !== writer) void lock()
    chooseWriter(value as PersonId)
  }
  return (
    <NativeSelect
      label={words.rail.writer}
      data={[
        { value: '', label: words.rail.pickWriter, disabled: true },
        ...people.map(({ id, body }) => ({ value: id, label: body.name })),
      ]}
      value={writer ?? ''}
      onChange={(event) => pick(event.currentTarget.value)}
    />
  )
}
