import { availableParallelism } from 'node:os'
import { extname } from 'node:path'
import { fileURLToPath } from 'node:url'
import { Worker } from 'node:worker_threads'
import { backgroundJobs, type JobInput, type JobName, type JobOutput, type Report } from './jobs.ts'
import { type Answered, errorOf } from './messages.ts'

export interface RunOptions {
  signal?: AbortSignal | undefined
  onProgress?: Report | undefined
}

export interface Workers {
  /**
   * Runs a job on a worker thread.
   * @throws what the job throws; the signal's reason when it is aborted, which stops the thread at once; WorkerCrash
   * when the thread dies. A fresh thread takes its place.
   */
  run: <K extends JobName>(job: K, input: JobInput<K>, options?: RunOptions) => Promise<JobOutput<K>>
  close: () => Promise<void>
}

/** The thread of a job died: out of memory, or an error outside the job. The cause says which. */
export class WorkerCrash extends Error {
  readonly code = 'worker-crash' as const
  constructor(job: JobName, cause: unknown) {
    super(`The worker thread stopped during “${job}”.`, { cause })
    this.name = 'WorkerCrash'
  }
}

interface Task {
  job: JobName
  input: unknown
  onProgress: Report | undefined
  settle: (end: { output: unknown } | { error: unknown }) => void
}

interface Seat {
  worker: Worker
  task: Task | null
}

interface PoolOptions {
  size?: number
  /** The worker's file; beside this one unless said, with the same ending: `.ts` from the sources, `.js` when built. */
  workerFile?: string
  /** More than any job needs; beyond it the thread dies, and as a rule not the program. */
  mostMemoryMb?: number
}

/** Starts a pool of worker threads; each is made when first needed and kept. */
export function startWorkers(options: PoolOptions = {}): Workers {
  const { size = Math.max(2, Math.min(4, availableParallelism() - 1)), mostMemoryMb = 1536 } = options
  const workerFile = options.workerFile ?? besideThisFile()
  const seats = new Set<Seat>()
  const waiting: Task[] = []
  let closed = false

  const takeSeat = (): Seat | null => {
    for (const seat of seats) if (seat.task === null) return seat
    if (seats.size >= size) return null
    const worker = new Worker(workerFile, {
      execArgv: [],
      resourceLimits: { maxOldGenerationSizeMb: mostMemoryMb },
    })
    const seat: Seat = { worker, task: null }
    seats.add(seat)
    const crash = (cause: unknown) => leave(seat, (task) => ({ error: new WorkerCrash(task.job, cause) }))
    worker.on('message', (message: Answered) => hear(seat, message))
    worker.on('error', crash)
    worker.on('messageerror', crash)
    worker.on('exit', (code) => crash(new Error(`It ended with code ${code}.`)))
    return seat
  }

  /** Removes a seat whose thread is gone, and ends its task. */
  const leave = (seat: Seat, endOf: (task: Task) => { error: unknown }) => {
    if (!seats.delete(seat)) return
    const { task } = seat
    seat.task = null
    task?.settle(endOf(task))
    void seat.worker.terminate()
    startNext()
  }

  const hear = (seat: Seat, message: Answered) => {
    const { task } = seat
    if (task === null) return
    if (message.kind === 'progress') return task.onProgress?.(message.done, message.of)
    seat.task = null
    // An idle thread does not keep a script from ending.
    seat.worker.unref()
    task.settle(message.kind === 'done' ? message : { error: errorOf(message.failure) })
    startNext()
  }

  const startNext = () => {
    for (let i = 0; i < waiting.length; i++) {
      const task = waiting[i]!
      if (backgroundJobs.has(task.job) && backgroundRunning() >= Math.max(1, size - 1)) continue
      const seat = takeSeat()
      if (seat === null) return
      waiting.splice(i--, 1)
      seat.task = task
      seat.worker.ref()
      seat.worker.postMessage({ job: task.job, input: task.input })
    }
  }

  const backgroundRunning = () =>
    [...seats].filter(({ task }) => task !== null && backgroundJobs.has(task.job)).length

  const run = <K extends JobName>(job: K, input: JobInput<K>, { signal, onProgress }: RunOptions = {}) =>
    new Promise<JobOutput<K>>((resolve, reject) => {
      if (closed) throw new Error(`The workers are closed; “${job}” is not done.`)
      signal?.throwIfAborted()
      const task: Task = {
        job,
        input,
        onProgress,
        settle: (end) => {
          signal?.removeEventListener('abort', abort)
          if ('error' in end) reject(end.error)
          else resolve(end.output as JobOutput<K>)
        },
      }
      const abort = () => {
        const place = waiting.indexOf(task)
        if (place !== -1) {
          waiting.splice(place, 1)
          return task.settle({ error: signal?.reason })
        }
        // A long calculation cannot be asked to stop; its thread can.
        const seat = [...seats].find((one) => one.task === task)
        if (seat !== undefined) leave(seat, () => ({ error: signal?.reason }))
      }
      signal?.addEventListener('abort', abort)
      waiting.push(task)
      startNext()
    })

  const close = async () => {
    closed = true
    for (const task of waiting.splice(0)) task.settle({ error: closing(task.job) })
    const threads = [...seats].map(({ worker }) => worker)
    for (const seat of [...seats]) leave(seat, (task) => ({ error: closing(task.job) }))
    await Promise.all(threads.map((worker) => worker.terminate()))
  }
  return { run, close }
}

function closing(job: JobName): Error {
  return new Error(`The program is closing; “${job}” was stopped.`)
}

function besideThisFile(): string {
  const ending = extname(fileURLToPath(import.meta.url))
  return fileURLToPath(new URL(`./worker${ending}`, import.meta.url))
}
