import { describe, expect, it } from 'vitest'
import { freshForMs } from '#electron/api/bay-watch.ts'
import type { BayId, EntryId, ProjectId } from '#model/record/ids.ts'
import { day, entry, hour, morning, type Site } from '#tests/db/site.ts'
import { openedWithSite } from './opened.ts'

async function watching() {
  const opened = await openedWithSite()
  const { site, client, services } = opened
  opened.time.now = morning + 2 * day
  return {
    ...opened,
    bay: site.bay as BayId,
    otherBay: site.otherBay as BayId,
    append: (...entries: ReturnType<typeof entry>[]) => client.record.append({ entries }),
    now: (bay: string) => services.watch.now(bay as BayId),
  }
}

const finished = (site: Site, bay: string) =>
  entry(site, 'bay-finished', { subject: bay, at: morning + hour })

describe('bays are worked out once', () => {
  it('WATCH-1: a bay about which nothing was written is not worked out again', async () => {
    const { bay, now } = await watching()
    const first = now(bay)
    expect(now(bay)).toBe(first)
    expect(now(bay).alerts()).toBe(first.alerts())
  })

  it('WATCH-2: a new entry works out its own bay again and leaves the others', async () => {
    const { site, bay, otherBay, append, now } = await watching()
    const [first, other] = [now(bay), now(otherBay)]
    await append(finished(site, bay))
    expect(now(bay)).not.toBe(first)
    expect(now(bay).story.entries.map(({ kind }) => kind)).toContain('bay-finished')
    expect(now(otherBay)).toBe(other)
  })

  it.each([
    ['zone-added', 'zone'],
    ['project-opened', 'project'],
    ['bay-planned', 'otherBay'],
  ] as const)('WATCH-3: a correction of %s reaches every bay of the project', async (kind, about) => {
    const { site, bay, otherBay, append, now } = await watching()
    const before = [now(bay), now(otherBay)]
    const changed = entry(site, kind, { subject: site[about], corrects: site[about], reason: 'Misread' })
    const name = kind === 'project-opened' ? 'Renamed hall' : 'Renamed'
    await append({ ...changed, body: { ...changed.body, name } })
    expect(now(bay)).not.toBe(before[0])
    expect(now(otherBay)).not.toBe(before[1])
  })

  it('WATCH-4: a correction and a withdrawal of a bay’s own entry are seen', async () => {
    const { site, bay, append, now } = await watching()
    const noted = finished(site, bay)
    await append(noted)
    expect(now(bay).story.entries.find(({ id }) => id === noted.id)?.withdrawn).toBe(false)
    await append(
      entry(site, 'entry-withdrawn', {
        subject: bay,
        corrects: noted.id,
        reason: 'Wrong bay',
        at: morning + 2 * hour,
      }),
    )
    expect(now(bay).story.entries.find(({ id }) => id === noted.id)?.withdrawn).toBe(true)
  })

  it('WATCH-5: what depends on the clock is worked out again when time has passed, or was set back', async () => {
    const { bay, now, time } = await watching()
    const first = now(bay)
    time.now += freshForMs - 1
    expect(now(bay)).toBe(first)
    time.now += 1
    const later = now(bay)
    expect(later).not.toBe(first)
    expect(later.asOf).toBe(first.asOf + freshForMs)
    expect(later.story).toBe(first.story)
    time.now -= hour
    expect(now(bay).asOf).toBe(later.asOf - hour)
  })

  it('WATCH-6: a bay as it stood at a past instant knows nothing of what came after', async () => {
    const { site, bay, append, client } = await watching()
    await append(finished(site, bay))
    const before = await client.bays.life({ bay, asOf: new Date(morning).toISOString() })
    expect(before.story.entries.map(({ kind }) => kind)).not.toContain('bay-finished')
    expect(before.state.word).toBe('planned')
    const after = await client.bays.life({ bay })
    expect(after.state.word).not.toBe('planned')
  })

  it('WATCH-7: outline, Today and the page of a bay tell the same state', async () => {
    const { site, bay, append, client } = await watching()
    await append(finished(site, bay))
    const outline = await client.projects.outline({ project: site.project as ProjectId })
    const life = await client.bays.life({ bay })
    expect(outline.bays.map(({ id }) => id).sort()).toEqual([site.bay, site.otherBay].sort())
    expect(outline.bays.find(({ id }) => id === bay)?.state).toEqual(life.state)
    const today = await client.projects.today({ project: site.project as ProjectId })
    expect(Date.parse(today.at)).toBe(morning + 2 * day)
    expect(today.lines.find((line) => line.bay === bay)?.bayName).toBe('B1')
  })

  it('WATCH-8: the time of recording is the host’s, whatever the page thinks', async () => {
    const { site, bay, append, client, time } = await watching()
    const noted = finished(site, bay)
    const { entries } = await append(noted)
    expect(entries[0]?.recordedAt).toBe(new Date(time.now).toISOString())
    const { versions } = await client.record.history({ entry: noted.id as EntryId })
    expect(versions.map(({ recordedAt }) => recordedAt)).toEqual([time.now])
  })
})
