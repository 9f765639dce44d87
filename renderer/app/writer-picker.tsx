import { Select } from '@mantine/core'
import type { PersonId } from '#model/record/ids.ts'
import { useJob } from './job.tsx'
import { words } from './words.ts'
import { chooseWriter, useWriter } from './writer.ts'

/** Every entry is signed by a person: the one picked here. */
export function WriterPicker() {
  const { people } = useJob().outline
  const writer = useWriter()
  return (
    <Select
      label={words.rail.writer}
      placeholder={words.rail.pickWriter}
      data={people.map(({ id, body }) => ({
        value: id,
        label: body.name,
      }))}
      value={writer}
      onChange={(value) => value !== null && chooseWriter(value as PersonId)}
      comboboxProps={{ position: 'top-start' }}
    />
  )
}
