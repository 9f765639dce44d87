import { afterAll, describe, expect, it } from 'vitest'
import { checkLoggerFile } from '#electron/imports/check.ts'
import { bytesOf, type Dialect, fileFolder, plain, type Row, readingOf, textIn } from './dialects.ts'

const files = fileFolder()
afterAll(files.remove)
const now = Date.UTC(2026, 10, 25)

/** Zone, first instant of the hour that happens twice, and instant at which an hour is skipped. IANA data, 2026. */
const places = [
  { timeZone: 'Europe/London', twiceAt: Date.UTC(2026, 9, 25, 0), skippedAt: Date.UTC(2026, 2, 29, 1) },
  { timeZone: 'Europe/Berlin', twiceAt: Date.UTC(2026, 9, 25, 0), skippedAt: Date.UTC(2026, 2, 29, 1) },
]

function rowsAround(middle: number, everyMinutes: number): Row[] {
  const count = (12 * 60) / everyMinutes
  return Array.from({ length: count }, (_, i) => ({
    at: middle - 6 * 3_600_000 + i * everyMinutes * 60_000,
    airC: 10 + (i % 17) / 2,
    rhPercent: 50 + (i % 31),
  }))
}

async function check(dialect: Dialect, text: string) {
  const path = files.write(bytesOf(text, dialect))
  return checkLoggerFile(path, readingOf(dialect), [], { now })
}

describe.each(places)('clock changes in $timeZone', ({ timeZone, twiceAt, skippedAt }) => {
  const dialect: Dialect = { ...plain, timeZone }

  it.each([10, 30, 60])(
    'CLK-1: in the hour that happens twice, readings every %i minutes are placed by their order',
    async (every) => {
      const rows = rowsAround(twiceAt + 3_600_000, every)
      const { check: found, columns } = await check(dialect, textIn(dialect, rows))
      expect([...columns[0]!.at]).toEqual(rows.map(({ at }) => at))
      expect([...columns[0]!.value]).toEqual(rows.map(({ airC }) => airC))
      expect(found).toMatchObject({ badCount: 0, duplicates: 0 })
      expect(found.clockChanges).toHaveLength(1)
      expect(found.clockChanges[0]).toMatch(/25 October 2026.*happened twice.*placed by their order/)
    },
  )

  it('CLK-2: the same holds for a file that runs from the newest row to the oldest', async () => {
    const rows = rowsAround(twiceAt + 3_600_000, 10)
    const backwards = { ...dialect, newestFirst: true }
    const { columns } = await check(backwards, textIn(backwards, rows))
    expect([...columns[0]!.at]).toEqual(rows.map(({ at }) => at))
    expect([...columns[0]!.value]).toEqual(rows.map(({ airC }) => airC))
  })

  it('CLK-3: a file that holds the repeated hour once is read as the first hour, and says so', async () => {
    const rows = rowsAround(twiceAt + 3_600_000, 10).filter(
      ({ at }) => at < twiceAt + 3_600_000 || at >= twiceAt + 2 * 3_600_000,
    )
    const { check: found, columns } = await check(dialect, textIn(dialect, rows))
    expect([...columns[0]!.at]).toEqual(rows.map(({ at }) => at))
    expect(found.clockChanges[0]).toMatch(/holds it once \(6 rows\).*read as the first.*may be the other/)
  })

  it('CLK-4: times in the skipped hour are refused by line, and the rest is read', async () => {
    // A logger whose clock does not change: its times are UTC plus the winter offset of the zone.
    const winter = timeZone === 'Europe/Berlin' ? '+01:00' : '+00:00'
    const rows = rowsAround(skippedAt, 10)
    const text = textIn({ ...dialect, timeZone: winter }, rows)
    const { check: found } = await check(dialect, text)
    expect(found).toMatchObject({ rows: 72, good: 66, badCount: 6 })
    expect(found.bad[0]?.line).toBe(38)
    expect(found.bad[0]?.reason).toMatch(`This time did not exist in ${timeZone}: on 29 March 2026`)
    expect(found.clockChanges[0]).toMatch(/6 rows bear times that did not exist.*choose a fixed offset/)

    const { check: fixed, columns } = await check({ ...dialect, timeZone: winter }, text)
    expect(fixed.badCount).toBe(0)
    expect([...columns[0]!.at]).toEqual(rows.map(({ at }) => at))
  })

  it('CLK-5: times with an offset are instants already, and no clock change touches them', async () => {
    const rows = rowsAround(twiceAt + 3_600_000, 10)
    const stated = { ...dialect, withOffset: true }
    const { check: found, columns } = await check(stated, textIn(stated, rows))
    expect(found.clockChanges).toEqual([])
    expect([...columns[0]!.at]).toEqual(rows.map(({ at }) => at))
  })
})
