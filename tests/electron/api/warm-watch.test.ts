import { setImmediate as nextTurn } from 'node:timers/promises'
import { describe, expect, it } from 'vitest'
import type { Services } from '#electron/api/services.ts'
import { warmWatch } from '#electron/api/warm-watch.ts'
import { openedWithSite } from './opened.ts'

/** The services of a small site, whose watch tells which bays were asked for. */
async function counting() {
  const { services, site } = await openedWithSite()
  const asked: string[] = []
  const troubles: string[] = []
  const watch: Services['watch'] = {
    ...services.watch,
    now: (bay) => {
      asked.push(bay)
      return services.watch.now(bay)
    },
  }
  const log: Services['log'] = { keep: (where) => `${troubles.push(where)}` }
  return { services: { ...services, watch, log }, site, asked, troubles }
}

const turns = async (count: number) => {
  for (let turn = 0; turn < count; turn++) await nextTurn()
}

describe('bays are worked out before anybody asks', () => {
  it('WARM-1: every bay of the project written in last is worked out, one a turn', async () => {
    const { services, site, asked } = await counting()
    const warming = warmWatch(services)
    expect(asked).toEqual([])
    await turns(2)
    expect(asked.length).toBeLessThanOrEqual(1)
    await turns(4)
    expect([...asked].sort()).toEqual([site.bay, site.otherBay].sort())
    warming.stop()
  })

  it('WARM-2: once stopped, the record is not read again', async () => {
    const { services, asked } = await counting()
    warmWatch(services).stop()
    await turns(6)
    expect(asked).toEqual([])
  })

  it('WARM-3: a bay that cannot be worked out is kept in the log and ends nothing', async () => {
    const { services, troubles } = await counting()
    const broken = {
      ...services.watch,
      now: () => {
        throw new Error('planted')
      },
    }
    const warming = warmWatch({ ...services, watch: broken })
    await turns(6)
    expect(troubles).toEqual(['working out bays ahead'])
    warming.stop()
  })
})
