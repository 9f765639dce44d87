import { backUp, listBackups } from '#db/index.ts'
import { lastSeq } from '#db/queries/touched-since.ts'
import type { Services } from './services.ts'

const dayMs = 24 * 3_600_000
const lookEveryMs = 3_600_000

/**
 * Makes a verified backup now and then every hour looks again, whenever the last one is older than a day. A record
 * without entries has nothing to lose; a record in recovery is left exactly as it is.
 */
export function keepBackupsFresh(services: Services): { stop: () => Promise<void> } {
  let running = Promise.resolve()
  const look = () => {
    running = running
      .then(() => backUpWhenOld(services))
      .catch((cause: unknown) => void services.log.keep('automatic backup', cause))
  }
  look()
  const timer = setInterval(look, lookEveryMs)
  timer.unref()
  return {
    stop: () => {
      clearInterval(timer)
      return running
    },
  }
}

async function backUpWhenOld({ record, folder, clock }: Services): Promise<void> {
  if (record.state().state !== 'open' || lastSeq(record.current().read) === 0) return
  const newest = listBackups(folder.backups)[0]
  const now = clock()
  // A backup from the future tells of a clock that was set back; it does not count as fresh.
  const ageMs = newest === undefined ? Number.POSITIVE_INFINITY : Math.abs(now - Date.parse(newest.at))
  if (ageMs > dayMs) await backUp(record.current(), folder.backups, now)
}
