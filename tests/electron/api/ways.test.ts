import { describe, expect, it } from 'vitest'
import { closeRecord } from '#db/index.ts'
import { isFound } from '#model/drying/what-if/shapes.ts'
import { mint, oneBay } from '../one-bay.ts'
import { tempFolder } from '../temp-folder.ts'
import { all, served } from './served.ts'

const day = 86_400_000
const laid = Date.UTC(2026, 0, 6, 15)
const plan = {
  heightM: 2.5,
  outdoor: { airC: 4, rhPercent: 85 },
  shutAirChangesPerH: null,
  airChangesPerH: 2,
  heatToC: 22,
  dryToRhPercent: 45,
  heatedScreedC: 27,
}

async function setUp() {
  const folder = tempFolder()
  const site = oneBay(folder)
  const span = { startedAt: new Date(laid - 4 * 3_600_000).toISOString(), finish: 'float' as const }
  site.note('bay-finished', laid, span)
  for (let i = 1; i <= 20; i++) site.note('air-read', laid + i * day, { airC: 16, rhPercent: 65 })
  closeRecord(site.record)
  const { client } = await served(folder, () => laid + 21 * day)
  return { client, bay: site.bay }
}

describe('ways to dry by calls', () => {
  it('CWY-1: ways are worked out on a thread, with progress, and waiting is the bay’s own forecast', async () => {
    const { client, bay } = await setUp()
    const events = await all(await client.ways.compare({ bays: [bay], ways: ['wait', 'ventilate'], plan }))
    const last = events.at(-1)
    if (last?.kind !== 'done') throw new Error('The comparison did not end.')
    expect(events.some(({ kind }) => kind === 'progress')).toBe(true)
    const [wait, ventilate] = last.found.ways.filter(isFound)
    const own = (await all(await client.bays.forecast({ bay }))).at(-1)
    if (own?.kind !== 'done') throw new Error('The forecast did not end.')
    expect([wait!.p10, wait!.p50, wait!.p90]).toEqual([own.forecast.p10, own.forecast.p50, own.forecast.p90])
    expect(ventilate!.daysGained).toBeGreaterThan(0)
    expect(last.found.room!.outdoor).toMatchObject({ from: 'typed' })
  }, 60_000)

  it('CWY-2: a bay that is not there, and a plan that cannot be, are refused in words', async () => {
    const { client, bay } = await setUp()
    const ways = ['wait' as const]
    await expect(
      client.ways.compare({ bays: [mint<'bay'>()], ways, plan }).then((events) => all(events)),
    ).rejects.toMatchObject({ code: 'NOT_FOUND' })
    await expect(
      client.ways.compare({ bays: [bay], ways, plan: { ...plan, heightM: 300 } }),
    ).rejects.toMatchObject({ code: 'INPUT_OUT_OF_RANGE' })
  }, 60_000)
})
