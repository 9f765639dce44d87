import type { HostInfo } from '#model/contract/index.ts'
import { keepBackupsFresh } from './api/fresh-backup.ts'
import { closeServices, openServices, type Services } from './api/services.ts'
import { warmWatch } from './api/warm-watch.ts'
import { takeFolder } from './data-folder/lock.ts'
import { dataFolderAt } from './data-folder/place.ts'

export interface StartedUp {
  services: Services
  /** Closes everything in order and gives the folder back; safe to call twice. */
  stop: () => Promise<void>
}

interface StartUpOptions {
  host: HostInfo['host']
  version: string
  /** Path of the data folder; it is made when it is not there. */
  data: string
  demo?: boolean
  clock?: () => number
  elapsed?: () => number
  pinCost?: number
}

/**
 * Takes a data folder and opens what it holds: the same for the shell and for the browser host.
 * @throws FolderInUse when another Bayledger works in the folder.
 */
export async function startUp({ data, clock = Date.now, ...options }: StartUpOptions): Promise<StartedUp> {
  const folder = dataFolderAt(data)
  const giveBack = takeFolder(folder.lock, clock())
  try {
    const services = await openServices({ ...options, folder, clock })
    const backups = keepBackupsFresh(services)
    const warming = warmWatch(services)
    let stopping: Promise<void> | null = null
    const stop = async () => {
      warming.stop()
      await backups.stop()
      try {
        await closeServices(services)
      } finally {
        giveBack()
      }
    }
    return {
      services,
      stop: () => {
        stopping ??= stop()
        return stopping
      },
    }
  } catch (cause) {
    giveBack()
    throw cause
  }
}
