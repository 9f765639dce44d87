import { readFileSync, writeFileSync } from 'node:fs'
import { describe, expect, it, onTestFinished, vi } from 'vitest'
import { keepReminding } from '#electron/notifications.ts'
import { day, entry, hour, morning } from '#tests/db/site.ts'
import { openedWithSite } from '../api/opened.ts'
import { recorded } from './stand-in.ts'

vi.mock('electron', async () => await import('./stand-in.ts'))

const minute = 60_000
/** The site's clock shows 07:00 in London at `morning`; the bay is finished at 08:00 and lies open. */
async function reminded() {
  recorded.notified.length = 0
  const opened = await openedWithSite()
  const { client, site, time, services } = opened
  time.now = morning + 2 * hour
  await client.record.append({ entries: [entry(site, 'bay-finished', { at: morning + hour })] })
  const reminding = keepReminding(services)
  onTestFinished(reminding.stop)
  const lookAt = async (now: number) => {
    time.now = now
    await reminding.look()
    return recorded.notified.splice(0)
  }
  return { ...opened, lookAt }
}

describe('NOTIFY: reminders on the desktop', () => {
  it('NOTIFY-1: at 07:00 and 15:00 of the site, once each, and not between', async () => {
    const { lookAt } = await reminded()
    expect(await lookAt(morning + 7 * hour + 59 * minute)).toEqual([])
    expect(await lookAt(morning + 8 * hour)).toHaveLength(1)
    expect(await lookAt(morning + 8 * hour + minute)).toEqual([])
    expect(await lookAt(morning + day - minute)).toEqual([])
    expect(await lookAt(morning + day + 5 * minute)).toHaveLength(1)
  })

  it('NOTIFY-2: it names bays and acts, and nothing else of the record', async () => {
    const { lookAt, site } = await reminded()
    const [note] = await lookAt(morning + 8 * hour)
    expect(note!.title).toBe('Falls due')
    const lines = note!.body.split('\n')
    expect(lines).toContain('Bay B1: Lay the sheet')
    for (const line of lines) expect(line).toMatch(/^(Bay B\d: [A-Z][A-Za-z :,]+\d?|and \d+ more)$/)
    expect(lines.length).toBeLessThanOrEqual(6)
    expect(note!.body).not.toContain('Test hall')
    expect(note!.body).not.toContain(site.bay)
  })

  it('NOTIFY-3: a stop that begins is told once; one that stood already is not', async () => {
    const { lookAt, append, site } = await withFrost()
    expect(await lookAt(morning + 20 * hour)).toEqual([])
    await append(
      entry(site, 'screed-temperature-read', {
        at: morning + 20 * hour,
        body: { screedC: -3 },
        answers: [{ field: 'screedC', value: -3, answer: 'Read twice' }],
      }),
    )
    expect(await lookAt(morning + 20 * hour + 6 * minute)).toEqual([
      { title: 'Bay B1', body: 'Screed frozen early' },
    ])
    expect(await lookAt(morning + 20 * hour + 12 * minute)).toEqual([])
  })

  it('NOTIFY-4: switched off it says nothing; switched on again it does not shout what came meanwhile', async () => {
    const { lookAt, append, site, client } = await withFrost()
    await lookAt(morning + 19 * hour)
    expect(await client.host.setNotifications({ on: false })).toEqual({ on: false })
    await append(
      entry(site, 'screed-temperature-read', {
        at: morning + 20 * hour,
        body: { screedC: -3 },
        answers: [{ field: 'screedC', value: -3, answer: 'Read twice' }],
      }),
    )
    expect(await lookAt(morning + 20 * hour + 6 * minute)).toEqual([])
    expect(await lookAt(morning + day + minute)).toEqual([])
    await client.host.setNotifications({ on: true })
    expect(await lookAt(morning + day + 7 * minute)).toEqual([])
    expect((await lookAt(morning + day + 8 * hour)).map(({ title }) => title)).toEqual(['Falls due'])
  })

  it('NOTIFY-5: the switch is kept in the data folder; a file that is no settings counts as none', async () => {
    const { client, services, lookAt } = await reminded()
    const { settings } = services.folder
    await client.host.setNotifications({ on: false })
    expect(JSON.parse(readFileSync(settings, 'utf8'))).toEqual({ notifications: false })
    expect(await lookAt(morning + 8 * hour)).toEqual([])
    for (const broken of ['{', '{"notifications":"maybe"}', '']) {
      writeFileSync(settings, broken)
      expect((await lookAt(morning + 8 * hour)).length).toBeLessThanOrEqual(1)
    }
    expect(await lookAt(morning + day)).toHaveLength(1)
  })

  it('NOTIFY-6: in a browser there is no switch, because nothing reminds there', async () => {
    const { client } = await reminded()
    expect((await client.host.info()).notifications).toBeNull()
  })
})

async function withFrost() {
  const opened = await reminded()
  const append = (...entries: ReturnType<typeof entry>[]) => {
    opened.time.now = Math.max(opened.time.now, morning + 20 * hour)
    return opened.client.record.append({ entries })
  }
  // What is due at 15:00 is told before; from here on only stops are looked for.
  await opened.lookAt(morning + 8 * hour)
  return { ...opened, append }
}
