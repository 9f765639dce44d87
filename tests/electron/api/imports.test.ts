import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { bayStory, closeRecord } from '#db/index.ts'
import { bytesOf, plain, type Row, textIn } from '../imports/dialects.ts'
import { mint, oneBay } from '../one-bay.ts'
import { tempFolder } from '../temp-folder.ts'
import { all, once, served } from './served.ts'

const now = Date.UTC(2026, 10, 25)
const rows: Row[] = Array.from({ length: 600 }, (_, i) => ({
  at: Date.UTC(2026, 1, 2) + i * 600_000,
  airC: 12 + (i % 19) / 2,
  rhPercent: 45 + (i % 37),
}))
const german = {
  ...plain,
  separator: ';',
  decimal: ',',
  dateOrder: 'day first',
  dateMark: '.',
  encoding: 'windows-1252',
} as const

async function setUp() {
  const folder = tempFolder()
  const site = oneBay(folder)
  closeRecord(site.record)
  const { services, client } = await served(folder, () => now)
  const upload = async (text: string) => {
    const { id } = await services.uploads.receive(once(bytesOf(text, german)), 'Raum.csv')
    return id
  }
  const { bay, person } = site
  const staged = () => readdirSync(join(folder, 'uploads'))
  return { services, client, upload, bay, person, staged }
}

describe('reading a logger file in by calls', () => {
  it('CAL-1: preview, check and commit lead from an upload to readings in the record', async () => {
    const { services, client, upload, bay, person, staged } = await setUp()
    const id = await upload(textIn(german, rows))
    const preview = await client.imports.preview({ upload: id, bay })
    expect(preview).toMatchObject({ upload: id, fileName: 'Raum.csv', alreadyRead: null, trouble: null })
    const reading = preview.guess!
    const check = await client.imports.check({ upload: id, bay, reading })
    expect(check).toMatchObject({ rows: 600, good: 600, badCount: 0, duplicates: 0, alreadyInRecord: [] })
    expect(bayStory(services.record.current().read, bay).series).toEqual([])

    const entry = mint<'entry'>()
    const events = await all(
      await client.imports.commit({ upload: id, bay, reading, entry, person, acceptBadRows: false }),
    )
    expect(events.at(-1)).toEqual({ kind: 'done', entry, readings: 1200, refused: 0 })
    expect(events.slice(0, -1).every(({ kind }) => kind === 'progress')).toBe(true)
    const { series } = bayStory(services.record.current().read, bay)
    expect(series.map(({ at }) => at.length)).toEqual([600, 600])
    expect(series[0]!.value).toEqual(rows.map(({ airC }) => airC))
    expect(staged()).toEqual([])
  })

  it('CAL-2: the same file is recognised before anything is asked, and a lost answer can be asked for again', async () => {
    const { client, upload, bay, person } = await setUp()
    const first = await upload(textIn(german, rows))
    const { guess } = await client.imports.preview({ upload: first, bay })
    const commit = {
      upload: first,
      bay,
      reading: guess!,
      entry: mint<'entry'>(),
      person,
      acceptBadRows: false,
    }
    const [done] = (await all(await client.imports.commit(commit))).slice(-1)
    expect((await all(await client.imports.commit(commit))).at(-1)).toEqual(done)

    const second = await upload(textIn(german, rows))
    const preview = await client.imports.preview({ upload: second, bay })
    expect(preview.alreadyRead).toEqual({ entry: commit.entry, bay, at: new Date(now).toISOString() })
    const check = await client.imports.check({ upload: second, bay, reading: guess! })
    expect(check).toMatchObject({
      duplicates: 600,
      alreadyInRecord: ['Raum.csv, read on 25 November 2026'],
    })
  })

  it('CAL-3: what is wrong is told as an error of the contract, and the upload is still there', async () => {
    const { client, upload, bay, person, staged } = await setUp()
    const id = await upload(`${textIn(german, rows)}End\n`)
    const { guess } = await client.imports.preview({ upload: id, bay })
    const reading = guess!
    const entry = mint<'entry'>()
    const commit = { upload: id, bay, reading, entry, person, acceptBadRows: false }
    await expect(all(await client.imports.commit(commit))).rejects.toMatchObject({
      code: 'INPUT_OUT_OF_RANGE',
      data: {
        problems: [{ field: 'acceptBadRows', message: expect.stringMatching(/^1 row has something wrong/) }],
      },
    })
    expect(staged()).toHaveLength(1)
    await expect(
      client.imports.check({ upload: id, bay, reading: { ...reading, timeZone: 'Nowhere' } }),
    ).rejects.toMatchObject({
      code: 'INPUT_OUT_OF_RANGE',
      data: { problems: [{ field: 'reading.timeZone' }] },
    })
    await expect(client.imports.preview({ upload: 'a'.repeat(32), bay })).rejects.toMatchObject({
      code: 'INPUT_OUT_OF_RANGE',
      data: { problems: [{ field: 'upload' }] },
    })
    await expect(client.imports.preview({ upload: '../../record', bay })).rejects.toMatchObject({
      code: 'INPUT_OUT_OF_RANGE',
    })
    await expect(client.imports.preview({ upload: id, bay: mint<'bay'>() })).rejects.toMatchObject({
      code: 'NOT_FOUND',
    })
  })

  it('CAL-4: who stops listening stops the work, and nothing was written', async () => {
    const { services, client, upload, bay, person } = await setUp()
    const many = Array.from({ length: 60_000 }, (_, i) => ({ ...rows[0]!, at: rows[0]!.at + i * 60_000 }))
    const id = await upload(textIn(german, many))
    const { guess } = await client.imports.preview({ upload: id, bay })
    const entry = mint<'entry'>()
    const commit = { upload: id, bay, reading: guess!, entry, person, acceptBadRows: false }
    for await (const event of await client.imports.commit(commit)) {
      expect(event.kind).toBe('progress')
      break
    }
    expect(bayStory(services.record.current().read, bay).series).toEqual([])
    // The upload waits on, and the same commit can be asked for again.
    const events = await all(await client.imports.commit(commit))
    expect(events.at(-1)).toEqual({ kind: 'done', entry, readings: 120_000, refused: 0 })
  }, 60_000)
})
