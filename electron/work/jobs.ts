import type { CheckedFile } from '#electron/imports/check.ts'
import type { KnownSeries } from '#electron/imports/overlap.ts'
import type { LoggerGuess } from '#electron/imports/preview.ts'
import type { LoggerReading } from '#model/contract/logger-file.ts'

interface LoggerFileInput {
  path: string
  reading: LoggerReading
  /** What the record holds already of this bay. */
  record: KnownSeries[]
  now: number
}

/** What can be done off the main thread: the name of each job, what goes in and what comes out. */
export interface Jobs {
  'guess logger file': { input: { path: string; bytes: number; timeZone: string }; output: LoggerGuess }
  'read logger file': { input: LoggerFileInput; output: CheckedFile }
}

export type JobName = keyof Jobs
export type JobInput<K extends JobName> = Jobs[K]['input']
export type JobOutput<K extends JobName> = Jobs[K]['output']
export type Report = (done: number, of: number) => void
export type Job<K extends JobName> = (input: JobInput<K>, report: Report) => Promise<JobOutput<K>>

/** Jobs that can wait, so that a person at an import never waits for them. */
export const backgroundJobs: ReadonlySet<JobName> = new Set<JobName>()

/** The code of each job is loaded when it is first asked for. */
export const jobs: { [K in JobName]: () => Promise<Job<K>> } = {
  'guess logger file': async () => {
    const { guessLoggerFile } = await import('#electron/imports/preview.ts')
    return ({ path, bytes, timeZone }) => guessLoggerFile(path, bytes, timeZone)
  },
  'read logger file': async () => {
    const { checkLoggerFile } = await import('#electron/imports/check.ts')
    return ({ path, reading, record, now }, onProgress) =>
      checkLoggerFile(path, reading, record, { now, onProgress })
  },
}
