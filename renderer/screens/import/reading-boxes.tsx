import { NumberInput, Select } from '@mantine/core'
import type { LoggerReading } from '#model/contract/index.ts'
import { words } from '../../app/words.ts'
import classes from './import.module.css'

const say = words.imports

interface ReadingBoxesProps {
  reading: LoggerReading
  columns: string[]
  onChange: (reading: LoggerReading) => void
}

const listed = (options: Readonly<Record<string, string>>) =>
  Object.entries(options).map(([value, label]) => ({ value, label }))

/** Encoding, separator, decimal sign, dates and time zone: shown as guessed, each can be set right. */
export function ReadingBoxes({ reading, columns, onChange }: ReadingBoxesProps) {
  const set = (part: Partial<LoggerReading>) => onChange({ ...reading, ...part })
  const zones = [...new Set([reading.timeZone, 'UTC', ...Intl.supportedValuesOf('timeZone')])]
  const places = columns.map((label, index) => ({ value: String(index), label }))
  const pick = <K extends keyof typeof say.options>(name: K) => ({
    label: say.boxes[name],
    data: listed(say.options[name]),
    value: String(reading[name]),
    onChange: (value: string | null) => value !== null && set({ [name]: value }),
  })
  return (
    <div className={classes.boxes}>
      <Select {...pick('encoding')} />
      <Select {...pick('separator')} />
      <Select {...pick('decimal')} />
      <NumberInput
        size="md"
        label={say.boxes.headerRows}
        min={0}
        max={200}
        allowDecimal={false}
        value={reading.headerRows}
        onChange={(value) => set({ headerRows: Number(value) || 0 })}
      />
      <Select
        label={say.boxes.dateColumn}
        data={places}
        value={String(reading.dateColumn)}
        onChange={(value) => value !== null && set({ dateColumn: Number(value) })}
      />
      <Select
        label={say.boxes.timeColumn}
        data={[{ value: 'none', label: say.timeWithDate }, ...places]}
        value={reading.timeColumn === null ? 'none' : String(reading.timeColumn)}
        onChange={(value) => set({ timeColumn: value === null || value === 'none' ? null : Number(value) })}
      />
      <Select {...pick('dateOrder')} />
      <Select
        label={say.boxes.timeZone}
        data={zones}
        limit={60}
        searchable
        value={reading.timeZone}
        onChange={(timeZone) => timeZone !== null && set({ timeZone })}
      />
    </div>
  )
}
