// No measured values: how the entries of one fault are held together. Weight of the scratch test and rule ids are our own judgement.
import { describe, expect, it } from 'vitest'
import { closeRecord } from '#db/index.ts'
import type { BodyOf } from '#model/record/kinds.ts'
import { type OneBay, oneBay } from '#tests/electron/one-bay.ts'
import { tempFolder } from '#tests/electron/temp-folder.ts'
import { all, served } from './served.ts'

const day = 24 * 3_600_000
const laid = Date.UTC(2026, 0, 12, 10)
const now = laid + 60 * day

type Found = BodyOf<'defect-found'>
const found = (symptom: string, more: Partial<Found> = {}): Found => ({
  symptom,
  firstSeenOn: '2026-01-25',
  extent: 'part',
  ...more,
})
const line = {
  shape: 'line',
  outline: [
    { x: 3, y: 0 },
    { x: 3, y: 5 },
  ],
  x: 3,
  y: 2.5,
} satisfies Partial<Found>

/** A laid bay, what `tell` writes about it, and a client on the record. */
async function told<T>(tell: (bay: OneBay) => T) {
  const folder = tempFolder()
  const bay = oneBay(folder)
  bay.note('bay-finished', laid, {
    startedAt: new Date(laid - 4 * 3_600_000).toISOString(),
    finish: 'float',
  })
  const ids = tell(bay)
  closeRecord(bay.record)
  const { client } = await served(folder, () => now)
  return {
    ...bay,
    ids,
    client,
    list: async () => (await client.faults.list({ project: bay.project })).faults,
  }
}

const naming = (defects: readonly string[], more: Partial<BodyOf<'cause-named'>> = {}) =>
  ({
    defects: defects.map((defect) => ({ defect })),
    cause: 'CURE',
    reason: 'Nothing covered it for a day',
    causeRemoved: 'yes',
    weightsVersion: '1',
    shown: [{ cause: 'CURE', probability: 0.9, examined: true }],
    ...more,
  }) as BodyOf<'cause-named'>

describe('FAULTS: entries of one fault', () => {
  it('FAULTS-1: symptoms found in one look at one place are one fault, the one written first its main one', async () => {
    const { ids, list } = await told(({ note }) => [
      note('defect-found', laid + 13 * day, found('S01')),
      note('defect-found', laid + 13 * day, found('S04')),
    ])
    const faults = await list()
    expect(faults).toHaveLength(1)
    expect(faults[0]).toMatchObject({ id: ids[0], defects: ids, symptoms: ['S01', 'S04'], state: 'open' })
  })

  it.each([
    ['elsewhere', 13 * day, line],
    ['a day later', 14 * day, {}],
  ])('FAULTS-2: a symptom found %s is a fault of its own', async (_, after, more) => {
    const { list } = await told(({ note }) => {
      note('defect-found', laid + 13 * day, found('S06'))
      note('defect-found', laid + after, found('S09', more))
    })
    expect((await list()).map(({ symptoms }) => symptoms)).toHaveLength(2)
  })

  it('FAULTS-3: it comes from open to closed, and a failed re-test takes it back', async () => {
    const steps: string[] = []
    const { list, client, ids } = await told(({ note }) => {
      const main = note('defect-found', laid + 13 * day, found('S01', { areaM2: 30 }))
      const also = note('defect-found', laid + 13 * day, found('S04'))
      const diagnosis = note('cause-named', laid + 20 * day, naming([main, also]))
      const repair = note('repair-done', laid + 25 * day, {
        defect: main,
        diagnosis,
        option: 'remove skin',
        areaM2: 30,
        startedOn: '2026-02-05',
        finishedOn: '2026-02-06',
      } as BodyOf<'repair-done'>)
      const retest = (at: number, result: 'passed' | 'failed') =>
        note('repair-retested', at, { repair, method: 'scratch', result } as BodyOf<'repair-retested'>)
      retest(laid + 30 * day, 'failed')
      retest(laid + 35 * day, 'passed')
      const close = (defect: string, at: number) =>
        note('defect-closed', at, { defect, how: 'repaired', note: 'Hard' } as BodyOf<'defect-closed'>)
      close(main, laid + 40 * day)
      close(also, laid + 41 * day)
      return { main, also }
    })
    for (const after of [14, 21, 26, 31, 36, 40.5, 42]) {
      const asOf = new Date(laid + after * day).toISOString()
      steps.push((await client.faults.page({ defect: ids.main, asOf })).fault.state)
    }
    // After 40.5 days one of the two symptoms is closed: that does not close the fault.
    expect(steps).toEqual([
      'open',
      'cause named',
      'repaired',
      're-test failed',
      're-tested',
      're-tested',
      'closed',
    ])
    expect((await list())[0]).toMatchObject({ state: 'closed', since: laid + 41 * day, cause: 'CURE' })
  })

  it('FAULTS-4: the page opens by the entry of any of its symptoms, and by no other entry', async () => {
    const { ids, client } = await told(({ note }) => ({
      main: note('defect-found', laid + 13 * day, found('S01')),
      also: note('defect-found', laid + 13 * day, found('S04')),
      air: note('air-read', laid + 14 * day, { airC: 18 } as BodyOf<'air-read'>),
    }))
    const page = await client.faults.page({ defect: ids.also })
    expect(page.fault.id).toBe(ids.main)
    await expect(client.faults.page({ defect: ids.air })).rejects.toMatchObject({ code: 'NOT_FOUND' })
  })

  it('FAULTS-5: an answer that somebody typed in counts for this fault from its moment on', async () => {
    const { ids, client } = await told(({ note }) => {
      const defect = note('defect-found', laid + 13 * day, found('S01'))
      note('fault-evidence-noted', laid + 16 * day, {
        defect,
        evidence: 'E45',
        found: 'true',
        method: 'scratch',
      } as BodyOf<'fault-evidence-noted'>)
      return defect
    })
    const curing = async (after: number) => {
      const asOf = new Date(laid + after * day).toISOString()
      const { diagnosis } = await client.faults.page({ defect: ids, asOf })
      return diagnosis.causes.find(({ id }) => id === 'CURE')!
    }
    const [before, after] = [await curing(15), await curing(17)]
    expect(after.logOdds - before.logOdds).toBeCloseTo(1, 9)
    expect(after.supports.map(({ id }) => id)).toContain('E45')
    expect(before.supports.map(({ id }) => id)).not.toContain('E45')
  })

  it('FAULTS-6: a crack is not called still before it was gauged for fourteen days; what is no crack has no movement', async () => {
    const { ids, client, list } = await told(({ note }) => {
      note('defect-found', laid + 12 * day, found('S01'))
      const crack = note('defect-found', laid + 13 * day, found('S06', { ...line, widthMm: 0.4 }))
      for (const [after, widthMm] of [
        [14, 0.4],
        [21, 0.42],
        [28, 0.41],
      ] as const) {
        const body = { defect: crack, widthMm, place: 'Middle' } as BodyOf<'crack-gauged'>
        note('crack-gauged', laid + after * day, body)
      }
      return crack
    })
    const early = await client.faults.page({ defect: ids, asOf: new Date(laid + 22 * day).toISOString() })
    expect(early.movement.verdict).toBe('not known')
    const faults = await list()
    expect(faults.map(({ symptoms, movement }) => [symptoms[0], movement])).toEqual([
      ['S06', 'dormant'],
      ['S01', null],
    ])
    expect(faults[0]!.widthMm).toBe(0.41)
  })

  it('FAULTS-7: no repair may be chosen before a person has named the cause', async () => {
    const { ids, client } = await told(({ note }) => {
      const defect = note('defect-found', laid + 13 * day, found('S01', { areaM2: 30, weakToMm: 2 }))
      note('cause-named', laid + 20 * day, naming([defect]))
      return defect
    })
    const early = await client.faults.page({ defect: ids, asOf: new Date(laid + 15 * day).toISOString() })
    expect(early.named).toBeNull()
    expect(early.decision).toMatchObject({ outcome: 'tests first', rule: 'R02' })
    expect(early.options.some(({ verdict }) => verdict === 'allowed')).toBe(false)
    expect((await client.faults.page({ defect: ids })).named?.body.cause).toBe('CURE')
  })

  it('FAULTS-8: what was noted of the second symptom counts for the fault, and days left are asked and not recorded', async () => {
    const { ids, client } = await told(({ note }) => {
      const main = note('defect-found', laid + 13 * day, found('S01'))
      const also = note('defect-found', laid + 13 * day, found('S04'))
      note('fault-evidence-noted', laid + 16 * day, {
        defect: also,
        evidence: 'E45',
        found: 'true',
        method: 'scratch',
      } as BodyOf<'fault-evidence-noted'>)
      return { main, also }
    })
    const page = await client.faults.page({ defect: ids.main, daysLeft: 12 })
    const scratched = page.diagnosis.evidence.find(({ id }) => id === 'E45')!
    expect(scratched).toMatchObject({ state: 'true', source: 'person', defect: ids.also })
    expect(page.daysLeft).toBe(12)
    expect((await client.faults.page({ defect: ids.main })).daysLeft).toBeNull()
    await expect(client.faults.page({ defect: ids.main, daysLeft: -1 })).rejects.toThrow()
  })

  it('FAULTS-9: the drying of new screed is worked out for the bay of the fault, and asked of its options', async () => {
    const { ids, client } = await told(({ note }) => note('defect-found', laid + 13 * day, found('S02')))
    const events = await all(await client.faults.newScreed({ defect: ids }))
    const last = events.at(-1)
    if (last?.kind !== 'done') throw new Error('nothing was worked out')
    expect(last.drying.missing).toEqual([])
    expect(events.length).toBeGreaterThan(1)
    const lost = async (newScreedDays?: { p50: number; p90: number }) => {
      const page = await client.faults.page({ defect: ids, ...(newScreedDays && { newScreedDays }) })
      return page.options.find(({ option }) => option === 'replace')!.daysLost!
    }
    expect((await lost()).how).toMatch(/rule of thumb/)
    expect((await lost({ p50: 61, p90: 120 })).how).toMatch(/61 to 120 from laying .* by the forecast/)
  })
})
