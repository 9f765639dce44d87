import type { HostInfo } from '#model/contract/index.ts'
import type { DataFolder } from '../data-folder/place.ts'
import { type Log, openLog } from '../log.ts'
import { startWorkers, type Workers } from '../work/pool.ts'
import { type BayWatch, watchBays } from './bay-watch.ts'
import { openPins, type Pins } from './pins.ts'
import { holdRecord, type RecordHolder } from './record-holder.ts'
import { openUploads, type Uploads } from './uploads.ts'

/** All that the calls need. It is made once a start and handed to every call as its context. */
export interface Services {
  host: HostInfo['host']
  version: string
  demo: boolean
  folder: DataFolder
  /** Epoch milliseconds. The only clock of the program: what is recorded carries its time. */
  clock: () => number
  record: RecordHolder
  pins: Pins
  watch: BayWatch
  workers: Workers
  uploads: Uploads
  log: Log
}

interface ServiceOptions {
  host: HostInfo['host']
  version: string
  folder: DataFolder
  demo?: boolean
  clock?: () => number
  /** Milliseconds that have passed since any moment; with it, waits after wrong PINs are measured. */
  elapsed?: () => number
  /** scrypt's N for new PINs. Only tests lower it. */
  pinCost?: number
}

/** Opens everything that a data folder holds. The folder must have been taken with `takeFolder` before. */
export async function openServices(options: ServiceOptions): Promise<Services> {
  const { host, version, folder, demo = false, clock = Date.now, elapsed, pinCost } = options
  const log = openLog(folder.logs, clock)
  const record = holdRecord(folder, clock())
  return {
    host,
    version,
    demo,
    folder,
    clock,
    log,
    record,
    pins: openPins({ file: folder.pins, elapsed, cost: pinCost }),
    watch: watchBays(record, clock),
    workers: startWorkers(),
    uploads: await openUploads({ folder: folder.uploads }),
  }
}

/** Stops the work, removes what was only staged, and closes the record last: its log is folded into the file. */
export async function closeServices({ workers, uploads, record, pins }: Services): Promise<void> {
  pins.close()
  await workers.close()
  await uploads.close()
  record.close()
}
