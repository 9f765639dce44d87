import { statSync } from 'node:fs'
import { afterAll, describe, expect, it } from 'vitest'
import { checkLoggerFile } from '#electron/imports/check.ts'
import { guessLoggerFile } from '#electron/imports/preview.ts'
import { readLoggerFile } from '#electron/imports/read.ts'
import { InputError } from '#model/errors.ts'
import { fileFolder, plain, readingOf } from './dialects.ts'

const files = fileFolder()
afterAll(files.remove)
const now = Date.UTC(2026, 10, 25)
const reading = readingOf(plain)
const heading = 'Time,Temperature (°C),Relative humidity (%)\n'
const goodLine = (minute: number) => `2026-03-02 10:${String(minute).padStart(2, '0')}:00,20.5,55\n`
const goodLines = (count: number) => Array.from({ length: count }, (_, i) => goodLine(i)).join('')

async function guess(bytes: Buffer | string) {
  const path = files.write(bytes)
  return guessLoggerFile(path, statSync(path).size, 'Europe/London')
}

async function check(text: Buffer | string) {
  return (await checkLoggerFile(files.write(text), reading, [], { now })).check
}

describe('files that are no logger file', () => {
  it.each([
    ['an empty file', '', /empty \(0 bytes\)/],
    [
      'a ZIP archive or workbook',
      Buffer.from('504b0304140000000800aabb', 'hex'),
      /a ZIP archive or a workbook/,
    ],
    ['a PDF', '%PDF-1.7\n1 0 obj', /a PDF, not text/],
    ['zero bytes', Buffer.alloc(4096), /bytes that are not text \(first at byte 1\)/],
    ['random bytes', Buffer.from(Array.from({ length: 5000 }, (_, i) => (i * 7919) % 251)), /not text/],
    ['UTF-32', Buffer.from('fffe00005400000069000000', 'hex'), /UTF-32/],
    ['only blank lines', '\n\r\n  \n', /holds no text/],
    ['one column', `Temperature\n${'20.5\n'.repeat(50)}`, /Only one column was found/],
    ['only headings', heading, /No row with a date and a number/],
    ['prose', 'Dear all, the floor is dry,\nwe think, and warm.\n', /No row with a date and a number/],
  ])('HOS-1: %s is refused with a sentence', async (_name, bytes, sentence) => {
    const { guess: found, trouble } = await guess(bytes)
    expect(found).toBeNull()
    expect(trouble).toMatch(sentence)
  })
})

describe('files made to be slow', () => {
  it.each([
    ['lines of thousands of cells', `${'1,'.repeat(30_000)}\n`.repeat(300)],
    ['lines of nothing but digits', `${'7'.repeat(60_000)}\n`.repeat(300)],
    ['lines of quotation marks', `${'"'.repeat(60_000)},1\n`.repeat(100)],
    ['lines that begin like dates', `2026-03-02${' '.repeat(60_000)}x,1\n`.repeat(100)],
  ])('HOS-12: %s are looked at within bounds', async (_name, text) => {
    const start = process.cpuUsage()
    const { guess: found } = await guess(text)
    expect(found).toBeNull()
    expect(process.cpuUsage(start).user / 1e6).toBeLessThan(5)
  })
})

describe('rows that are bad', () => {
  it.each([
    [
      '2026-03-02 11:00:00,1e308,55',
      'Column 2 “Temperature (°C)”: 1e308 is outside what can be recorded (-30 to 50 °C).',
    ],
    [
      '2026-03-02 11:00:00,NaN,55',
      'Column 2 “Temperature (°C)”: “NaN” is not a number with a decimal point.',
    ],
    [
      '2026-03-02 11:00:00,=1+1,55',
      'Column 2 “Temperature (°C)”: “=1+1” is not a number with a decimal point.',
    ],
    [
      '2026-03-02 11:00:00,Infinity,55',
      'Column 2 “Temperature (°C)”: “Infinity” is not a number with a decimal point.',
    ],
    [
      '2026-03-02 11:00:00,0x14,55',
      'Column 2 “Temperature (°C)”: “0x14” is not a number with a decimal point.',
    ],
    ['2026-03-02 11:00:00,,55', 'Column 2 “Temperature (°C)”: the value is missing.'],
    [
      '2026-03-02 11:00:00,20.5,101',
      'Column 3 “Relative humidity (%)”: 101 is outside what can be recorded (0 to 100 %).',
    ],
  ])('HOS-2: in %s one value is refused with its reason and the other is kept', async (line, reason) => {
    const found = await check(heading + goodLines(5) + line)
    expect(found).toMatchObject({ rows: 6, good: 5, badCount: 1, partlyKept: 1 })
    expect(found.bad).toEqual([
      { line: 7, text: line, reason: `${reason} The other values of the row are kept.` },
    ])
    expect(found.perColumn.map(({ good }) => good).toSorted()).toEqual([5, 6])
  })

  it.each([
    ['2026-03-02 11:00:00,,', /2 .*: the value is missing\..*3 .*: the value is missing\./],
    ['2026-02-30 11:00:00,20.5,55', /“2026-02-30 11:00:00” is not a date and time read as year, month, day/],
    ['2026-03-02 25:00:00,20.5,55', /is not a date and time/],
    [',20.5,55', /the time is missing/],
    ['2026-03-02 11:00:00,20,5,55', /has 4 columns; the others have 3/],
    ['2026-03-02 11:00:00,20.5', /has 2 columns; the others have 3/],
    ['2027-03-02 11:00:00,20.5,55', /lies in the future/],
    ['2026-03-02 09:00:00,20.5,55', /out of order among the rows around it/],
    ['2026-03-02 10:02:00,21,55', /Line 4 has the same time with other values; the first is kept/],
  ])('HOS-3: the row %s is refused with its reason', async (line, reason) => {
    const found = await check(heading + goodLines(5) + line)
    expect(found).toMatchObject({ rows: 6, good: 5, badCount: 1, partlyKept: 0 })
    expect(found.bad[0]).toMatchObject({ line: 7, text: line })
    expect(found.bad[0]!.reason).toMatch(reason)
  })

  it('HOS-4: a row that says the same again is a duplicate and not a fault', async () => {
    const found = await check(heading + goodLines(5) + goodLine(2))
    expect(found).toMatchObject({ rows: 6, good: 6, badCount: 0, duplicates: 1 })
    expect(found.perColumn[0]!.good).toBe(5)
  })

  it('HOS-5: one wild clock reading costs its own row and none that follow', async () => {
    const wild = '2026-10-01 00:00:00,20.5,55\n'
    const found = await check(heading + goodLine(0) + wild + goodLines(30).slice(goodLine(0).length))
    expect(found).toMatchObject({ rows: 31, good: 30, badCount: 1 })
    expect(found.bad[0]!.line).toBe(3)
  })

  it('HOS-6: a line of ten megabytes costs only itself, and the memory does not grow with it', async () => {
    const text = `${heading}${goodLine(0)}${'x'.repeat(10_000_000)}\n${goodLine(1)}`
    const before = process.memoryUsage().heapUsed
    const found = await check(text)
    expect(process.memoryUsage().heapUsed - before).toBeLessThan(60_000_000)
    expect(found).toMatchObject({ rows: 3, good: 2, badCount: 1 })
    expect(found.bad[0]).toMatchObject({ line: 3, reason: 'This line is longer than 65,536 characters.' })
    expect(found.bad[0]!.text.length).toBeLessThanOrEqual(200)
  })

  it('HOS-7: zero bytes of a lost power supply are refused by line and shown', async () => {
    const found = await check(`${heading}${goodLine(0)}2026-03-02 11:00:00,2\0\0\0\n${goodLine(1)}`)
    expect(found).toMatchObject({ rows: 3, good: 2, badCount: 1 })
    expect(found.bad[0]).toMatchObject({ line: 3, text: '2026-03-02 11:00:00,2���' })
    expect(found.bad[0]!.reason).toMatch(/zero bytes/)
  })

  it('HOS-8: of many bad rows the first 200 are listed and all are counted', async () => {
    const found = await check(heading + goodLines(1) + 'nothing,20.5,55\n'.repeat(5000))
    expect(found.badCount).toBe(5000)
    expect(found.bad).toHaveLength(200)
    expect(found.bad.map(({ line }) => line)).toEqual(Array.from({ length: 200 }, (_, i) => i + 3))
  })

  it('HOS-9: a stray quotation mark does not swallow the rows below it', async () => {
    const found = await check(`${heading}${goodLine(0)}"2026-03-02 11:00:00,20.5,55\n${goodLines(20)}`)
    expect(found.badCount).toBe(1)
    expect(found.bad[0]).toMatchObject({ line: 3, reason: 'A quotation mark is opened and not closed.' })
    expect(found.perColumn[0]!.good).toBe(20)
  })
})

describe('readings that cannot be', () => {
  const read = (changes: Partial<typeof reading>, mostRows?: number) =>
    readLoggerFile(files.write(heading + goodLines(5)), { ...reading, ...changes }, { now, mostRows })
  const air = { index: 1, quantity: 'airC', unit: '°C' } as const

  it.each([
    [{ timeZone: 'Mars/Olympus' }, 'reading.timeZone', /“Mars\/Olympus” is not a known time zone/],
    [
      { columns: [{ ...air, unit: '%' as const }] },
      'reading.columns.0.unit',
      /cannot be read in %; choose °C, °F, K/,
    ],
    [{ columns: [air, { ...air }] }, 'reading.columns.1.index', /Column 2 is chosen twice/],
    [{ timeColumn: 0 }, 'reading.timeColumn', /Column 1 is chosen twice/],
  ])('HOS-10: %j is refused and the field is named', async (changes, field, sentence) => {
    const thrown = await read(changes).catch((error: unknown) => error)
    expect(thrown).toBeInstanceOf(InputError)
    expect((thrown as InputError).field).toBe(field)
    expect((thrown as InputError).message).toMatch(sentence)
  })

  it('HOS-11: more rows than one import takes are refused', async () => {
    await expect(read({}, 4)).rejects.toThrow(/more than 4 rows; split it/)
  })
})
