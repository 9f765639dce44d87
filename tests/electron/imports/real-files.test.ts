import { readFileSync, statSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { checkLoggerFile } from '#electron/imports/check.ts'
import { guessLoggerFile } from '#electron/imports/preview.ts'
import type { LoggerReading } from '#model/contract/logger-file.ts'

/**
 * Source: npm package vega-datasets 3.2.1 (BSD-3-Clause): seattle-weather.csv, NOAA daily weather of Seattle 2012–2015;
 * seattle-weather-hourly-normals.csv, NOAA hourly normals. Nobody of this project wrote these files.
 */
const fileOf = (name: string) =>
  fileURLToPath(new URL(`../../../node_modules/vega-datasets/data/${name}`, import.meta.url))
const now = Date.UTC(2026, 10, 25)

/** Another way to the same numbers: no code of the importer, only `split`, `Date` and `Number`. */
function independently(path: string, column: string): { at: number; value: number }[] {
  const [names, ...rows] = readFileSync(path, 'utf8').trim().split('\n')
  const index = names!.trim().split(',').indexOf(column)
  return rows.map((row) => {
    const cells = row.trim().split(',')
    return {
      at: new Date(`${cells[0]!.padEnd(11, 'T').padEnd(19, '00:00:00')}Z`).getTime(),
      value: Number(cells[index]),
    }
  })
}

const reading: LoggerReading = {
  encoding: 'utf-8',
  separator: ',',
  decimal: '.',
  headerRows: 1,
  dateColumn: 0,
  timeColumn: null,
  dateOrder: 'iso',
  timeZone: 'UTC',
  columns: [{ index: 2, quantity: 'airC', unit: '°C' }],
}

describe('files that others wrote', () => {
  it('REAL-1: a year of hourly temperature and wind is guessed and read, value by value', async () => {
    const path = fileOf('seattle-weather-hourly-normals.csv')
    const { guess } = await guessLoggerFile(path, statSync(path).size, 'UTC')
    expect(guess).toEqual({
      ...reading,
      columns: [
        { index: 2, quantity: 'airC', unit: '°C' },
        { index: 3, quantity: 'airSpeedMs', unit: 'm/s' },
      ],
    })
    const { check, columns } = await checkLoggerFile(path, guess!, [], { now })
    const air = independently(path, 'temperature')
    expect(check).toMatchObject({ rows: 8759, good: 8759, badCount: 0, duplicates: 0 })
    expect([...columns[0]!.at]).toEqual(air.map(({ at }) => at))
    expect([...columns[0]!.value]).toEqual(air.map(({ value }) => value))
    expect([...columns[1]!.value]).toEqual(independently(path, 'wind').map(({ value }) => value))
    expect(check.perColumn[0]).toMatchObject({
      min: Math.min(...air.map(({ value }) => value)),
      max: Math.max(...air.map(({ value }) => value)),
    })
  })

  it('REAL-2: read in the zone of the place, the hour that the clocks skipped is refused', async () => {
    const path = fileOf('seattle-weather-hourly-normals.csv')
    const { check } = await checkLoggerFile(path, { ...reading, timeZone: 'America/Los_Angeles' }, [], {
      now,
    })
    // United States 2010: forward on 14 March, back on 7 November (IANA tz database).
    expect(check.bad.map(({ text }) => text)).toEqual(['2010-03-14T02:00:00,1016.8,6.1,3.4'])
    expect(check.clockChanges).toHaveLength(2)
    expect(check.firstAt).toBe('2010-01-01T09:00:00.000Z')
  })

  it.each([
    ['temp_max', 2],
    ['temp_min', 3],
  ] as const)('REAL-3: four years of daily %s are read, value by value', async (column, index) => {
    const path = fileOf('seattle-weather.csv')
    const columns = [{ index, quantity: 'outsideC', unit: '°C' } as const]
    const { check, columns: read } = await checkLoggerFile(path, { ...reading, columns }, [], { now })
    const daily = independently(path, column)
    expect(check).toMatchObject({ rows: 1461, good: 1461, badCount: 0 })
    expect([...read[0]!.at]).toEqual(daily.map(({ at }) => at))
    expect([...read[0]!.value]).toEqual(daily.map(({ value }) => value))
  })

  it('REAL-4: daily extremes are not proposed as readings of the room', async () => {
    const path = fileOf('seattle-weather.csv')
    const { columns } = await guessLoggerFile(path, statSync(path).size, 'UTC')
    const extremes = columns.filter(({ header }) => header.startsWith('temp_'))
    expect(extremes.map(({ quantity }) => quantity)).toEqual([null, null])
  })
})
