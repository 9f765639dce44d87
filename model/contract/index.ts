import { eventIterator, oc, type } from '@orpc/contract'
import { z } from 'zod'
import { type EntryVersion, type LedgerEntry, newEntry } from '../record/entry.ts'
import { idOf } from '../record/ids.ts'
import { type KindName, kindNames } from '../record/kinds.ts'
import { type Covering, coverings } from '../record/words.ts'
import { auditCalls } from './audit.ts'
import { bundleCalls } from './bundles.ts'
import { callErrors } from './errors.ts'
import { faultCalls } from './faults.ts'
import { type ImportEvent, type LoggerCheck, type LoggerPreview, loggerReading } from './logger-file.ts'
import { peopleCalls } from './people.ts'
import { photoCalls } from './photos.ts'
import { reportCalls } from './reports.ts'
import type {
  BackupInfo,
  BayLife,
  EntryPage,
  ForecastEvent,
  HostInfo,
  ProjectOutline,
  ProjectSummary,
  ReadyPage,
  TodaySheet,
  TuningSheet,
  VerifyEvent,
} from './shapes.ts'
import { wayCalls } from './ways.ts'

const call = oc.errors(callErrors)
const project = idOf('project')
const bay = idOf('bay')
const at = z.iso.datetime({ offset: true })
const covering = z.enum(Object.keys(coverings) as [Covering, ...Covering[]])
const kind = z.enum(kindNames as [KindName, ...KindName[]])
const upload = z.string().regex(/^[0-9a-f]{32}$/, 'is not an upload of this session')

/** Every call between screen and record. The same router answers it in the shell and in the browser host. */
export const contract = {
  audit: auditCalls,
  host: {
    info: call.output(type<HostInfo>()),
    /** Whether the desktop reminds of what falls due; a setting of this machine and no fact of the record. */
    setNotifications: call.input(z.strictObject({ on: z.boolean() })).output(type<{ on: boolean }>()),
  },
  record: {
    /** Writes all entries in one transaction, or none. Entries already written (same id, same bytes) count as written. */
    append: call
      .input(z.strictObject({ entries: z.array(newEntry).min(1).max(500) }))
      .output(type<{ entries: LedgerEntry[] }>()),
    history: call
      .input(z.strictObject({ entry: idOf('entry') }))
      .output(type<{ versions: EntryVersion[] }>()),
    /** The entries of a project, newest happening first. `before` is the `next` of the page before. */
    list: call
      .input(
        z.strictObject({
          project,
          subject: z.string().max(64).optional(),
          kinds: z.array(kind).max(60).optional(),
          from: at.optional(),
          to: at.optional(),
          limit: z.number().int().min(1).max(500).default(100),
          before: z.number().int().optional(),
        }),
      )
      .output(type<EntryPage>()),
    verify: call.output(eventIterator(type<VerifyEvent>())),
    backups: call.output(type<{ backups: BackupInfo[] }>()),
    backUp: call.output(type<{ backup: BackupInfo }>()),
  },
  projects: {
    list: call.output(type<{ projects: ProjectSummary[] }>()),
    outline: call.input(z.strictObject({ project, asOf: at.optional() })).output(type<ProjectOutline>()),
    today: call.input(z.strictObject({ project, at: at.optional() })).output(type<TodaySheet>()),
    tuning: call.input(z.strictObject({ project })).output(type<TuningSheet>()),
  },
  bays: {
    life: call.input(z.strictObject({ bay, asOf: at.optional() })).output(type<BayLife>()),
    ready: call.input(z.strictObject({ bay, covering, asOf: at.optional() })).output(type<ReadyPage>()),
    forecast: call
      .input(z.strictObject({ bay, covering: covering.optional(), asOf: at.optional() }))
      .output(eventIterator(type<ForecastEvent>())),
  },
  bundles: bundleCalls,
  faults: faultCalls,
  imports: {
    preview: call.input(z.strictObject({ upload, bay })).output(type<LoggerPreview>()),
    check: call.input(z.strictObject({ upload, bay, reading: loggerReading })).output(type<LoggerCheck>()),
    commit: call
      .input(
        z.strictObject({
          upload,
          bay,
          reading: loggerReading,
          entry: idOf('entry'),
          person: idOf('person'),
          acceptBadRows: z.boolean(),
        }),
      )
      .output(eventIterator(type<ImportEvent>())),
  },
  people: peopleCalls,
  photos: photoCalls,
  reports: {
    /** What falls due and when bays may be dry, as a calendar file (RFC 5545). */
    calendar: call.input(z.strictObject({ project })).output(type<{ text: string; events: number }>()),
    ...reportCalls,
  },
  recovery: {
    /** Renames the damaged file (never deletes it) and starts an empty record beside it. */
    moveAside: call.output(type<{ movedTo: string }>()),
  },
  ways: wayCalls,
}
export type Contract = typeof contract

export * from './audit.ts'
export * from './bundles.ts'
export * from './errors.ts'
export * from './faults.ts'
export * from './logger-file.ts'
export * from './people.ts'
export * from './photos.ts'
export * from './reports.ts'
export * from './shapes.ts'
export * from './ways.ts'
