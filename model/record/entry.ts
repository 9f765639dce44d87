import { z } from 'zod'
import { hourMs } from '#model/time.ts'
import { type EntryId, idOf, type PersonId, type ProjectId } from './ids.ts'
import { type BodyOf, type KindName, kindNames } from './kinds.ts'

export const sources = {
  typed: 'Typed',
  logger: 'Logger',
  file: 'File',
  photo: 'Photo',
  'told by': 'Told by someone',
} as const
export type Source = keyof typeof sources

/** An answer to "are you sure?": kept with the entry so that an odd value is odd on purpose. */
export const rangeAnswer = z.strictObject({
  field: z.string(),
  value: z.number(),
  answer: z.string().trim().min(1).max(400),
})
export type RangeAnswer = z.infer<typeof rangeAnswer>

/**
 * What a person or a device asks the ledger to keep. The id comes from the asker, so that asking twice after a
 * lost answer writes once. A correction repeats the kind with the whole new body and points at the entry it
 * replaces; a withdrawal is of kind `entry-withdrawn`. Both must say why.
 */
export const newEntry = z.strictObject({
  id: idOf('entry'),
  project: idOf('project'),
  subject: z.string().min(1).max(64),
  kind: z.enum(kindNames as [KindName, ...KindName[]]),
  happenedAt: z.iso.datetime({ offset: true }),
  zone: z.string().min(1).max(60),
  person: idOf('person'),
  source: z.enum(Object.keys(sources) as [Source, ...Source[]]),
  body: z.record(z.string(), z.unknown()),
  answers: z.array(rangeAnswer).max(60).default([]),
  corrects: idOf('entry').optional(),
  reason: z.string().trim().min(1).max(1000).optional(),
})
export type NewEntry = z.input<typeof newEntry>
export type CheckedEntry = z.output<typeof newEntry>

/** An entry as the ledger holds it. Times are ISO 8601 in UTC; hashes are lower-case hex SHA-256. */
export interface LedgerEntry {
  seq: number
  id: EntryId
  device: string
  deviceSeq: number
  project: ProjectId
  subject: string
  kind: KindName
  kindVersion: number
  happenedAt: string
  zone: string
  recordedAt: string
  person: PersonId
  source: Source
  body: Record<string, unknown>
  answers: RangeAnswer[]
  corrects: EntryId | null
  reason: string | null
  prevHash: string
  hash: string
}

export interface EntryVersion {
  id: EntryId
  seq: number
  kind: KindName
  happenedAt: number
  recordedAt: number
  person: PersonId
  source: Source
  reason: string | null
  body: Record<string, unknown>
  answers: RangeAnswer[]
}

/** One fact with its history: what holds now, and every version of it, oldest first. */
export interface StoryEntryOf<K extends KindName> {
  /** The id of the first version: links to a fact survive its corrections. */
  id: EntryId
  kind: K
  subject: string
  happenedAt: number
  recordedAt: number
  person: PersonId
  source: Source
  /** Recorded more than 48 h after it happened. */
  late: boolean
  withdrawn: boolean
  /** Two corrections of the same version stand side by side; a person must settle it. */
  conflict: boolean
  body: BodyOf<K>
  versions: EntryVersion[]
}

export type StoryEntry = { [K in KindName]: StoryEntryOf<K> }[KindName]

export const lateAfterMs = 48 * hourMs
