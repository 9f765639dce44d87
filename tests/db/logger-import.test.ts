import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { readingsHash } from '#db/hash.ts'
import {
  appendLoggerImport,
  bayStory,
  findFileBySha256,
  type LoggerSeries,
  originalFile,
  sha256Hex,
} from '#db/index.ts'
import { csvOf, importLogger, loggerEntry, minute, roomReadings } from './logger.ts'
import {
  bayOf,
  day,
  entry,
  iso,
  morning,
  newSite,
  type OpenSite,
  opening,
  openSite,
  temporaryFolder,
} from './site.ts'

let open: OpenSite
let forget: () => void
beforeEach(() => {
  const temporary = temporaryFolder()
  forget = temporary.forget
  open = openSite(temporary.folder)
})
afterEach(() => {
  open.close()
  forget()
})

const count = (table: string) =>
  open.record.read.sqlite.prepare(`select count(*) from ${table}`).pluck().get()
const thrownBy = (work: () => unknown) => {
  try {
    work()
  } catch (thrown) {
    return thrown
  }
  throw new Error('nothing was thrown')
}

describe('a logger file', () => {
  it('IMP-1: one entry counts what the file holds; readings and bytes come back as they were', () => {
    const series = roomReadings(1234)
    const original = csvOf(series)
    const written = importLogger(open, series)
    expect(written.body).toMatchObject({
      fileName: 'room.csv',
      sha256: sha256Hex(original),
      bytes: original.length,
      rows: 2468,
      refused: 0,
      firstAt: iso(morning),
      lastAt: iso(morning + 1233 * 10 * minute),
    })
    expect(written.body.columns).toMatchObject([
      {
        quantity: 'airC',
        series: 1,
        readings: 1234,
        readingsSha256: readingsHash(series[0]!.at, series[0]!.value),
      },
      { quantity: 'rhPercent', series: 2, readings: 1234 },
    ])
    const story = bayStory(open.record.read, bayOf(open.site))
    expect(story.series.map((one) => one.quantity)).toEqual(['airC', 'rhPercent'])
    expect(story.series[0]!.at).toEqual([...Array.from(series[0]!.at)])
    expect(story.series[1]!.value).toEqual([...Array.from(series[1]!.value)])
    expect(story.series[0]).toMatchObject({ entry: written.id, madeBy: null })
    expect(originalFile(open.record.read, sha256Hex(original))!.equals(original)).toBe(true)
  })

  it('IMP-2: the same file again is refused by naming the entry, and nothing is written', () => {
    const written = importLogger(open)
    expect(thrownBy(() => importLogger(open))).toMatchObject({
      name: 'CorrectionConflict',
      entry: written.id,
    })
    expect([count('ledger'), count('series'), count('files')]).toEqual([8, 2, 1])
    expect(findFileBySha256(open.record.read, String(written.body.sha256))).toEqual({
      entry: written.id,
      bay: open.site.bay,
      at: iso(morning + day),
    })
    expect(findFileBySha256(open.record.read, 'f'.repeat(64))).toBeNull()
  })

  it('IMP-3: asking twice with one id writes once', () => {
    const series = roomReadings(50)
    const asked = loggerEntry(open, series)
    const once = () =>
      appendLoggerImport(open.record, asked, series, csvOf(series), { recordedAt: morning + day })
    expect(once()).toEqual(once())
    expect(count('ledger')).toBe(8)
    const others = roomReadings(51)
    const another = () =>
      appendLoggerImport(open.record, asked, others, csvOf(others), { recordedAt: morning + day })
    expect(thrownBy(another)).toMatchObject({ name: 'CorrectionConflict', entry: asked.id })
  })

  it('IMP-4: a withdrawn file gives no readings, may be read again, and is told as it was known before', () => {
    const first = importLogger(open)
    const away = entry(open.site, 'entry-withdrawn', { corrects: first.id, reason: 'wrong column' })
    open.append(away, morning + 2 * day)
    expect(bayStory(open.record.read, bayOf(open.site)).series).toEqual([])
    const known = bayStory(open.record.read, bayOf(open.site), { knownAt: morning + 1.5 * day })
    expect(known.series).toHaveLength(2)
    const again = importLogger(open)
    expect(bayStory(open.record.read, bayOf(open.site)).series.map((one) => one.entry)).toEqual([
      again.id,
      again.id,
    ])
    expect(count('files')).toBe(1)
    const back = entry(open.site, 'logger-imported', {
      body: first.body,
      corrects: away.id,
      reason: 'it was right',
    })
    expect(thrownBy(() => open.append(back, morning + 3 * day))).toMatchObject({
      name: 'CorrectionConflict',
      entry: again.id,
    })
  })

  it('IMP-4: a file that was withdrawn by mistake comes back with its readings', () => {
    const first = importLogger(open)
    const away = entry(open.site, 'entry-withdrawn', { corrects: first.id, reason: 'wrong bay' })
    const back = entry(open.site, 'logger-imported', {
      body: first.body,
      corrects: away.id,
      reason: 'right bay',
    })
    open.append([away, back], morning + 2 * day)
    expect(bayStory(open.record.read, bayOf(open.site)).series.map((one) => one.entry)).toEqual([
      first.id,
      first.id,
    ])
  })

  it('IMP-10: a logger file of many days is late only when it is read long after its last reading', () => {
    const lateOf = (entryId: string) =>
      bayStory(open.record.read, bayOf(open.site)).entries.find((one) => one.id === (entryId as string))!.late
    const series = roomReadings(6 * 24 * 20, morning - 19 * day)
    expect(lateOf(importLogger(open, series, { at: morning - 19 * day }).id)).toBe(false)
    const old = roomReadings(6 * 24, morning - 19 * day)
    expect(lateOf(importLogger(open, old, { at: morning - 19 * day }).id)).toBe(true)
  })

  it('IMP-5: another project in the same record may read the same file', () => {
    importLogger(open)
    const other = newSite()
    open.append(opening(other), morning)
    expect(importLogger({ ...open, site: other }).project).toBe(other.project)
    expect(count('files')).toBe(1)
  })

  const at = [morning, morning + minute, morning + 2 * minute]
  const bad: [string, LoggerSeries, string][] = [
    [
      'a reading that is not a number',
      { quantity: 'airC', at, value: [20, Number.NaN, 21] },
      'reading 2, is NaN',
    ],
    ['a reading beyond its range', { quantity: 'rhPercent', at, value: [60, 101, 61] }, 'from 0 to 100 %'],
    [
      'times out of order',
      { quantity: 'airC', at: [at[0]!, at[2]!, at[1]!], value: [1, 2, 3] },
      'later than the one before',
    ],
    [
      'the same time twice',
      { quantity: 'airC', at: [at[0]!, at[0]!, at[1]!], value: [1, 2, 3] },
      'later than the one before',
    ],
    ['half a millisecond', { quantity: 'airC', at: [0.5, 1, 2], value: [1, 2, 3] }, 'whole milliseconds'],
    ['more times than values', { quantity: 'airC', at, value: [1, 2] }, '3 times and 2 values'],
    ['no readings', { quantity: 'airC', at: [], value: [] }, 'no readings'],
  ]
  it.each(bad)('IMP-6: %s is refused, and nothing is half written', (_, series, words) => {
    const refused = thrownBy(() => importLogger(open, [series]))
    expect(refused).toMatchObject({ name: 'EntryRefused' })
    expect((refused as Error).message).toContain(words)
    expect([count('ledger'), count('series'), count('readings'), count('files')]).toEqual([7, 0, 0, 0])
  })

  it('IMP-7: what the caller says of the file must agree with the file', () => {
    const series = roomReadings(10)
    const wrong = loggerEntry(open, series, { body: { sha256: 'a'.repeat(64) } })
    const refused = thrownBy(() =>
      appendLoggerImport(open.record, wrong, series, csvOf(series), { recordedAt: morning + day }),
    )
    expect(refused).toMatchObject({ problems: [{ field: 'sha256' }] })
    const columns = [{ column: 'a', quantity: 'rhPercent' }]
    const swapped = loggerEntry(open, series, { body: { columns } })
    const alsoRefused = thrownBy(() =>
      appendLoggerImport(open.record, swapped, [series[0]!], csvOf(series), { recordedAt: morning + day }),
    )
    expect(alsoRefused).toMatchObject({ problems: [{ field: 'columns.0.quantity', value: 'rhPercent' }] })
  })

  it('IMP-8: an entry of this kind without its readings is refused; a correction may change only what people said', () => {
    const written = importLogger(open)
    const bare = entry(open.site, 'logger-imported', { body: written.body })
    expect(thrownBy(() => open.append(bare))).toMatchObject({ name: 'EntryRefused' })
    const correct = (body: Record<string, unknown>) =>
      entry(open.site, 'logger-imported', { body, corrects: written.id, reason: 'instrument was forgotten' })
    const fewer = correct({ ...written.body, rows: 5 })
    expect(thrownBy(() => open.append(fewer))).toMatchObject({ problems: [{ field: 'rows' }] })
    expect(open.append(correct({ ...written.body, instrument: open.site.instrument }))).toHaveLength(1)
    const story = bayStory(open.record.read, bayOf(open.site))
    expect(story.series).toHaveLength(2)
    expect(story.entries.map((one) => one.kind)).toContain('instrument-added')
  })

  it('IMP-9: a bay that does not exist gets no readings', () => {
    expect(thrownBy(() => importLogger(open, roomReadings(10), { subject: open.site.zone }))).toMatchObject({
      name: 'UnknownId',
      what: 'bay',
    })
    expect(count('readings')).toBe(0)
  })
})
