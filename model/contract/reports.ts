import { eventIterator, oc, type } from '@orpc/contract'
import { z } from 'zod'
import type { ReadyVerdict } from '../readiness/verdict.ts'
import { type BayId, idOf } from '../record/ids.ts'
import { type Covering, coverings } from '../record/words.ts'
import { callErrors } from './errors.ts'

/**
 * What can be made of the record: the page to decide on, all about bays, the whole handover file (PDF); tables as a workbook
 * or as CSV; the story of a bay for another program (JSON).
 */
export const reportKinds = ['release', 'bay', 'project', 'workbook', 'tables', 'story'] as const
export type ReportKind = (typeof reportKinds)[number]

/** A file that stands ready to be fetched, for as long as the session remembers it. */
export interface MadeFile {
  made: string
  name: string
  mimeType: string
  bytes: number
  sha256: string
  /** The instant that it stands on, ISO 8601. */
  asOf: string
}

export type ReportStep = 'estimates' | 'file'
export type ReportEvent =
  | { kind: 'progress'; step: ReportStep; done: number; of: number }
  | { kind: 'done'; file: MadeFile }

/** Something that the record of a bay does not hold, or that stands open. */
export interface BayGap {
  what: string
  state: 'not met' | 'not known' | 'open' | 'not yet'
  because: string
  /** What answers it; null while nothing does. */
  answered: string | null
}

export interface BayGaps {
  bay: BayId
  verdict: ReadyVerdict
  gaps: BayGap[]
}

const call = oc.errors(callErrors)
const project = idOf('project')
const bay = idOf('bay')

export const reportCalls = {
  /** What is missing of each bay before it is handed over, worst first. */
  gaps: call.input(z.strictObject({ project })).output(type<{ bays: BayGaps[] }>()),
  /** Makes a file of some bays, as the record stands or stood. Who stops listening stops the work. */
  make: call
    .input(
      z.strictObject({
        project,
        kind: z.enum(reportKinds),
        bays: z.array(bay).min(1, 'must name at least one bay').max(2000),
        covering: z.enum(Object.keys(coverings) as [Covering, ...Covering[]]).optional(),
        asOf: z.iso.datetime({ offset: true }).optional(),
        /** Whether drying estimates are worked out for bays that still dry; it takes seconds a bay. */
        estimates: z.boolean().default(false),
      }),
    )
    .output(eventIterator(type<ReportEvent>())),
  fetch: call
    .input(z.strictObject({ made: z.string().regex(/^[0-9a-f]{32}$/, 'is not a file of this session') }))
    .output(type<{ file: Blob }>()),
}
