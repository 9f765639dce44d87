import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { closeRecord } from '#db/index.ts'
import { startWorkers, WorkerCrash, type Workers } from '#electron/work/pool.ts'
import { InputError } from '#model/errors.ts'
import { plain, readingOf } from '../imports/dialects.ts'
import { oneBay } from '../one-bay.ts'

let folder: string
let workers: Workers
let site: ReturnType<typeof oneBay>
const now = Date.UTC(2026, 10, 25)

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'bayledger-work-'))
  site = oneBay(folder)
})
afterEach(async () => {
  await workers.close()
  closeRecord(site.record)
  rmSync(folder, { recursive: true })
})

function loggerFile(rows: number): string {
  const path = join(folder, `${rows}.csv`)
  const lines = Array.from({ length: rows }, (_, i) => {
    const time = new Date(Date.UTC(2026, 0, 1) + i * 60_000).toISOString().slice(0, 19)
    return `${time},${(15 + (i % 80) / 10).toFixed(1)},${50 + (i % 40)}`
  })
  writeFileSync(path, `Time,Temperature (°C),RH (%)\n${lines.join('\n')}\n`)
  return path
}
const reading = { ...readingOf(plain), timeZone: 'UTC' }
const job = (path: string) => ({ recordFile: site.file, bay: site.bay, path, reading, now })

/**
 * The longest stretch of work [ms of its own processor time] that this thread did between two looks of a timer. Not
 * wall-clock time: that would also count how busy the machine is with other things.
 */
async function longestHoldUp(work: () => Promise<unknown>): Promise<number> {
  let longest = 0
  let last = process.threadCpuUsage()
  const look = () => {
    const { user, system } = process.threadCpuUsage(last)
    longest = Math.max(longest, (user + system) / 1000)
    last = process.threadCpuUsage()
  }
  const tick = setInterval(look, 2)
  await work()
  look()
  clearInterval(tick)
  return longest
}

/** A worker of this test's own making, to die in ways that ours does not. */
function startOdd(body: string): Workers {
  const workerFile = join(folder, 'odd-worker.mjs')
  writeFileSync(workerFile, `import { parentPort } from 'node:worker_threads'\n${body}\n`)
  return startWorkers({ size: 1, workerFile })
}

describe('worker threads', () => {
  it('WRK-1: a job runs on a thread, tells its progress and gives its answer', async () => {
    workers = startWorkers({ size: 1 })
    const told: number[] = []
    const check = await workers.run('check logger file', job(loggerFile(60_000)), {
      onProgress: (done, of) => told.push(done / of),
    })
    expect(check).toMatchObject({ rows: 60_000, good: 60_000 })
    expect(told.at(-1)).toBe(1)
    expect(told).toEqual(told.toSorted((a, b) => a - b))
  })

  it('WRK-2: the main thread is never held up while a file is read', async () => {
    workers = startWorkers({ size: 1 })
    const input = job(loggerFile(100_000))
    await workers.run('guess logger file', { path: input.path, bytes: 1, timeZone: 'UTC' })
    const blocked = await longestHoldUp(async () => {
      const start = process.threadCpuUsage()
      while (process.threadCpuUsage(start).user < 200_000);
    })
    expect(blocked).toBeGreaterThanOrEqual(200)
    // What the job itself costs comes back each time; a collection of the garbage of making the file does not.
    const held: number[] = []
    for (let i = 0; i < 3; i++) held.push(await longestHoldUp(() => workers.run('check logger file', input)))
    expect(Math.min(...held)).toBeLessThan(50)
  }, 120_000)

  it('WRK-3: an error of the job arrives with its kind and field, and the thread goes on', async () => {
    workers = startWorkers({ size: 1 })
    const path = loggerFile(3)
    const bad = { ...reading, timeZone: 'Nowhere' }
    const thrown = await workers
      .run('check logger file', { ...job(path), reading: bad })
      .catch((error: unknown) => error)
    expect(thrown).toBeInstanceOf(InputError)
    expect((thrown as InputError).field).toBe('reading.timeZone')
    const missing = await workers
      .run('check logger file', job(join(folder, 'no.csv')))
      .catch((error: unknown) => error)
    expect(missing).toMatchObject({ code: 'ENOENT' })
    const again = await workers.run('check logger file', job(path))
    expect(again.good).toBe(3)
  })

  it('WRK-4: a thread that dies rejects its job with the cause, and a fresh one takes the next', async () => {
    workers = startOdd(`
      parentPort.on('message', ({ input }) => {
        if (input.die === 'throw') setTimeout(() => { throw new Error('out of the blue') })
        else if (input.die === 'exit') process.exit(7)
        else parentPort.postMessage({ kind: 'done', output: 'alive' })
      })`)
    const ask = (die: string | null) =>
      workers.run('guess logger file', { die } as never).catch((error: unknown) => error)
    for (const [die, cause] of [
      ['throw', /out of the blue/],
      ['exit', /ended with code 7/],
    ] as const) {
      const thrown = await ask(die)
      expect(thrown).toBeInstanceOf(WorkerCrash)
      expect(String((thrown as WorkerCrash).cause)).toMatch(cause)
      expect(await ask(null)).toBe('alive')
    }
  })

  it('WRK-5: a job out of memory loses its thread and not the program', async () => {
    // Many small things: V8 ends the whole program, and not the thread, when one great array cannot grow.
    const workerFile = join(folder, 'greedy.mjs')
    writeFileSync(
      workerFile,
      `import { parentPort } from 'node:worker_threads'
       parentPort.on('message', () => { let chain = null; for (;;) chain = { chain, link: [1, 2, 3] } })`,
    )
    workers = startWorkers({ size: 1, workerFile, mostMemoryMb: 32 })
    const thrown = await workers.run('guess logger file', {} as never).catch((error: unknown) => error)
    expect(thrown).toBeInstanceOf(WorkerCrash)
    expect((thrown as WorkerCrash).cause).toMatchObject({ code: 'ERR_WORKER_OUT_OF_MEMORY' })
  })

  it('WRK-6: stopping ends a calculation that never looks up, and a waiting job that never began', async () => {
    workers = startOdd(`
      parentPort.on('message', ({ input }) => {
        if (input.forever) for (;;);
        parentPort.postMessage({ kind: 'done', output: 'alive' })
      })`)
    const stop = new AbortController()
    const running = workers.run('guess logger file', { forever: true } as never, { signal: stop.signal })
    const waiting = workers.run('guess logger file', { forever: true } as never, { signal: stop.signal })
    const next = workers.run('guess logger file', {} as never)
    setTimeout(() => stop.abort(new Error('not needed any more')), 100)
    await expect(running).rejects.toThrow('not needed any more')
    await expect(waiting).rejects.toThrow('not needed any more')
    await expect(next).resolves.toBe('alive')
    await expect(workers.run('guess logger file', {} as never, { signal: stop.signal })).rejects.toThrow(
      'not needed any more',
    )
  })

  it('WRK-7: closing ends what runs and what waits, and refuses what comes after', async () => {
    workers = startOdd(`parentPort.on('message', () => { for (;;); })`)
    const running = workers.run('guess logger file', {} as never)
    const waiting = workers.run('guess logger file', {} as never)
    const ends = Promise.allSettled([running, waiting])
    await workers.close()
    for (const end of await ends) {
      expect(end).toMatchObject({ status: 'rejected', reason: { message: /program is closing/ } })
    }
    await expect(workers.run('guess logger file', {} as never)).rejects.toThrow(/are closed/)
  })

  it('WRK-8: many jobs share few threads and every one gets its own answer', async () => {
    workers = startWorkers({ size: 2 })
    const counts = [3, 50, 700, 11, 1, 99, 20, 8]
    const answers = await Promise.all(
      counts.map((rows) => workers.run('check logger file', job(loggerFile(rows)))),
    )
    expect(answers.map(({ rows }) => rows)).toEqual(counts)
  })
})
