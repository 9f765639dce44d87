import { Select } from '@mantine/core'
import type { LoggerReading } from '#model/contract/index.ts'
import { type SeriesQuantity, seriesQuantities } from '#model/record/index.ts'
import { words } from '../../app/words.ts'
import classes from './import.module.css'

const say = words.imports
type Column = LoggerReading['columns'][number]

const unitsOf: Record<string, Column['unit'][]> = {
  '°C': ['°C', '°F', 'K'],
  '%': ['%', 'fraction'],
  'm/s': ['m/s', 'km/h'],
}

interface ColumnsTableProps {
  reading: LoggerReading
  lines: string[][]
  onChange: (reading: LoggerReading) => void
}

/** The file's first lines under what each column is read as. */
export function ColumnsTable({ reading, lines, onChange }: ColumnsTableProps) {
  const widest = Math.max(0, ...lines.map((line) => line.length))
  const header = lines.slice(0, reading.headerRows)
  const body = lines.slice(reading.headerRows, reading.headerRows + 6)
  const setColumn = (index: number, column: Column | null) => {
    const others = reading.columns.filter((one) => one.index !== index)
    onChange({
      ...reading,
      columns: [...others, ...(column === null ? [] : [column])].sort((a, b) => a.index - b.index),
    })
  }
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a wide file scrolls inside its frame, by keyboard too
    <section className={classes.frame} tabIndex={0} aria-label={say.firstLines}>
      <table className={classes.table}>
        <caption>{say.firstLines}</caption>
        <thead>
          <tr>
            {Array.from({ length: widest }, (_, index) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: a column is its place in the file
              <th key={index} scope="col" className={classes.reads}>
                {index === reading.dateColumn || index === reading.timeColumn ? (
                  <p className={classes.time}>{index === reading.dateColumn ? say.isDate : say.isTime}</p>
                ) : (
                  <ColumnChoice
                    index={index}
                    column={reading.columns.find((one) => one.index === index) ?? null}
                    onChange={(column) => setColumn(index, column)}
                  />
                )}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {[...header, ...body].map((line, row) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a line is its place in the file
            <tr key={row} data-header={row < header.length || undefined}>
              {Array.from({ length: widest }, (_, index) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: a cell is its place in the line
                <td key={index}>{line[index] ?? ''}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}

interface ColumnChoiceProps {
  index: number
  column: Column | null
  onChange: (column: Column | null) => void
}

function ColumnChoice({ index, column, onChange }: ColumnChoiceProps) {
  const quantities = Object.entries(seriesQuantities).map(([value, { label }]) => ({ value, label }))
  const units = column === null ? [] : (unitsOf[seriesQuantities[column.quantity].unit] ?? [])
  const choose = (value: string | null) => {
    if (value === null || value === 'none') return onChange(null)
    const quantity = value as SeriesQuantity
    const [unit] = unitsOf[seriesQuantities[quantity].unit] ?? []
    if (unit !== undefined) onChange({ index, quantity, unit })
  }
  return (
    <div className={classes.choice}>
      <Select
        aria-label={say.quantityOf(index + 1)}
        data={[{ value: 'none', label: say.notRead }, ...quantities]}
        value={column?.quantity ?? 'none'}
        onChange={choose}
        comboboxProps={{ width: 260, position: 'bottom-start' }}
      />
      {column !== null && (
        <Select
          aria-label={say.unitOf(index + 1)}
          data={units}
          value={column.unit}
          onChange={(unit) => unit !== null && onChange({ ...column, unit: unit as Column['unit'] })}
        />
      )}
    </div>
  )
}
