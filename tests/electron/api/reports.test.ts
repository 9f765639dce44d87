import { describe, expect, it } from 'vitest'
import type { ProjectId } from '#model/record/ids.ts'
import { day, entry, hour, morning } from '#tests/db/site.ts'
import { instantOf, only, readCalendar, textOf } from '../reports/read-calendar.ts'
import { openedWithSite } from './opened.ts'

async function laidSite() {
  const opened = await openedWithSite()
  const { client, site, time } = opened
  time.now = morning + 3 * hour
  await client.record.append({ entries: [entry(site, 'bay-finished', { at: morning + hour })] })
  return { ...opened, project: site.project as ProjectId }
}

describe('what falls due, by the calls', () => {
  it('REPORT-1: the calendar file holds the acts of the laid bay and can be read back', async () => {
    const { client, project } = await laidSite()
    const { text, events } = await client.reports.calendar({ project })
    const { inside } = readCalendar(text)
    expect(inside).toHaveLength(events)
    const summaries = inside.map((event) => textOf(event, 'SUMMARY'))
    expect(summaries).toContain('Bay B1: Read air and screed')
    expect(summaries).toContain('Bay B1: Lay the sheet')
    expect(summaries).toContain('Bay B1: Hold point: soundness')
    for (const event of inside.filter((one) => !textOf(one, 'SUMMARY').startsWith('Estimate')))
      expect(instantOf(event, 'DTSTART')).toBeLessThan(morning + 62 * day)
    const again = readCalendar((await client.reports.calendar({ project })).text)
    expect(again.inside.map((event) => only(event, 'UID'))).toEqual(inside.map((event) => only(event, 'UID')))
    expect(new Set(inside.map((event) => only(event, 'UID'))).size).toBe(inside.length)
  })

  it('REPORT-2: Today names what comes tomorrow, and not what is due today', async () => {
    const { client, project } = await laidSite()
    const { ahead } = await client.projects.today({ project })
    expect(ahead.length).toBeGreaterThan(0)
    const midnight = Date.parse('2026-11-03T00:00:00Z')
    for (const { about, at } of ahead.filter((one) => one.about === 'bay'))
      expect([about, at >= midnight && at < midnight + day]).toEqual(['bay', true])
    expect(ahead.filter(({ what }) => what === 'Read air and screed')).toHaveLength(2)
  })

  it('REPORT-3: two bays are too few to say that a rule is the question', async () => {
    const { client, project } = await laidSite()
    expect((await client.projects.tuning({ project })).items).toEqual([])
  })
})
