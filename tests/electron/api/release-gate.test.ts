import { isDefinedError, safe } from '@orpc/client'
import { describe, expect, it } from 'vitest'
import { holdOrder } from '#model/hold/index.ts'
import type { EntryId, ProjectId } from '#model/record/ids.ts'
import type { HoldPoint } from '#model/record/people.ts'
import { day, entry, hour, morning, type Site } from '#tests/db/site.ts'
import { now } from '#tests/model/readiness/ready-bay.ts'
import { openedWithSite } from './opened.ts'
import { openedWithReadyBay } from './ready-site.ts'

/** A heated bay, finished, of which little else is known; the project leaves the choice open, so every point binds. */
async function finishedBay() {
  const opened = await openedWithSite()
  opened.time.now = morning + 80 * day
  const { client, site } = opened
  const append = (...entries: ReturnType<typeof entry>[]) => client.record.append({ entries })
  await append(entry(site, 'bay-finished', { at: morning + hour }))
  return { ...opened, append }
}

/** A bay that is READY, unheated, before which every point binds that applies to it. */
async function readyBay(changes: Parameters<typeof openedWithReadyBay>[0] = {}) {
  const opened = await openedWithReadyBay({ setting: { project: { holdPoints: undefined } }, ...changes })
  const append = (...entries: ReturnType<typeof entry>[]) => opened.client.record.append({ entries })
  return { ...opened, append }
}

const letGo = (
  site: Site,
  point: HoldPoint,
  at: number,
  decision: 'released' | 'waived' | 'held' = 'released',
) => {
  const body = { point, decision, saw: 'Looked at it closely' }
  return entry(site, 'hold-point-released', { at, body })
}
const decided = (
  site: Site,
  at: number,
  decision: 'accepted' | 'refused' | 'waived' = 'accepted',
  covering = 'vinyl',
) => {
  const reasons = decision === 'accepted' ? {} : { reasons: [{ reason: 'Ordered by the client' }] }
  return entry(site, 'bay-decided', { at, body: { decision, covering, verdictShown: 'ready', ...reasons } })
}
const before = holdOrder.filter((point) => point !== 'release')
const ofHeating: readonly HoldPoint[] = ['pipe pressure', 'heating run']
const unheated = before.filter((point) => !ofHeating.includes(point))

describe('a bay is not accepted past its hold points', () => {
  it('GATE-1: every open point is named, nothing of the same call is written, and it is a refusal of the contract', async () => {
    const { site, append, client } = await finishedBay()
    const list = () => client.record.list({ project: site.project as ProjectId })
    const count = (await list()).entries.length
    const air = entry(site, 'air-read', { at: morning + 79 * day })
    const { error } = await safe(append(air, decided(site, morning + 79 * day)))
    expect(isDefinedError(error)).toBe(true)
    expect(error).toMatchObject({ code: 'NOT_ALLOWED', status: 403 })
    const { detail } = (error as unknown as { data: { detail: string } }).data
    for (const text of ['Bay B1', 'Base survey (open)', 'Heating run (open)', 'Soundness (open)'])
      expect(detail).toContain(text)
    expect(detail).not.toContain('Release to cover')
    expect((await list()).entries).toHaveLength(count)
  })

  it.each(before)('GATE-2: %s alone, held, refuses it', async (left) => {
    const { site, append } = await finishedBay()
    await append(...before.map((point) => letGo(site, point, morning + 70 * day)))
    await append(letGo(site, left, morning + 71 * day, 'held'))
    await expect(append(decided(site, morning + 72 * day))).rejects.toThrow(
      /cannot be accepted yet.*\(held\)/,
    )
  })

  it.each(unheated)(
    'GATE-3: of a READY bay, %s alone, held, refuses it; waived, it is written',
    async (left) => {
      const { site, append } = await readyBay()
      await append(...unheated.map((point) => letGo(site, point, now - 4 * hour)))
      await append(letGo(site, left, now - 3 * hour, 'held'))
      await expect(append(decided(site, now - 2 * hour))).rejects.toThrow(/cannot be accepted yet.*\(held\)/)
      await append(letGo(site, left, now - hour, 'waived'))
      expect((await append(decided(site, now))).entries).toHaveLength(1)
    },
  )

  it('GATE-4: what is let go later does not count for an earlier acceptance', async () => {
    const { site, append } = await readyBay()
    await append(...unheated.map((point) => letGo(site, point, now)))
    await expect(append(decided(site, now - hour))).rejects.toThrow(/cannot be accepted yet/)
  })

  it('GATE-5: asked again after a lost answer, an acceptance that is written is written, though a point is held since', async () => {
    const { site, append } = await readyBay()
    await append(...unheated.map((point) => letGo(site, point, now - 3 * hour)))
    const once = decided(site, now)
    const first = await append(once)
    await append(letGo(site, 'soundness', now - hour, 'held'))
    expect(await append(once)).toEqual(first)
  })

  it('GATE-6: refusing a bay and a covering ordered before readiness are facts, and are written', async () => {
    const { site, append } = await finishedBay()
    for (const decision of ['refused', 'waived'] as const)
      expect((await append(decided(site, morning + day, decision))).entries).toHaveLength(1)
    const laid = entry(site, 'covering-laid', {
      at: morning + 40 * day,
      body: { on: '2026-12-12', covering: 'Vinyl' },
    })
    expect((await append(laid)).entries).toHaveLength(1)
  })

  it('GATE-7: correcting a refusal into an acceptance is refused the same way; a project that chose no points accepts', async () => {
    const { site, append } = await readyBay()
    const refused = decided(site, now, 'refused')
    await append(refused)
    const turned = () => ({
      ...decided(site, now),
      ...{ corrects: refused.id as EntryId, reason: 'Swept' },
    })
    await expect(append(turned())).rejects.toThrow(/cannot be accepted yet/)
    const project = entry(site, 'project-opened', {
      at: now - hour,
      subject: site.project,
      corrects: site.project,
      reason: 'None agreed',
      body: {
        name: 'Mill Yard',
        timeZone: 'Europe/London',
        currency: 'GBP',
        ruleSet: 'british',
        holdPoints: [],
      },
    })
    await append(project)
    expect((await append(turned())).entries).toHaveLength(1)
  })
})

// Only a valid test releases a bay; a drying estimate, or a screen that says READY, does not: the rule of this program.
// 75 % RH for vinyl, 65 % for timber: BS 8203 and BS 8201, quoted second-hand.
describe('only a READY bay is let go, whatever the caller says it was shown', () => {
  const none = { setting: { project: { holdPoints: [] } } }

  it('GATE-8: a bay that was tested dry is accepted, and let go at its last hold point', async () => {
    const { site, append } = await readyBay(none)
    expect((await append(decided(site, now), letGo(site, 'release', now))).entries).toHaveLength(2)
  })

  it.each([
    ['no moisture test', { without: ['box' as const] }, /NOT PROVEN.*Valid moisture test \(unknown\)/],
    ['a reading over the limit', { rhPercent: 76 }, /NOT READY.*not met.*75/],
    ['a test of three weeks ago', { testedAt: now - 21 * day }, /NOT PROVEN.*Test not stale/],
    ['an instrument that nobody checked', { without: ['instrument' as const] }, /NOT PROVEN/],
    ['no sheet while curing', { without: ['sheet' as const] }, /NOT READY.*Age and curing/],
  ])(
    'GATE-9: with %s it is refused as accepted and as released, and nothing is written',
    async (_, changes, why) => {
      const { site, append, client } = await readyBay({ ...none, ...changes })
      const list = () => client.record.list({ project: site.project as ProjectId })
      const count = (await list()).entries.length
      await expect(append(decided(site, now))).rejects.toThrow(why)
      await expect(append(letGo(site, 'release', now))).rejects.toThrow(why)
      expect((await list()).entries).toHaveLength(count)
      for (const decision of ['refused', 'waived'] as const)
        expect((await append(decided(site, now, decision))).entries).toHaveLength(1)
      expect((await append(letGo(site, 'release', now, 'waived'))).entries).toHaveLength(1)
    },
  )

  it('GATE-10: the covering of the acceptance is judged, not that of the contract', async () => {
    const { site, append } = await readyBay(none)
    await expect(append(decided(site, now, 'accepted', 'timber bonded'))).rejects.toThrow(/NOT READY/)
  })

  it('GATE-11: as it stood then: an acceptance dated before the test that proves it is refused', async () => {
    const { site, append } = await readyBay(none)
    await expect(append(decided(site, now - 4 * day))).rejects.toThrow(/NOT PROVEN/)
  })

  it('GATE-12: water on the floor since the test refuses it', async () => {
    const { site, append } = await readyBay(none)
    await append(entry(site, 'wet-event-noted', { at: now - hour, body: { what: 'leak', stopped: true } }))
    await expect(append(decided(site, now))).rejects.toThrow(/only a READY bay is accepted/)
  })

  it('GATE-13: who has read the bay too wet themselves does not accept it; at the limit, or on a scale of its own, they may', async () => {
    const { site, append } = await readyBay(none)
    const own = (value: number, method: string, unit: string) => {
      const check = { value, unit, method, place: 'B3' }
      const body = { decision: 'accepted', covering: 'vinyl', verdictShown: 'ready', ownChecks: [check] }
      return entry(site, 'bay-decided', { at: now, body })
    }
    // 75 % RH: BS 8203 (quoted second-hand), as the rules of the project say.
    await expect(append(own(75.1, 'hygrometer box', '% RH'))).rejects.toThrow(
      /^Your own check is too wet: 75\.1 % RH at B3 by insulated hygrometer box \(≤ 75 % RH\)\./,
    )
    expect((await append(own(75, 'hygrometer box', '% RH'))).entries).toHaveLength(1)
    expect((await append(own(150, 'electrical survey', 'on its own scale'))).entries).toHaveLength(1)
  })
})
