import { createHash, randomBytes } from 'node:crypto'
import { UnknownId } from '#db/errors.ts'
import { projectOutline } from '#db/index.ts'
import type { MadeFile, ReportEvent, ReportKind } from '#model/contract/reports.ts'
import type { ReadyForecast } from '#model/drying/forecast-shape.ts'
import { holdChainFrom } from '#model/hold/index.ts'
import { readinessOf } from '#model/readiness/index.ts'
import type { BayId, ProjectId } from '#model/record/ids.ts'
import type { Covering } from '#model/record/words.ts'
import { factsOf } from '#model/watch/facts/index.ts'
import type { DataFolder } from '../data-folder/place.ts'
import { imaging } from '../photos/imaging.ts'
import { gapsOf } from '../reports/handover/gaps.ts'
import { calls } from './base.ts'
import { eachBay } from './each-bay.ts'
import { awaitForecast } from './forecast.ts'
import { withProgress } from './progress.ts'
import type { Services } from './services.ts'
import { isDrying } from './watched.ts'

const minuteMs = 60_000
const hourMs = 60 * minuteMs
/** Files that are remembered until they are fetched; the oldest makes room. */
const mostKept = 4

interface Kept {
  bytes: Uint8Array<ArrayBuffer>
  file: MadeFile
}

/** Made files, by data folder; they live as long as the session. */
const keptOf = new WeakMap<DataFolder, Map<string, Kept>>()

const mimeTypes = {
  pdf: 'application/pdf',
  xlsx: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
  zip: 'application/zip',
  json: 'application/json',
} as const

export const gaps = calls.reports.gaps.handler(async ({ context, input, signal }) => {
  const { bays } = projectOutline(context.record.current().read, input.project)
  const gapsOfBay = (id: BayId) => {
    const { story, alerts, rules, asOf } = context.watch.now(id)
    const facts = factsOf(story, asOf, rules)
    const { verdict } = readinessOf(story, story.zone.body.covering, asOf, rules)
    return { bay: id, verdict, gaps: gapsOf({ facts, alerts: alerts(), chain: holdChainFrom(facts) }) }
  }
  return { bays: await eachBay(bays, gapsOfBay, signal) }
})

export const make = calls.reports.make.handler(({ context, input, signal }) =>
  makeFile(context, input, signal),
)

interface FileWanted {
  project: ProjectId
  kind: ReportKind
  bays: BayId[]
  covering?: Covering | undefined
  asOf?: string | undefined
  estimates: boolean
}

/** Makes the file and keeps it for `madeFile`; the last event names it. */
export async function* makeFile(
  context: Services,
  { project, kind, bays, covering, asOf: wanted, estimates }: FileWanted,
  signal: AbortSignal | undefined,
): AsyncGenerator<ReportEvent, void, void> {
  const { read, file: recordFile } = context.record.current()
  const outline = projectOutline(read, project)
  const known = new Set<string>(outline.bays.map(({ id }) => id))
  const missing = bays.find((bay) => !known.has(bay))
  if (missing !== undefined) throw new UnknownId('bay', missing)
  // Whole minutes, so that two files made together stand on the same instant.
  const asOf = Math.floor((wanted === undefined ? context.clock() : Date.parse(wanted)) / minuteMs) * minuteMs
  const chosen = [...new Set(bays)]

  const isPresent = wanted === undefined
  const forecasts = estimates
    ? yield* estimatesOf(context, { bays: chosen, covering, asOf, isPresent }, signal)
    : []
  yield { kind: 'progress', step: 'file', done: 0, of: 100 }
  // The library that reads photos must have been loaded here before a worker uses it.
  if (kind === 'release' || kind === 'bay' || kind === 'project') await imaging()
  const question = { recordFile, project, kind, bays: chosen, covering, asOf, forecasts }
  const work = withProgress((options) => context.workers.run('make report file', question, options), signal)
  let step = await work.next()
  for (; step.done !== true; step = await work.next()) yield { ...step.value, step: 'file' }
  const bayNames = outline.bays
    .filter(({ id }) => id === chosen[0] && chosen.length === 1)
    .map(({ body }) => body.name)
  yield {
    kind: 'done',
    file: keep(context.folder, step.value, { kind, asOf, names: [outline.project.body.name, ...bayNames] }),
  }
}

interface EstimatesWanted {
  bays: readonly BayId[]
  covering: Covering | undefined
  asOf: number
  /** Of the present the estimates that the screens show are taken, when they were worked out before. */
  isPresent: boolean
}

/** Estimates of the bays that still dry, as many at a time as there are workers. */
async function* estimatesOf(
  context: Services,
  { bays, covering, asOf, isPresent }: EstimatesWanted,
  signal: AbortSignal | undefined,
): AsyncGenerator<ReportEvent, { bay: BayId; forecast: ReadyForecast }[], void> {
  const instant = new Date(asOf).toISOString()
  const dries = await eachBay(
    bays.map((id) => ({ id })),
    (bay) => isDrying(context.watch.asOf(bay, instant)),
    signal,
  )
  const drying = bays.filter((_, i) => dries[i])
  // An estimate of the past stands on the hour, so that the next file finds it worked out.
  const hour = new Date(Math.floor(asOf / hourMs) * hourMs).toISOString()
  let done = 0
  const work = withProgress(({ signal: either, onProgress }) => {
    onProgress?.(done, drying.length)
    return Promise.all(
      drying.map(async (bay) => {
        const question = {
          bay,
          ...(isPresent ? {} : { asOf: hour }),
          ...(covering === undefined ? {} : { covering }),
        }
        const forecast = await awaitForecast(context, question, either)
        onProgress?.(++done, drying.length)
        return { bay, forecast }
      }),
    )
  }, signal)
  let step = await work.next()
  for (; step.done !== true; step = await work.next()) yield { ...step.value, step: 'estimates' }
  return step.value
}

interface Naming {
  kind: ReportKind
  asOf: number
  names: string[]
}

function keep(folder: DataFolder, bytes: Uint8Array, { kind, asOf, names }: Naming): MadeFile {
  const kept = keptOf.get(folder) ?? new Map<string, Kept>()
  keptOf.set(folder, kept)
  const ending = endingOf(kind, names.length > 1)
  const made = randomBytes(16).toString('hex')
  const file: MadeFile = {
    made,
    name: `${fileName([...names, wordsOf[kind], new Date(asOf).toISOString().slice(0, 10)])}.${ending}`,
    mimeType: mimeTypes[ending],
    bytes: bytes.length,
    sha256: createHash('sha256').update(bytes).digest('hex'),
    asOf: new Date(asOf).toISOString(),
  }
  kept.set(made, { bytes: Uint8Array.from(bytes), file })
  const oldest = kept.keys().next().value
  if (kept.size > mostKept && oldest !== undefined) kept.delete(oldest)
  return file
}

const wordsOf: Record<ReportKind, string> = {
  release: 'release',
  bay: 'bay file',
  project: 'handover',
  workbook: 'tables',
  tables: 'tables csv',
  story: 'story',
}

function endingOf(kind: ReportKind, oneBay: boolean): keyof typeof mimeTypes {
  if (kind === 'workbook') return 'xlsx'
  if (kind === 'tables') return 'zip'
  if (kind === 'story') return oneBay ? 'json' : 'zip'
  return 'pdf'
}

/** Letters of any script, digits and dashes: a name that every disk takes. */
function fileName(parts: readonly string[]): string {
  const plain = parts
    .map((part) =>
      part
        .normalize('NFC')
        .replace(/[^\p{L}\p{N}]+/gu, '-')
        .replace(/^-+|-+$/g, '')
        .toLowerCase()
        .slice(0, 60),
    )
    .filter((part) => part !== '')
  return plain.join('-')
}

export const fetch = calls.reports.fetch.handler(({ context, input }) => {
  const { bytes, file } = madeFile(context, input.made)
  return { file: new Blob([bytes], { type: file.mimeType }) }
})

/** A file that was made in this session, with its bytes. */
export function madeFile({ folder }: Services, made: string): Kept {
  const kept = keptOf.get(folder)?.get(made)
  if (kept === undefined) throw new UnknownId('file', made)
  return kept
}
