import type { ReadyForecast } from '../drying/forecast-shape.ts'
import type { Readiness } from '../readiness/verdict.ts'
import type { StoryEntry } from '../record/entry.ts'
import type { BayId, FloorId, InstrumentId, PersonId, ProjectId, ZoneId } from '../record/ids.ts'
import type { BodyOf, KindName } from '../record/kinds.ts'
import type { BayStory } from '../record/story.ts'
import type { Alert } from '../watch/alert.ts'
import type { Reminder } from '../watch/today/due-in.ts'
import type { TodayLine } from '../watch/today.ts'
import type { TuningItem } from '../watch/tuning.ts'
import type { ProjectPart } from './parts.ts'

export interface Standing<K extends KindName, I> {
  id: I
  body: BodyOf<K>
}

export interface ProjectOutline {
  project: Standing<'project-opened', ProjectId>
  floors: Standing<'floor-added', FloorId>[]
  zones: Standing<'zone-added', ZoneId>[]
  bays: (Standing<'bay-planned', BayId> & { floor: FloorId; state: BayState })[]
  people: Standing<'person-added', PersonId>[]
  instruments: (Standing<'instrument-added', InstrumentId> & {
    lastCheckedAt: string | null
    lastCheckPassed: boolean | null
  })[]
  /** When this record holds a part of the project: what of it. Bays that are only named are not among `bays`. */
  part: ProjectPart | null
}

/** A mark and a word for the plan; computed from the story as of the call. */
export interface BayState {
  word: 'planned' | 'curing' | 'drying' | 'ready' | 'not proven' | 'covered' | 'stopped'
  laidAt: string | null
  openAlerts: number
  worst: Alert['severity'] | null
  because: string
}

export interface ProjectSummary {
  id: ProjectId
  name: string
  entries: number
  lastRecordedAt: string
}

export interface BayLife {
  story: BayStory
  alerts: Alert[]
  state: BayState
}

export interface TodaySheet {
  project: ProjectId
  at: string
  lines: TodayLine[]
  /** Tomorrow's acts, and instruments whose check is due or overdue by then. */
  ahead: Reminder[]
}

/** Rules that fired on so many bays that the rule, or the way of working, is the question. */
export interface TuningSheet {
  items: TuningItem[]
}

export interface ReadyPage {
  story: BayStory
  readiness: Readiness
  alerts: Alert[]
}

export type ForecastEvent =
  | { kind: 'progress'; done: number; of: number }
  | { kind: 'done'; forecast: ReadyForecast }

export interface VerifyReport {
  ok: boolean
  entries: number
  series: number
  /** Photos that entries name, and photos in the folder that no entry names. */
  photos: { kept: number; withoutEntry: number }
  /** In words: what differs first and where; null when all agrees. */
  firstDifference: string | null
  chains: { device: string; entries: number; head: string }[]
}
export type VerifyEvent =
  | { kind: 'progress'; done: number; of: number }
  | { kind: 'done'; report: VerifyReport }

export interface HostInfo {
  host: 'desktop' | 'browser'
  version: string
  dataFolder: string
  device: string
  recordState:
    | {
        state: 'open'
        /** Why nothing can be written, such as a file from a newer version. */
        readOnlyBecause?: string
      }
    | { state: 'recovery'; reason: string; code: string }
  demo: boolean
  /** Whether this machine reminds of what falls due; null where it cannot, as in a browser. */
  notifications: boolean | null
  now: string
}

/** What was saved of the photos that a record names. Fewer saved than named: the others were not there, or changed. */
export interface PhotosSaved {
  named: number
  /** Stand beside the backups with the right hash. */
  saved: number
  bytes: number
  /** Of those, written by this backup; the others stood there already. */
  copied: number
}

/** What was saved of the files that entries froze. Fewer saved than named: the others were not there, or changed. */
export interface FrozenSaved {
  named: number
  saved: number
}

export interface BackupInfo {
  file: string
  at: string
  bytes: number
  verified: boolean
  /** Null: only the record was saved, because it names no photo or because its shape was about to be changed. */
  photos: PhotosSaved | null
  /** Files of frozen evidence; null when the record names none, or when it is not known what was saved of them. */
  frozen: FrozenSaved | null
}

export interface EntryPage {
  entries: StoryEntry[]
  next: number | null
}
