import { appendEntries } from '#db/index.ts'
import { type CheckedEntry, newEntry, type StoryEntry } from '#model/record/entry.ts'

import { entry, hour, iso, newSite, nextId, type Site } from '#tests/db/site.ts'
import { now, readyBay, t0 } from '#tests/model/readiness/ready-bay.ts'
import { opened } from './opened.ts'

const beforehand = t0 - 30 * 24 * hour

/**
 * Bayledger with one unheated bay on which everything was done and written down as it should be, at the moment at which
 * it is READY for vinyl. Another supervisor laid and tested it, so that the site's person may let it go.
 */
export async function openedWithReadyBay(changes: Parameters<typeof readyBay>[0] = {}) {
  const started = await opened()
  started.time.now = now
  const site = newSite()
  appendEntries(started.services.record.current(), entriesOfReadyBay(site, changes), { recordedAt: now })
  return { ...started, site }
}

function entriesOfReadyBay(site: Site, changes: Parameters<typeof readyBay>[0]): CheckedEntry[] {
  // The record keeps a logger's readings as a file; here the same temperatures are read by hand, every two hours.
  const builder = readyBay({ ...changes, without: [...(changes?.without ?? []), 'temperature'] })
  for (let at = t0 - 2 * hour; at < t0 + 10 * 24 * hour; at += 2 * hour) builder.screedC(at, 16)
  const story = builder.build()
  const maker = nextId()
  const before = { at: beforehand }
  return [
    entry(site, 'project-opened', { ...before, id: site.project, body: { ...story.project.body } }),
    entry(site, 'person-added', { ...before, id: site.person }),
    entry(site, 'person-added', { ...before, id: maker, body: { name: 'Who laid it', role: 'supervisor' } }),
    entry(site, 'floor-added', { ...before, id: site.floor, body: { ...story.floor.body } }),
    entry(site, 'zone-added', {
      ...before,
      id: site.zone,
      body: { ...story.zone.body, floor: site.floor },
    }),
    entry(site, 'bay-planned', { ...before, id: site.bay, body: { ...story.bay.body, zone: site.zone } }),
    ...story.entries.map((noted) => written(site, maker, noted, story.bay.id)),
  ]
}

/** A fact of the story as an entry of this site, with the same id, so that what points at it still does. */
function written(site: Site, maker: string, noted: StoryEntry, bay: string): CheckedEntry {
  const { id, kind, happenedAt, subject, body } = noted
  return newEntry.parse({
    ...entry(site, kind, {
      id,
      subject: subject === bay ? site.bay : subject,
      at: happenedAt,
      body: { ...body },
    }),
    person: maker,
    happenedAt: iso(happenedAt),
  })
}
