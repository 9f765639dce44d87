import { oc, type } from '@orpc/contract'
import { z } from 'zod'
import type {
  Amendment,
  Answer,
  Completeness,
  Corroboration,
  Nonconformance,
  Question,
  RequirementId,
  RequirementState,
  TestLine,
} from '../audit/index.ts'
import type { HoldLink } from '../hold/index.ts'
import { idOf } from '../record/ids.ts'
import type { KindName } from '../record/kinds.ts'
import type { Alert } from '../watch/alert.ts'
import { callErrors } from './errors.ts'

/** One requirement on one bay, as small as a sheet of a thousand bays wants it. The reason comes with the bay. */
export interface AuditCell {
  id: RequirementId
  state: RequirementState
  notYet: boolean
  answered: boolean
}

export interface AuditLine {
  bay: string
  cells: AuditCell[]
  met: number
  applicable: number
  failing: RequirementId[]
  release: Completeness['release']
  /** Requirements that were met as the record stood at `since`; null when it was not asked, or the bay was not planned yet. */
  metBefore: number | null
}

/** Bays × requirements. */
export interface AuditSheet {
  project: string
  at: string
  since: string | null
  lines: AuditLine[]
}

/** One bay: why each requirement stands as it does, what bears its facts out, and what it may be asked. */
export interface AuditBay {
  bay: string
  at: string
  answers: Answer[]
  completeness: Omit<Completeness, 'answers'>
  corroboration: Corroboration[]
  questions: Question[]
  /** What the entries named above are, for links that say where they lead. */
  entries: EntryLabel[]
}

export interface EntryLabel {
  id: string
  kind: KindName
  happenedAt: number
}

/** What was changed, and what was written late, from a day on. */
export interface AuditAmendments {
  since: string | null
  amendments: Amendment[]
  late: LateLine[]
  /** More of them than are listed. */
  more: boolean
}

export interface LateLine {
  entry: string
  kind: KindName
  subject: string
  person: string
  happenedAt: number
  recordedAt: number
  hours: number
  decisive: boolean
}

/** The record's answers to "were those tests valid", "is anything not answered", "what is still held". */
export interface AuditOpen {
  at: string
  tests: (TestLine & { bay: string })[]
  alerts: (Alert & { bay: string })[]
  /** Points that hold work back, or that work went past. */
  holds: (HoldLink & { bay: string })[]
  nonconformances: (Nonconformance & { bay: string })[]
}

export interface AuditQuestions {
  at: string
  questions: Question[]
}

const call = oc.errors(callErrors)
const project = idOf('project')
const at = z.iso.datetime({ offset: true })

/** The quality manager's calls. */
export const auditCalls = {
  /** With `since`, each bay says also how many requirements it met as the record stood then. */
  sheet: call.input(z.strictObject({ project, since: at.optional() })).output(type<AuditSheet>()),
  bay: call.input(z.strictObject({ bay: idOf('bay') })).output(type<AuditBay>()),
  amendments: call.input(z.strictObject({ project, since: at.optional() })).output(type<AuditAmendments>()),
  open: call.input(z.strictObject({ project })).output(type<AuditOpen>()),
  questions: call.input(z.strictObject({ project })).output(type<AuditQuestions>()),
}
