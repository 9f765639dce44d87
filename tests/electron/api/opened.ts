import { createRouterClient } from '@orpc/server'
import { onTestFinished } from 'vitest'
import { appendEntries } from '#db/index.ts'
import { router } from '#electron/api/router.ts'
import { startUp } from '#electron/start-up.ts'
import { morning, newSite, opening } from '#tests/db/site.ts'
import { tempFolder } from '../temp-folder.ts'

/** Bayledger on a folder, with a clock that the test sets, and a client without a host between. */
export async function opened(data = tempFolder()) {
  const time = { now: morning }
  const { services, stop } = await startUp({ host: 'browser', version: '0.1.0', data, clock: () => time.now })
  onTestFinished(stop)
  return { data, time, services, stop, client: createRouterClient(router, { context: services }) }
}

/** The same with a small site in its record: one zone, two bays, one instrument. */
export async function openedWithSite() {
  const started = await opened()
  const site = newSite()
  appendEntries(started.services.record.current(), opening(site), { recordedAt: morning })
  return { ...started, site }
}
