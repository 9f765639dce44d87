import { parentPort } from 'node:worker_threads'
import { type Job, type JobName, jobs } from './jobs.ts'
import { type Answered, type Asked, failureOf } from './messages.ts'

/** The inside of a worker thread: one job at a time, its progress at most every 50 ms. */
const port = parentPort
if (port === null) throw new Error('electron/work/worker.ts runs only as a worker thread.')
const answer = (message: Answered) => port.postMessage(message)

const progressEveryMs = 50

port.on('message', async ({ job, input }: Asked) => {
  let toldAt = Number.NEGATIVE_INFINITY
  const report = (done: number, of: number) => {
    const now = performance.now()
    if (now - toldAt < progressEveryMs && done < of) return
    toldAt = now
    answer({ kind: 'progress', done, of })
  }
  try {
    const run = (await jobs[job]()) as Job<JobName>
    answer({ kind: 'done', output: await run(input, report) })
  } catch (thrown) {
    answer({ kind: 'failed', failure: failureOf(thrown) })
  }
})
