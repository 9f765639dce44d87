import { expect, it, vi } from 'vitest'
import { bayStory, closeRecord } from '#db/index.ts'
import { newEntry } from '#model/record/entry.ts'
import { type BodyOf, type KindName, kinds } from '#model/record/kinds.ts'
import { mint, oneBay } from '../one-bay.ts'
import { tempFolder } from '../temp-folder.ts'
import { all, served } from './served.ts'

const day = 86_400_000
const laid = Date.UTC(2026, 0, 6, 15)
const now = laid + 21 * day
const iso = (at: number) => new Date(at).toISOString()

it('CFC-6: a forecast that is kept is worked out again when another bay comes to be tested, and not for what else happens there', async () => {
  const folder = tempFolder()
  const site = oneBay(folder)
  site.note('bay-finished', laid, { startedAt: iso(laid - 3_600_000), finish: 'float' })
  const { body } = bayStory(site.record.read, site.bay).bay
  closeRecord(site.record)
  const { services, client } = await served(folder, () => now)
  const runs = vi.spyOn(services.workers, 'run')
  const forecast = async () => all(await client.bays.forecast({ bay: site.bay }))
  const other = mint<'bay'>()
  const write = <K extends KindName>(kind: K, at: number, of: BodyOf<K>) =>
    client.record.append({
      entries: [
        newEntry.parse({
          id: kinds[kind].begins === true ? other : mint(),
          project: site.project,
          subject: other,
          kind,
          happenedAt: iso(at),
          zone: 'Europe/London',
          person: site.person,
          source: 'typed',
          body: of,
        }),
      ],
    })

  await write('bay-planned', laid, { ...body, name: 'N2' })
  await write('bay-finished', laid, { startedAt: iso(laid - 3_600_000), finish: 'float' })
  await forecast()
  await write('air-read', now - 60_000, { airC: 12, rhPercent: 75 })
  await forecast()
  expect(runs).toHaveBeenCalledTimes(1)
  const readings = [{ at: iso(now - 60_000), rhPercent: 88 }]
  await write('moisture-read', now - 60_000, {
    method: 'probe',
    point: 'P1',
    setAt: iso(now - 4 * day),
    readings,
  })
  await forecast()
  expect(runs).toHaveBeenCalledTimes(2)
}, 120_000)
