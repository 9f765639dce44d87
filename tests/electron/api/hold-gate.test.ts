import { isDefinedError, safe } from '@orpc/client'
import { describe, expect, it } from 'vitest'
import { holdOrder } from '#model/hold/index.ts'
import type { EntryId, ProjectId } from '#model/record/ids.ts'
import type { HoldPoint } from '#model/record/people.ts'
import { day, entry, hour, morning, type Site } from '#tests/db/site.ts'
import { openedWithSite } from './opened.ts'

/** A heated bay, finished; the project leaves the choice open, so every point binds. */
async function finishedBay() {
  const opened = await openedWithSite()
  opened.time.now = morning + 80 * day
  const { client, site } = opened
  const append = (...entries: ReturnType<typeof entry>[]) => client.record.append({ entries })
  await append(entry(site, 'bay-finished', { at: morning + hour }))
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
const accepted = (site: Site, at: number) => entry(site, 'bay-decided', { at })
const before = holdOrder.filter((point) => point !== 'release')

describe('a bay is not accepted past its hold points', () => {
  it('GATE-1: every open point is named, nothing of the same call is written, and it is a refusal of the contract', async () => {
    const { site, append, client } = await finishedBay()
    const list = () => client.record.list({ project: site.project as ProjectId })
    const count = (await list()).entries.length
    const air = entry(site, 'air-read', { at: morning + 79 * day })
    const { error } = await safe(append(air, accepted(site, morning + 79 * day)))
    expect(isDefinedError(error)).toBe(true)
    expect(error).toMatchObject({ code: 'NOT_ALLOWED', status: 403 })
    const { detail } = (error as unknown as { data: { detail: string } }).data
    for (const text of ['Bay B1', 'Base survey (open)', 'Heating run (open)', 'Soundness (open)'])
      expect(detail).toContain(text)
    expect(detail).not.toContain('Release to cover')
    expect((await list()).entries).toHaveLength(count)
  })

  it.each(before)('GATE-2: %s alone, held, refuses it; let go, it is written', async (left) => {
    const { site, append } = await finishedBay()
    await append(...before.map((point) => letGo(site, point, morning + 70 * day)))
    await append(letGo(site, left, morning + 71 * day, 'held'))
    await expect(append(accepted(site, morning + 72 * day))).rejects.toThrow(
      /cannot be accepted yet.*\(held\)/,
    )
    await append(letGo(site, left, morning + 73 * day, 'waived'))
    expect((await append(accepted(site, morning + 74 * day))).entries).toHaveLength(1)
  })

  it('GATE-3: what is let go later does not count for an earlier acceptance', async () => {
    const { site, append } = await finishedBay()
    await append(...before.map((point) => letGo(site, point, morning + 70 * day)))
    await expect(append(accepted(site, morning + 69 * day))).rejects.toThrow(/cannot be accepted yet/)
  })

  it('GATE-4: asked again after a lost answer, an acceptance that is written is written, though a point is held since', async () => {
    const { site, append } = await finishedBay()
    await append(...before.map((point) => letGo(site, point, morning + 70 * day)))
    const once = accepted(site, morning + 72 * day)
    const first = await append(once)
    await append(letGo(site, 'soundness', morning + 71 * day, 'held'))
    expect(await append(once)).toEqual(first)
  })

  it('GATE-5: refusing a bay and a covering ordered before readiness are facts, and are written', async () => {
    const { site, append } = await finishedBay()
    for (const decision of ['refused', 'waived'] as const) {
      const reasons = [{ reason: 'Ordered by the client' }]
      const body = { decision, covering: 'vinyl', verdictShown: 'not ready', reasons }
      expect((await append(entry(site, 'bay-decided', { at: morning + day, body }))).entries).toHaveLength(1)
    }
    const laid = entry(site, 'covering-laid', {
      at: morning + 40 * day,
      body: { on: '2026-12-12', covering: 'Vinyl' },
    })
    expect((await append(laid)).entries).toHaveLength(1)
  })

  it('GATE-6: correcting a refusal into an acceptance is refused the same way; a project that chose no points accepts', async () => {
    const { site, append } = await finishedBay()
    const body = {
      decision: 'refused',
      covering: 'vinyl',
      verdictShown: 'ready',
      reasons: [{ reason: 'Dust' }],
    }
    const refused = entry(site, 'bay-decided', { at: morning + 72 * day, body })
    await append(refused)
    const turned = () =>
      entry(site, 'bay-decided', { at: morning + 72 * day, corrects: refused.id as EntryId, reason: 'Swept' })
    await expect(append(turned())).rejects.toThrow(/cannot be accepted yet/)
    const project = entry(site, 'project-opened', {
      subject: site.project,
      corrects: site.project,
      reason: 'None agreed',
    })
    await append({ ...project, body: { ...project.body, holdPoints: [] } })
    expect((await append(turned())).entries).toHaveLength(1)
  })
})
