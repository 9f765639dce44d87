import { statfsSync } from 'node:fs'
import path from 'node:path'
import type { FieldProblem } from '#model/record/check-body.ts'

export type RecordState = 'busy' | 'read-only' | 'full' | 'corrupt' | 'newer version' | 'missing' | 'foreign'

/** The record on disk cannot be used as asked; nothing was changed. The message is a sentence for a person. */
export class RecordError extends Error {
  readonly state: RecordState
  constructor(state: RecordState, message: string, options?: ErrorOptions) {
    super(message, options)
    this.name = 'RecordError'
    this.state = state
  }
}

/** An entry that cannot be kept as it is. Nothing of the same append was written. */
export class EntryRefused extends Error {
  readonly entry: string
  readonly problems: FieldProblem[]
  constructor(entry: string, problems: FieldProblem[]) {
    super(problems.map((problem) => problem.message).join(' '))
    this.name = 'EntryRefused'
    this.entry = entry
    this.problems = problems
  }
}

/** Something pointed at that this record does not hold. */
export class UnknownId extends Error {
  readonly what: string
  readonly id: string
  constructor(what: string, id: string) {
    super(`This record knows no ${what} ${id}.`)
    this.name = 'UnknownId'
    this.what = what
    this.id = id
  }
}

/** The entry that was to be corrected is no longer what holds, or an id was used twice for different facts. */
export class CorrectionConflict extends Error {
  /** The entry that stands now, when one does. */
  readonly entry: string | null
  constructor(message: string, entry: string | null) {
    super(message)
    this.name = 'CorrectionConflict'
    this.entry = entry
  }
}

const leastFreeBytes = 1_000_000

/** Runs a piece of work on the file and turns what SQLite or the disk says into a RecordError. */
export function onDisk<T>(file: string, work: () => T): T {
  try {
    return work()
  } catch (cause) {
    throw storageError(file, cause)
  }
}

/** The RecordError for what SQLite or the disk said; anything else comes back as it was. */
export function storageError(file: string, cause: unknown): unknown {
  const code = codeOf(cause)
  const state = code === null ? null : stateOf(code, file)
  return state === null ? cause : new RecordError(state, sentences[state](file), { cause })
}

function codeOf(cause: unknown): string | null {
  if (!(cause instanceof Error) || cause instanceof RecordError) return null
  const code = (cause as Error & { code?: unknown }).code
  return typeof code === 'string' ? code : null
}

function stateOf(code: string, file: string): keyof typeof sentences | null {
  if (code.startsWith('SQLITE_BUSY') || code.startsWith('SQLITE_LOCKED')) return 'busy'
  if (code.startsWith('SQLITE_FULL') || code === 'ENOSPC' || code === 'EDQUOT') return 'full'
  if (code.startsWith('SQLITE_READONLY') || ['EACCES', 'EROFS', 'EPERM'].includes(code)) return 'read-only'
  if (code.startsWith('SQLITE_CORRUPT') || code === 'SQLITE_NOTADB') return 'corrupt'
  if (code === 'ENOENT') return 'missing'
  if (code.startsWith('SQLITE_CANTOPEN')) return 'read-only'
  if (code.startsWith('SQLITE_IOERR') || code === 'EIO') return diskIsFull(file) ? 'full' : 'corrupt'
  return null
}

function diskIsFull(file: string): boolean {
  try {
    const { bavail, bsize } = statfsSync(path.dirname(file))
    return bavail * bsize < leastFreeBytes
  } catch (cause) {
    // The disk does not even answer this question: the caller reports it as damaged.
    if (cause instanceof Error) return false
    throw cause
  }
}

const sentences = {
  busy: (file: string) =>
    `${file} is being written by another program. Wait a moment and try again; nothing was written.`,
  'read-only': (file: string) =>
    `${file} cannot be written: its folder or disk is read-only or may not be used by this user. Nothing was written.`,
  full: (file: string) => `The disk of ${file} is full. Free some space and try again; nothing was written.`,
  corrupt: (file: string) =>
    `${file} is damaged or its disk reports errors. Leave it as it is and restore the newest backup.`,
  missing: (file: string) => `${file} is not there. Look for it, or restore the newest backup.`,
} as const
