import { statSync } from 'node:fs'
import { afterAll, describe, expect, it } from 'vitest'
import { checkLoggerFile } from '#electron/imports/check.ts'
import { guessLoggerFile } from '#electron/imports/preview.ts'
import { bytesOf, type Dialect, fileFolder, plain, type Row, readingOf, textIn } from './dialects.ts'

const files = fileFolder()
afterAll(files.remove)

const now = Date.UTC(2026, 10, 25)
/** Four days in winter, every 20 minutes; half degrees and whole percents are exact in every unit. */
const winter: Row[] = Array.from({ length: 288 }, (_, i) => ({
  at: Date.UTC(2026, 0, 28) + i * 1_200_000,
  airC: 12 + ((i * 7) % 23) / 2,
  rhPercent: 40 + ((i * 11) % 45),
}))

const dialects: Dialect[] = [
  plain,
  {
    ...plain,
    name: 'semicolons, decimal comma, day first, German names over a row of units',
    separator: ';',
    decimal: ',',
    dateOrder: 'day first',
    dateMark: '.',
    timeApart: true,
    timeZone: 'Europe/Berlin',
    encoding: 'windows-1252',
    lineEnd: '\r\n',
    unitsRow: true,
    above: ['Messstelle;Erdgeschoß Süd', 'Intervall;20 min', ''],
    names: { time: 'Datum', clock: 'Uhrzeit', airC: 'Lufttemperatur', rh: 'rel. Feuchte' },
  },
  {
    ...plain,
    name: 'tabs, UTF-16 with the low byte first, French names',
    encoding: 'utf-16le',
    byteOrderMark: true,
    separator: '\t',
    decimal: ',',
    dateOrder: 'day first',
    dateMark: '/',
    timeZone: 'Europe/Paris',
    names: { time: 'Date et heure', clock: 'Heure', airC: 'Température [°C]', rh: 'Humidité relative [%]' },
  },
  {
    ...plain,
    name: 'UTF-16 with the high byte first and no mark, bars',
    encoding: 'utf-16be',
    separator: '|',
  },
  { ...plain, name: 'UTF-8 with a mark and old line ends', byteOrderMark: true, lineEnd: '\r' },
  {
    ...plain,
    name: 'month first, half days, Fahrenheit',
    dateOrder: 'month first',
    dateMark: '/',
    halfDays: true,
    timeZone: 'America/Chicago',
    temperature: '°F',
    names: { ...plain.names, airC: 'Temp (°F)', rh: 'RH (%)' },
  },
  {
    ...plain,
    name: 'ISO times with an offset, humidity as a fraction, every cell quoted',
    withOffset: true,
    timeZone: 'Europe/Berlin',
    humidity: 'fraction',
    quoted: true,
    names: { ...plain.names, rh: 'Humidity, relative' },
  },
  {
    ...plain,
    name: 'Unix seconds, kelvin',
    dateOrder: 'unix seconds',
    temperature: 'K',
    names: { ...plain.names, time: 'timestamp', airC: 'temp [K]', rh: 'rh [%]' },
  },
  { ...plain, name: 'Unix milliseconds', dateOrder: 'unix milliseconds' },
  {
    ...plain,
    name: 'quoted fields with the separator in them',
    quoted: true,
    decimal: ',',
    above: ['"Room, north side, logger ""A"""', ''],
    names: { ...plain.names, airC: 'Temperature, air (°C)' },
  },
  { ...plain, name: 'the newest row first', newestFirst: true, dateMark: '/' },
]

describe('dialects of logger files', () => {
  it.each(dialects)('IMP-1: the same readings come out of: $name', async (dialect) => {
    const path = files.write(bytesOf(textIn(dialect, winter), dialect))
    const { guess, trouble } = await guessLoggerFile(path, statSync(path).size, dialect.timeZone)
    expect(trouble).toBeNull()
    expect(guess).toEqual(readingOf(dialect))

    const { check, columns } = await checkLoggerFile(path, guess!, [], { now })
    expect(check.bad).toEqual([])
    expect(check).toMatchObject({ rows: 288, good: 288, badCount: 0, duplicates: 0 })
    expect(check.newestFirst).toBe(dialect.newestFirst)
    expect([...columns[0]!.at]).toEqual(winter.map(({ at }) => at))
    expect([...columns[0]!.value]).toEqual(winter.map(({ airC }) => airC))
    expect([...columns[1]!.at]).toEqual(winter.map(({ at }) => at))
    expect([...columns[1]!.value]).toEqual(winter.map(({ rhPercent }) => rhPercent))
  })

  it('IMP-9: the first lines are shown cut into cells, from the heading on', async () => {
    const german = dialects[1]!
    const path = files.write(bytesOf(textIn(german, winter), german))
    const { guess, firstLines, header } = await guessLoggerFile(path, statSync(path).size, german.timeZone)
    expect(header).toEqual(['Datum', 'Uhrzeit', 'Lufttemperatur °C', 'rel. Feuchte %'])
    expect(firstLines[guess!.headerRows - 2]).toEqual(['Datum', 'Uhrzeit', 'Lufttemperatur', 'rel. Feuchte'])
    expect(firstLines[guess!.headerRows]).toEqual(['28.01.2026', '01:00:00', '12', '40'])
    expect(firstLines).toHaveLength(guess!.headerRows + 12)
  })

  it('IMP-2: lines of another kind below the data are listed, and the data is read', async () => {
    const dialect = { ...plain, below: ['End of data', 'Checksum,4F2A,x,y', '"unclosed,1,2'] }
    const path = files.write(bytesOf(textIn(dialect, winter), dialect))
    const { guess } = await guessLoggerFile(path, statSync(path).size, dialect.timeZone)
    const { check } = await checkLoggerFile(path, guess!, [], { now })
    expect(check.good).toBe(288)
    expect(check.bad).toEqual([
      { line: 290, text: 'End of data', reason: 'This row has 1 column; the others have 3.' },
      { line: 291, text: 'Checksum,4F2A,x,y', reason: 'This row has 4 columns; the others have 3.' },
      { line: 292, text: '"unclosed,1,2', reason: 'A quotation mark is opened and not closed.' },
    ])
  })

  it('IMP-3: a name in the file that states UTC or an offset is proposed and asked', async () => {
    const utc = { ...plain, names: { ...plain.names, time: 'Date Time, GMT+01:00' }, quoted: true }
    const path = files.write(bytesOf(textIn(utc, winter), utc))
    const { guess, questions } = await guessLoggerFile(path, statSync(path).size, 'Europe/London')
    expect(guess?.timeZone).toBe('+01:00')
    expect(questions.map(({ about }) => about)).toContain('timeZone')
    const { columns } = await checkLoggerFile(path, guess!, [], { now })
    expect(columns[0]!.at[0]).toBe(winter[0]!.at - 3_600_000)
  })
})

describe('dates that can be read both ways', () => {
  const daily = (month: number, count: number): Row[] =>
    Array.from({ length: count }, (_, i) => ({
      at: Date.UTC(2026, month, 1) + i * 86_400_000,
      airC: 15,
      rhPercent: 60,
    }))
  const guessOf = async (dialect: Dialect, rows: Row[]) => {
    const path = files.write(bytesOf(textIn(dialect, rows), dialect))
    return guessLoggerFile(path, statSync(path).size, dialect.timeZone)
  }

  it.each(['day first', 'month first'] as const)(
    'IMP-4: twelve daily readings written %s are proposed so, because they then follow evenly, and asked',
    async (dateOrder) => {
      const { guess, questions } = await guessOf({ ...plain, dateOrder, dateMark: '/' }, daily(2, 12))
      expect(guess?.dateOrder).toBe(dateOrder)
      const question = questions.find(({ about }) => about === 'dateOrder')
      expect(question?.sentence).toMatch(/can be read both ways.*March.*please confirm/)
    },
  )

  it('IMP-5: when even the order of the times does not tell, the person is asked', async () => {
    const { questions } = await guessOf({ ...plain, dateOrder: 'day first', dateMark: '/' }, [
      { at: Date.UTC(2026, 2, 4, 9), airC: 15, rhPercent: 60 },
      { at: Date.UTC(2026, 2, 4, 10), airC: 15, rhPercent: 60 },
    ])
    expect(questions.find(({ about }) => about === 'dateOrder')?.sentence).toBe(
      'The file does not show whether 04/03/2026 09:00:00 is 4 March 2026 or 3 April 2026. It is read day first until you choose.',
    )
  })

  it('IMP-6: one day above the twelfth settles it and nothing is asked', async () => {
    const { guess, questions } = await guessOf(
      { ...plain, dateOrder: 'month first', dateMark: '/' },
      daily(2, 13),
    )
    expect(guess?.dateOrder).toBe('month first')
    expect(questions).toEqual([])
  })
})
