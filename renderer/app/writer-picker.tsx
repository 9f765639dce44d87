import { Select } from '@mantine/core'
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
  const pick = (value: string | null) => {
    if (value === null) return
    if (writer !== null && value !== writer) void lock()
    chooseWriter(value as PersonId)
  }
  return (
    <Select
      label={words.rail.writer}
      placeholder={words.rail.pickWriter}
      data={people.map(({ id, body }) => ({
        value: id,
        label: body.name,
      }))}
      value={writer}
      onChange={pick}
      comboboxProps={{ position: 'top-start' }}
    />
  )
}
