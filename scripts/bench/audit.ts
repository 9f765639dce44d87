import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { bayStory, closeRecord, openRecord, projectOutline, projectSummaries } from '#db/index.ts'
import { eachBay } from '#electron/api/each-bay.ts'
import { startWorkers } from '#electron/work/pool.ts'
import { auditOfBay } from '#model/audit/index.ts'
import type { BayId } from '#model/record/ids.ts'
import { rulesOfProject } from '#model/rules/index.ts'
import { makeDemo } from '../demo/make.ts'
import type { Measured } from './measure.ts'

const asOf = Date.UTC(2026, 10, 25, 14)
const bays = 1000
const goalMs = 50

/**
 * How long the audit of a big job keeps the host from other calls: the longest stretch between two turns of its thread, in
 * processor time, because other work on the machine lengthens every wait. The bays of the demonstration are read and audited
 * from nothing again and again; the yardstick is the whole work in one go, as a call without turns would do it.
 */
export default async function auditBench(): Promise<Measured[]> {
  const folder = mkdtempSync(join(tmpdir(), 'bayledger-bench-'))
  const file = join(folder, 'record.sqlite')
  await makeDemo(file, { now: asOf })
  const record = openRecord(file, { now: asOf, readOnly: true, skipLook: true })
  const workers = startWorkers()
  try {
    const project = projectSummaries(record.read)[0]!.id
    const ids = projectOutline(record.read, project).bays.map(({ id }) => id)
    const audit = (id: BayId) => {
      const story = bayStory(record.read, id)
      return auditOfBay(story, asOf, rulesOfProject(story.project.body))
    }
    for (const id of ids) audit(id)
    const many = Array.from({ length: bays }, (_, i) => ({ id: ids[i % ids.length]! }))
    const before = threadMs()
    for (const { id } of many) audit(id)
    const inOneGo = threadMs() - before
    const sheet = await longestStretch(() => eachBay(many, audit, undefined))
    const ask = () => workers.run('ask the record', { recordFile: file, project, asOf })
    await ask()
    const questions = await longestStretch(ask)
    const line = (name: string, measured: number): Measured => ({
      name,
      measured,
      unit: 'ms',
      yardstick: inOneGo,
      ratio: measured / inOneGo,
      goal: `≤ ${goalMs} ms of processor time`,
      met: measured <= goalMs,
    })
    return [
      line(`Longest stretch of the host’s thread while ${bays} bays are audited`, sheet),
      line(
        'Longest stretch of the host’s thread while a worker compares the bays of the demonstration',
        questions,
      ),
    ]
  } finally {
    await workers.close()
    closeRecord(record)
    rmSync(folder, { recursive: true, force: true })
  }
}

function threadMs(): number {
  const { user, system } = process.threadCpuUsage()
  return (user + system) / 1000
}

/** The most processor time that this thread spends between two turns while something goes on [ms]. */
async function longestStretch(work: () => Promise<unknown>): Promise<number> {
  let longest = 0
  let last = threadMs()
  let going = true
  const turn = () => {
    const now = threadMs()
    longest = Math.max(longest, now - last)
    last = now
    if (going) setImmediate(turn)
  }
  setImmediate(turn)
  await work()
  going = false
  turn()
  return longest
}
