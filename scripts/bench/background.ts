import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import {
  bayStory,
  closeRecord,
  openRecord,
  projectOutline,
  projectSummaries,
  type RecordFile,
} from '#db/index.ts'
import { startWorkers } from '#electron/work/pool.ts'
import { entriesOf } from '#model/record/story.ts'
import { makeDemo } from '../demo/make.ts'
import type { Measured } from './measure.ts'

const count = 500
const goalS = 90
const goalWaitMs = 50
const betweenCallsMs = 20

/**
 * Foretells 500 bays on the worker threads while a screen goes on asking the host for the outline of its project.
 * A call's wait is what it takes beyond the moment at which it was due.
 */
export default async function background(): Promise<Measured[]> {
  const folder = mkdtempSync(join(tmpdir(), 'bayledger-bench-'))
  const file = join(folder, 'record.sqlite')
  const now = Date.now()
  await makeDemo(file, { now })
  const record = openRecord(file, { now, readOnly: true })
  const workers = startWorkers()
  try {
    const bays = laidBays(record)
    const ask = (bay: (typeof bays)[number]) =>
      workers.run('forecast bay', { recordFile: file, bay, asOf: now })
    // Threads are made when first needed; what they load is not what is measured.
    await Promise.all([ask(bays[0]!), ask(bays[1]!)])
    const alone = await waits(record, () => sleep(3000))
    let seconds = 0
    const beside = await waits(record, async () => {
      const startedAt = performance.now()
      await Promise.all(Array.from({ length: count }, (_, i) => ask(bays[i % bays.length]!)))
      seconds = (performance.now() - startedAt) / 1000
    })
    return [
      {
        name: `${count} bays foretold in the background`,
        measured: seconds,
        unit: 's',
        yardstick: null,
        ratio: null,
        goal: `≤ ${goalS} s`,
        met: seconds <= goalS,
      },
      {
        name: 'longest wait of a call meanwhile, against the longest with nothing in the background',
        measured: beside,
        unit: 'ms',
        yardstick: alone,
        ratio: beside / alone,
        goal: `≤ ${goalWaitMs} ms`,
        met: beside <= goalWaitMs,
      },
    ]
  } finally {
    await workers.close()
    closeRecord(record)
    rmSync(folder, { recursive: true, force: true })
  }
}

/** The bays that were laid: the others have nothing to foretell. */
function laidBays(record: RecordFile) {
  const [project] = projectSummaries(record.read)
  return projectOutline(record.read, project!.id)!
    .bays.map(({ id }) => id)
    .filter((bay) => entriesOf(bayStory(record.read, bay)!, 'bay-finished').length > 0)
}

/** The longest that a small call waited while the work went on [ms]. */
async function waits(record: RecordFile, work: () => Promise<unknown>): Promise<number> {
  const [project] = projectSummaries(record.read)
  let working = true
  const worked = work().finally(() => {
    working = false
  })
  let longest = 0
  while (working) {
    const due = performance.now() + betweenCallsMs
    await sleep(betweenCallsMs)
    projectOutline(record.read, project!.id)
    longest = Math.max(longest, performance.now() - due)
  }
  await worked
  return longest
}
