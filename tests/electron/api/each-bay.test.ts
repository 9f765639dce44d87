import { describe, expect, it } from 'vitest'
import { eachBay } from '#electron/api/each-bay.ts'
import type { BayId } from '#model/record/ids.ts'

const bays = Array.from({ length: 40 }, (_, i) => ({ id: `bay ${i}` as BayId }))

function busy(ms: number): void {
  const until = performance.now() + ms
  while (performance.now() < until);
}

describe('work on every bay of a job', () => {
  it('EACH-BAY-1: other work has its turn many times, and the answers keep the order of the bays', async () => {
    let turns = 0
    const timer = setInterval(() => turns++, 1)
    try {
      const made = await eachBay(
        bays,
        (bay) => {
          busy(5)
          return bay
        },
        undefined,
      )
      expect(made).toEqual(bays.map(({ id }) => id))
      // 200 ms of work in slices of about 15 ms.
      expect(turns).toBeGreaterThan(6)
    } finally {
      clearInterval(timer)
    }
  })

  it('EACH-BAY-2: who no longer waits stops the work', async () => {
    const left = new AbortController()
    let worked = 0
    const work = () => {
      busy(5)
      if (++worked === 4) left.abort(new Error('gone'))
    }
    await expect(eachBay(bays, work, left.signal)).rejects.toThrow('gone')
    expect(worked).toBeLessThan(8)
  })

  it('EACH-BAY-3: what the work throws is thrown', async () => {
    const work = () => {
      throw new Error('no such bay')
    }
    await expect(eachBay(bays, work, undefined)).rejects.toThrow('no such bay')
  })
})
