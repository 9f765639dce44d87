import { statSync } from 'node:fs'
import fc from 'fast-check'
import { afterAll, describe, expect, it } from 'vitest'
import { checkLoggerFile } from '#electron/imports/check.ts'
import { guessLoggerFile } from '#electron/imports/preview.ts'
import { bytesOf, type Dialect, fileFolder, plain, type Row, readingOf, textIn } from './dialects.ts'

const files = fileFolder()
afterAll(files.remove)
const now = Date.UTC(2030, 0, 1)

/** Half degrees and whole percents: exact in every unit, so that equality needs no tolerance. */
const rows: fc.Arbitrary<Row[]> = fc
  .record({
    start: fc.integer({ min: Date.UTC(2019, 0) / 60_000, max: Date.UTC(2029, 0) / 60_000 }),
    every: fc.constantFrom(1, 5, 10, 15, 30, 60),
    values: fc.array(fc.tuple(fc.integer({ min: -40, max: 90 }), fc.integer({ min: 1, max: 100 })), {
      minLength: 1,
      maxLength: 400,
    }),
  })
  .map(({ start, every, values }) =>
    values.map(([halfDegrees, rhPercent], i) => ({
      at: (start + i * every) * 60_000,
      airC: halfDegrees / 2,
      rhPercent,
    })),
  )

const dialect: fc.Arbitrary<Dialect> = fc
  .record({
    encoding: fc.constantFrom('utf-8', 'utf-16le', 'utf-16be', 'windows-1252'),
    byteOrderMark: fc.boolean(),
    separator: fc.constantFrom(',', ';', '\t', '|'),
    decimal: fc.constantFrom('.', ','),
    dateOrder: fc.constantFrom('iso', 'day first', 'month first', 'unix seconds', 'unix milliseconds'),
    dateMark: fc.constantFrom('-', '/', '.'),
    timeApart: fc.boolean(),
    halfDays: fc.boolean(),
    withOffset: fc.boolean(),
    timeZone: fc.constantFrom(
      'UTC',
      'Asia/Kolkata',
      'Europe/London',
      'America/Chicago',
      'Australia/Lord_Howe',
    ),
    temperature: fc.constantFrom('°C', '°F', 'K'),
    humidity: fc.constantFrom('%', 'fraction'),
    quoted: fc.boolean(),
    lineEnd: fc.constantFrom('\n', '\r\n', '\r'),
    unitsRow: fc.boolean(),
    newestFirst: fc.boolean(),
  })
  .map((parts): Dialect => {
    const merged = { ...plain, ...parts, name: 'random' }
    const unix = merged.dateOrder.startsWith('unix')
    return {
      ...merged,
      // A decimal comma must be told from a separating comma.
      quoted: merged.quoted || (merged.separator === ',' && merged.decimal === ','),
      timeApart: merged.timeApart && !unix,
      // Points between the parts are day first everywhere (common practice), and taken so without asking.
      dateMark: merged.dateOrder === 'month first' && merged.dateMark === '.' ? '/' : merged.dateMark,
      // Without an offset the hour that happens twice may be told only, not settled: the clock tests cover it.
      withOffset: merged.withOffset || /London|Chicago|Lord_Howe/.test(merged.timeZone),
      names: {
        ...plain.names,
        airC: `Temperature (${merged.temperature})`,
        rh: merged.humidity === '%' ? 'RH (%)' : 'Humidity',
      },
    }
  })

describe('round trip of random logger files', () => {
  it('IMP-7: a random series in a random dialect is read back as it was', async () => {
    await fc.assert(
      fc.asyncProperty(rows, dialect, async (series, how) => {
        const path = files.write(bytesOf(textIn(how, series), how), 'random.csv')
        const { check, columns } = await checkLoggerFile(path, readingOf(how), [], { now })
        expect(check.bad).toEqual([])
        expect([...columns[0]!.at]).toEqual(series.map(({ at }) => at))
        expect([...columns[0]!.value]).toEqual(series.map(({ airC }) => airC))
        expect([...columns[1]!.value]).toEqual(series.map(({ rhPercent }) => rhPercent))
      }),
      { numRuns: 150, seed: 20261125 },
    )
  })

  it('IMP-8: the layout of a random file is guessed as it was written, or asked', async () => {
    await fc.assert(
      fc.asyncProperty(rows, dialect, async (series, how) => {
        fc.pre(series.length >= 5)
        const path = files.write(bytesOf(textIn(how, series), how), 'random.csv')
        const { guess, questions } = await guessLoggerFile(path, statSync(path).size, how.timeZone)
        const told = readingOf(how)
        const asked = new Set<string>(questions.map(({ about }) => about))
        const differs = (Object.keys(told) as (keyof typeof told)[]).filter(
          (field) => JSON.stringify(guess?.[field]) !== JSON.stringify(told[field]),
        )
        // Plain ASCII is the same in UTF-8 and windows-1252; whole numbers show no decimal mark.
        const harmless = new Set(['encoding', 'decimal'])
        expect(differs.filter((field) => !asked.has(field) && !harmless.has(field))).toEqual([])
        const { columns } = await checkLoggerFile(path, guess!, [], { now })
        if (!asked.has('columns') && !asked.has('dateOrder')) {
          expect([...columns[0]!.value]).toEqual(series.map(({ airC }) => airC))
        }
      }),
      { numRuns: 150, seed: 20261125 },
    )
  })
})
