import { bringFrozenBack } from '#db/backup-frozen.ts'
import { bringPhotosBack } from '#db/backup-photos.ts'
import { backUp, listBackups } from '#db/index.ts'
import { lastSeq } from '#db/queries/touched-since.ts'
import type { Services } from './services.ts'

const dayMs = 24 * 3_600_000
const lookEveryMs = 3_600_000
/** The first page comes first; who stops before that gets the backup while stopping. */
const firstLookAfterMs = 4_000

/**
 * Puts photos and frozen files back that are missing beside the record and stand beside the backups, as after a restore on another disk, and
 * makes a verified backup at every start and every hour after it, whenever the last one is older than a day. A record
 * without entries has nothing to lose; a record in recovery is left exactly as it is.
 */
export function keepBackupsFresh(services: Services): { stop: () => Promise<void> } {
  let running: Promise<void> | null = null
  const look = () => {
    running = (running ?? Promise.resolve())
      .then(() => backUpWhenOld(services))
      .catch((cause: unknown) => void services.log.keep('automatic backup', cause))
    return running
  }
  const first = setTimeout(look, firstLookAfterMs)
  const timer = setInterval(look, lookEveryMs)
  first.unref()
  timer.unref()
  return {
    stop: async () => {
      clearTimeout(first)
      clearInterval(timer)
      await (running ?? look())
    },
  }
}

async function backUpWhenOld({ record, folder, clock }: Services): Promise<void> {
  if (record.state().state !== 'open' || lastSeq(record.current().read) === 0) return
  const { read, write } = record.current()
  if (write !== null) {
    await bringPhotosBack(read, folder.backups)
    await bringFrozenBack(read, folder.backups)
  }
  const newest = listBackups(folder.backups)[0]
  const now = clock()
  // A backup from the future tells of a clock that was set back; it does not count as fresh.
  const ageMs = newest === undefined ? Number.POSITIVE_INFINITY : Math.abs(now - Date.parse(newest.at))
  if (ageMs > dayMs) await backUp(record.current(), folder.backups, now)
}
