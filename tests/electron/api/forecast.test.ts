import { describe, expect, it, vi } from 'vitest'
import { closeRecord } from '#db/index.ts'
import { newEntry } from '#model/record/entry.ts'
import { mint, type OneBay, oneBay } from '../one-bay.ts'
import { tempFolder } from '../temp-folder.ts'
import { all, served } from './served.ts'

const day = 86_400_000
const laid = Date.UTC(2026, 0, 6, 15)

async function setUp() {
  const folder = tempFolder()
  const site: OneBay = oneBay(folder)
  site.note('bay-finished', laid, {
    startedAt: new Date(laid - 4 * 3_600_000).toISOString(),
    finish: 'float',
  })
  for (let i = 1; i <= 20; i++) site.note('air-read', laid + i * day, { airC: 18, rhPercent: 55 })
  closeRecord(site.record)
  const clock = { now: laid + 21 * day }
  const { services, client } = await served(folder, () => clock.now)
  const runs = vi.spyOn(services.workers, 'run')
  const forecast = async (covering?: 'vinyl' | 'timber bonded') =>
    (await all(await client.bays.forecast({ bay: site.bay, covering }))).at(-1)
  const read = (happenedAt: number) =>
    client.record.append({
      entries: [
        newEntry.parse({
          id: mint(),
          project: site.project,
          subject: site.bay,
          kind: 'air-read',
          happenedAt: new Date(happenedAt).toISOString(),
          zone: 'Europe/London',
          person: site.person,
          source: 'typed',
          body: { airC: 12, rhPercent: 75 },
        }),
      ],
    })
  return { forecast, read, runs, clock, client, bay: site.bay, project: site.project }
}

describe('forecast by calls', () => {
  it('CFC-1: the forecast of a bay comes as its last event, in dates', async () => {
    const { forecast, clock } = await setUp()
    const event = await forecast()
    if (event?.kind !== 'done') throw new Error('The forecast did not end.')
    expect(event.forecast.missing).toEqual([])
    expect(event.forecast.asOf).toBe(new Date(clock.now).toISOString())
    expect(event.forecast.limit).toMatchObject({ value: 75, unit: '% RH' })
  })

  it('CFC-2: it is worked out once until an entry touches the bay or an hour has passed', async () => {
    const { forecast, read, runs, clock } = await setUp()
    const first = await forecast()
    expect(await forecast()).toEqual(first)
    expect(runs).toHaveBeenCalledTimes(1)
    await forecast('timber bonded')
    expect(runs).toHaveBeenCalledTimes(2)

    await read(clock.now - 60_000)
    const second = await forecast()
    expect(runs).toHaveBeenCalledTimes(3)
    expect(second).not.toEqual(first)
    clock.now += 3_700_000
    await forecast()
    expect(runs).toHaveBeenCalledTimes(4)
  }, 60_000)

  it('CFC-5: a file of the same hour takes the estimate that the bay was shown with', async () => {
    const { forecast, runs, clock, client, bay, project } = await setUp()
    await forecast()
    clock.now += 20 * 60_000
    const wanted = { project, kind: 'release' as const, bays: [bay], estimates: true }
    const events = await all(await client.reports.make(wanted))
    expect(events.at(-1)?.kind).toBe('done')
    expect(events.some((event) => event.kind === 'progress' && event.step === 'estimates')).toBe(true)
    expect(runs.mock.calls.map(([job]) => job)).toEqual(['forecast bay', 'make report file'])
  })

  it('CFC-6: also when the bay was written about within that hour', async () => {
    const { forecast, read, runs, clock, client, bay, project } = await setUp()
    clock.now += 20 * 60_000
    await read(clock.now - 60_000)
    await forecast()
    clock.now += 5 * 60_000
    const wanted = { project, kind: 'release' as const, bays: [bay], estimates: true }
    expect((await all(await client.reports.make(wanted))).at(-1)?.kind).toBe('done')
    expect(runs.mock.calls.map(([job]) => job)).toEqual(['forecast bay', 'make report file'])
  })

  it('CFC-3: of a bay that is not there it is said so', async () => {
    const { client } = await setUp()
    await expect(all(await client.bays.forecast({ bay: mint<'bay'>() }))).rejects.toMatchObject({
      code: 'NOT_FOUND',
    })
  })

  it('CFC-4: verification runs beside it on a thread and finds the record sound', async () => {
    const { client, runs } = await setUp()
    const events = await all(await client.record.verify())
    expect(events.at(-1)).toMatchObject({
      kind: 'done',
      report: { ok: true, firstDifference: null, entries: 26 },
    })
    expect(runs).toHaveBeenCalledWith('verify record', expect.anything(), expect.anything())
  })
})
