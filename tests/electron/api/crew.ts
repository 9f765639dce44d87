import { createRouterClient } from '@orpc/server'
import { onTestFinished } from 'vitest'
import { appendEntries } from '#db/index.ts'
import { router } from '#electron/api/router.ts'
import { startUp } from '#electron/start-up.ts'
import { type CheckedEntry, newEntry } from '#model/record/entry.ts'
import type { PersonId, ProjectId } from '#model/record/ids.ts'
import type { KindName } from '#model/record/kinds.ts'
import type { Role } from '#model/record/people.ts'
import { entry, hour, morning, type Noting, newSite, nextId, opening, type Site } from '#tests/db/site.ts'
import { tempFolder } from '../temp-folder.ts'

/** scrypt at a cost at which a test need not wait; the usual cost is measured by a test of its own. */
const quickCost = 2 ** 10

/** Bayledger on a folder, with both of its clocks in the hand of the test. */
export async function openedTimed(data: string, time: { now: number; elapsed: number }) {
  const { services, stop } = await startUp({
    host: 'browser',
    version: '0.1.0',
    data,
    clock: () => time.now,
    elapsed: () => time.elapsed,
    pinCost: quickCost,
  })
  onTestFinished(stop)
  return { services, stop, client: createRouterClient(router, { context: services }) }
}

export type Crew = Record<Role | 'second manager', PersonId>

/** A site with one person of each role and a second quality manager; the supervisor opened the project. */
export async function openedWithCrew() {
  const data = tempFolder()
  const time = { now: morning + 90 * 24 * hour, elapsed: 0 }
  const opened = await openedTimed(data, time)
  const site = newSite()
  const crew: Crew = {
    supervisor: site.person as PersonId,
    'quality manager': nextId<'person'>(),
    'flooring contractor': nextId<'person'>(),
    tester: nextId<'person'>(),
    viewer: nextId<'person'>(),
    'second manager': nextId<'person'>(),
  }
  appendEntries(opened.services.record.current(), [...opening(site), ...joining(site, crew)], {
    recordedAt: morning,
  })
  return {
    ...opened,
    data,
    time,
    site,
    crew,
    project: site.project as ProjectId,
    /** Writes entries of these kinds in the name of a person. */
    write: (who: keyof Crew, ...noted: [kind: KindName, noting?: Noting][]) =>
      opened.client.record.append({
        entries: noted.map(([kind, noting]) => inName(entry(site, kind, noting), crew[who])),
      }),
  }
}

export function inName(one: CheckedEntry, person: string): CheckedEntry {
  return newEntry.parse({ ...one, person })
}

function joining(site: Site, crew: Crew): CheckedEntry[] {
  const others = Object.entries(crew).filter(([, id]) => (id as string) !== site.person)
  return others.map(([who, id]) =>
    entry(site, 'person-added', {
      id,
      body: { name: `The ${who}`, role: who === 'second manager' ? 'quality manager' : who },
    }),
  )
}
