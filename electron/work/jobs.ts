import type { KeepInput, Kept } from '#electron/imports/keep.ts'
import type { LoggerGuess } from '#electron/imports/preview.ts'
import type { TakeInQuestion } from '#electron/photos/take-in.ts'
import type { ThumbnailQuestion } from '#electron/photos/thumbnail.ts'
import type { FileQuestion } from '#electron/reports/handover/make-file.ts'
import type { Question } from '#model/audit/index.ts'
import type { BundleCheck, BundleJoining, KeptBundle } from '#model/contract/bundles.ts'
import type { LoggerCheck, LoggerReading } from '#model/contract/logger-file.ts'
import type { TakenIn } from '#model/contract/photos.ts'
import type { VerifyReport } from '#model/contract/shapes.ts'
import type { NewScreedDrying } from '#model/drying/index.ts'
import type { WaysFound } from '#model/drying/what-if/index.ts'
import type { BayId } from '#model/record/ids.ts'
import type { AuditQuestion } from './audit-questions.ts'
import type { MakeBundleQuestion, ReceivedBundle } from './bundle-jobs.ts'
import type { CompareQuestion } from './compare-ways.ts'
import type { BayForecast, ForecastQuestion } from './forecast-bay.ts'
import type { NewScreedQuestion } from './forecast-new-screed.ts'

interface CheckInput {
  recordFile: string
  bay: BayId
  path: string
  reading: LoggerReading
  now: number
}

/** What can be done off the main thread: the name of each job, what goes in and what comes out. */
export interface Jobs {
  'guess logger file': { input: { path: string; bytes: number; timeZone: string }; output: LoggerGuess }
  'check logger file': { input: CheckInput; output: LoggerCheck }
  'keep logger file': { input: KeepInput; output: Kept }
  'forecast bay': { input: ForecastQuestion; output: BayForecast }
  'forecast new screed': { input: NewScreedQuestion; output: NewScreedDrying }
  'compare ways': { input: CompareQuestion; output: WaysFound }
  'take photo in': { input: TakeInQuestion; output: TakenIn }
  'make thumbnail': { input: ThumbnailQuestion; output: string }
  'make bundle': { input: MakeBundleQuestion; output: KeptBundle }
  'check bundle': { input: ReceivedBundle; output: Omit<BundleCheck, 'upload' | 'fileName' | 'bytes'> }
  'take in bundle': { input: ReceivedBundle & { fingerprint: string }; output: BundleJoining }
  'ask the record': { input: AuditQuestion; output: Question[] }
  'make report file': { input: FileQuestion; output: Uint8Array }
  'verify record': { input: { recordFile: string; now: number }; output: VerifyReport }
}

export type JobName = keyof Jobs
export type JobInput<K extends JobName> = Jobs[K]['input']
export type JobOutput<K extends JobName> = Jobs[K]['output']
export type Report = (done: number, of: number) => void
export type Job<K extends JobName> = (input: JobInput<K>, report: Report) => Promise<JobOutput<K>>

/** Jobs that can wait, so that a person at an import never waits for them. */
export const backgroundJobs: ReadonlySet<JobName> = new Set<JobName>([
  'forecast bay',
  'forecast new screed',
  'compare ways',
  'ask the record',
  'make report file',
  'verify record',
])

/** The code of each job is loaded when it is first asked for. */
export const jobs: { [K in JobName]: () => Promise<Job<K>> } = {
  'guess logger file': async () => {
    const { guessLoggerFile } = await import('#electron/imports/preview.ts')
    return ({ path, bytes, timeZone }) => guessLoggerFile(path, bytes, timeZone)
  },
  'check logger file': async () => {
    const { checkLoggerFile } = await import('#electron/imports/check.ts')
    const { recordOfBay } = await import('#electron/imports/known-series.ts')
    return async ({ recordFile, bay, path, reading, now }, onProgress) => {
      const { known } = recordOfBay(recordFile, bay, now)
      return (await checkLoggerFile(path, reading, known, { now, onProgress })).check
    }
  },
  'keep logger file': async () => (await import('#electron/imports/keep.ts')).keepLoggerFile,
  'forecast bay': async () => (await import('./forecast-bay.ts')).forecastBay,
  'forecast new screed': async () => (await import('./forecast-new-screed.ts')).forecastNewScreed,
  'compare ways': async () => (await import('./compare-ways.ts')).compareWaysHere,
  'take photo in': async () => (await import('#electron/photos/take-in.ts')).takePhotoIn,
  'make thumbnail': async () => (await import('#electron/photos/thumbnail.ts')).makeThumbnail,
  'make bundle': async () => (await import('./bundle-jobs.ts')).makeBundleHere,
  'check bundle': async () => (await import('./bundle-jobs.ts')).checkReceived,
  'take in bundle': async () => (await import('./bundle-jobs.ts')).takeInReceived,
  'ask the record': async () => (await import('./audit-questions.ts')).auditQuestions,
  'make report file': async () => (await import('#electron/reports/handover/make-file.ts')).makeReportFile,
  'verify record': async () => (await import('./verify-record.ts')).verifyRecord,
}
