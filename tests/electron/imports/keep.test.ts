import { createHash } from 'node:crypto'
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it, onTestFinished } from 'vitest'
import { bayStory, CorrectionConflict, closeRecord, originalFile } from '#db/index.ts'
import { type KeepInput, keepLoggerFile } from '#electron/imports/keep.ts'
import { startWorkers } from '#electron/work/pool.ts'
import { InputError } from '#model/errors.ts'
import { mint, type OneBay, oneBay } from '../one-bay.ts'
import { tempFolder } from '../temp-folder.ts'
import { bytesOf, plain, type Row, readingOf, textIn } from './dialects.ts'

const now = Date.UTC(2026, 10, 25)
const ignoreProgress = () => undefined

function rows(from: number, count: number, everyMinutes = 10): Row[] {
  return Array.from({ length: count }, (_, i) => ({
    at: Date.UTC(2026, 1, 2) + (from + i) * everyMinutes * 60_000,
    airC: 12 + ((from + i) % 19) / 2,
    rhPercent: 45 + ((from + i) % 37),
  }))
}

function setUp() {
  const folder = tempFolder()
  const site = oneBay(folder)
  onTestFinished(() => closeRecord(site.record))
  const input = (text: string | Buffer, changes: Partial<KeepInput> = {}): KeepInput => {
    const path = join(folder, `${mint()}.upload`)
    writeFileSync(path, text)
    return {
      recordFile: site.file,
      bay: site.bay,
      path,
      fileName: 'room.csv',
      reading: readingOf(plain),
      entry: mint<'entry'>(),
      person: site.person,
      acceptBadRows: false,
      now,
      ...changes,
    }
  }
  return { site, input }
}

const textOf = (data: Row[]) => bytesOf(textIn(plain, data), plain)
const importsIn = ({ record, bay }: OneBay) => {
  const story = bayStory(record.read, bay)
  return { story, entries: story.entries.filter(({ kind }) => kind === 'logger-imported') }
}

describe('keeping a logger file', () => {
  it('KEP-1: one entry, the readings and the original bytes are in the record, with how the file was read', async () => {
    const { site, input } = setUp()
    const data = rows(0, 500)
    const asked = input(textOf(data))
    const kept = await keepLoggerFile(asked, ignoreProgress)
    expect(kept).toEqual({ entry: asked.entry, readings: 1000, refused: 0 })

    const { story, entries } = importsIn(site)
    const sha256 = createHash('sha256').update(textOf(data)).digest('hex')
    expect(entries).toHaveLength(1)
    expect(entries[0]).toMatchObject({
      id: asked.entry,
      source: 'logger',
      happenedAt: data[0]!.at,
      body: {
        fileName: 'room.csv',
        sha256,
        rows: 1000,
        refused: 0,
        readAs:
          'UTF-8, comma, decimal point, 1 heading row, year, month, day, Europe/London; time in column 1 “Time”; column 2 “Temperature (°C)” as air temperature in °C; column 3 “Relative humidity (%)” as relative humidity in %',
      },
    })
    expect(story.series.map(({ quantity }) => quantity)).toEqual(['airC', 'rhPercent'])
    expect(story.series[0]!.at).toEqual(data.map(({ at }) => at))
    expect(story.series[0]!.value).toEqual(data.map(({ airC }) => airC))
    expect(story.series[1]!.value).toEqual(data.map(({ rhPercent }) => rhPercent))
    expect(originalFile(site.record.read, sha256)).toEqual(textOf(data))
  })

  it('KEP-2: bad rows are kept out only when a person says so, and then counted', async () => {
    const { site, input } = setUp()
    const text = `${textIn(plain, rows(0, 50))}nothing,1,2\nEnd\n`
    const refused = await keepLoggerFile(input(text), ignoreProgress).catch((error: unknown) => error)
    expect(refused).toBeInstanceOf(InputError)
    expect(refused).toMatchObject({ field: 'acceptBadRows' })
    expect((refused as Error).message).toMatch(/^2 rows have something wrong/)
    expect(importsIn(site).entries).toEqual([])

    const kept = await keepLoggerFile(input(text, { acceptBadRows: true }), ignoreProgress)
    expect(kept).toMatchObject({ readings: 100, refused: 2 })
    expect(importsIn(site).entries[0]!.body).toMatchObject({ rows: 100, refused: 2 })
  })

  it('KEP-3: the same file twice is refused and the entry that has it is named', async () => {
    const { site, input } = setUp()
    const first = input(textOf(rows(0, 50)))
    await keepLoggerFile(first, ignoreProgress)
    const other = { ...readingOf(plain), columns: [{ index: 1, quantity: 'outsideC', unit: '°C' } as const] }
    const thrown = await keepLoggerFile(input(textOf(rows(0, 50)), { reading: other }), ignoreProgress).catch(
      (error: unknown) => error,
    )
    expect(thrown).toBeInstanceOf(CorrectionConflict)
    expect(thrown).toMatchObject({ entry: first.entry })
    expect(importsIn(site).entries).toHaveLength(1)
  })

  it('KEP-4: of a logger read out again only what is new is kept; nothing new is said so', async () => {
    const { site, input } = setUp()
    await keepLoggerFile(input(textOf(rows(0, 300))), ignoreProgress)
    const second = await keepLoggerFile(input(textOf(rows(200, 300))), ignoreProgress)
    expect(second.readings).toBe(400)
    const { story } = importsIn(site)
    const air = story.series.filter(({ quantity }) => quantity === 'airC').flatMap(({ at }) => at)
    expect(air).toEqual(rows(0, 500).map(({ at }) => at))
    await expect(keepLoggerFile(input(textOf(rows(50, 100))), ignoreProgress)).rejects.toThrow(
      /nothing to keep\. All its readings are in the record already: room\.csv, read on 25 November 2026/,
    )
  })

  it('KEP-5: asked again with the same entry, the answer is the same and nothing is written twice', async () => {
    const { site, input } = setUp()
    const asked = input(textOf(rows(0, 50)))
    const first = await keepLoggerFile(asked, ignoreProgress)
    const again = await keepLoggerFile({ ...asked, now: now + 5000 }, ignoreProgress)
    expect(again).toEqual(first)
    expect(importsIn(site).story.series).toHaveLength(2)
  })

  it.each([
    [
      'only a heading',
      'Time,Temperature (°C),Relative humidity (%)\n',
      /nothing to keep\. The file holds no rows/,
    ],
    ['only bad rows', 'Time,T,RH\nx,1,2\ny,1,2\n', /nothing to keep\. No row of the file could be read/],
  ])('KEP-6: a file with %s leaves no entry', async (_name, text, sentence) => {
    const { site, input } = setUp()
    await expect(keepLoggerFile(input(text, { acceptBadRows: true }), ignoreProgress)).rejects.toThrow(
      sentence,
    )
    expect(importsIn(site).entries).toEqual([])
  })

  it('KEP-7: stopped at any moment, the record holds the whole file or nothing of it, and is sound', async () => {
    const { site, input } = setUp()
    const workers = startWorkers({ size: 1 })
    onTestFinished(() => workers.close())
    let round = 0
    const keep = async (stopWhen: 'never' | 'at once' | { afterReadingMs: number }) => {
      const asked = input(textOf(rows(++round * 30_000, 20_000, 1)))
      const stop = new AbortController()
      const abort = () => stop.abort(new Error('stopped'))
      if (stopWhen === 'at once') setImmediate(abort)
      const onProgress = (done: number, of: number) => {
        if (done === of && typeof stopWhen === 'object') setTimeout(abort, stopWhen.afterReadingMs)
      }
      const end = await workers
        .run('keep logger file', asked, { signal: stop.signal, onProgress })
        .catch((error: unknown) => error)
      if (end instanceof Error) expect(end.message).toBe('stopped')
      // A stopped thread may still be inside SQLite; the next write waits for its lock.
      site.note('air-read', Date.UTC(2026, 5, 1) + round * 60_000, { airC: 15 })
      const { story, entries } = importsIn(site)
      const written = entries.filter(({ id }) => id === asked.entry).length
      const counts = story.series.filter(({ entry }) => entry === asked.entry).map(({ at }) => at.length)
      expect(counts).toEqual(written === 0 ? [] : [20_000, 20_000])
      return { written, stopped: end instanceof Error }
    }
    // The control: without a stop the file is whole, and so the stops are what keeps the others out.
    expect(await keep('never')).toEqual({ written: 1, stopped: false })
    expect(await keep('at once')).toEqual({ written: 0, stopped: true })
    for (const afterReadingMs of [0, 15, 60]) await keep({ afterReadingMs })
    expect(site.record.read.sqlite.pragma('integrity_check', { simple: true })).toBe('ok')
  }, 120_000)

  it('KEP-8: the errors of the record come through the thread as what they are', async () => {
    const { input } = setUp()
    const workers = startWorkers({ size: 1 })
    onTestFinished(() => workers.close())
    const data = textOf(rows(0, 20))
    await workers.run('keep logger file', input(data))
    const again = await workers.run('keep logger file', input(data)).catch((error: unknown) => error)
    expect(again).toBeInstanceOf(InputError)
    const unknown = await workers
      .run('keep logger file', input(textOf(rows(900, 20)), { bay: mint<'bay'>() }))
      .catch((error: unknown) => error)
    expect(unknown).toMatchObject({ name: 'UnknownId', what: 'bay' })
    const nobody = await workers
      .run('keep logger file', input(textOf(rows(900, 20)), { person: mint<'person'>() }))
      .catch((error: unknown) => error)
    expect(nobody).toMatchObject({ name: 'UnknownId', what: 'person' })
  })
})

describe('files that hold the same rows', () => {
  it('KEP-9: the original is kept as it came, not as it was read', async () => {
    const { site, input } = setUp()
    const odd = { ...plain, encoding: 'utf-16le', byteOrderMark: true } as const
    const bytes = bytesOf(textIn(odd, rows(0, 20)), odd)
    const asked = input(bytes, { reading: readingOf(odd) })
    await keepLoggerFile(asked, ignoreProgress)
    const sha256 = createHash('sha256').update(readFileSync(asked.path)).digest('hex')
    expect(originalFile(site.record.read, sha256)?.equals(bytes)).toBe(true)
  })
})
