import type { MissingLine } from './format.ts'

/** A file of the bundle, known by size and hash before it is read. */
export interface MemberToWrite {
  name: string
  bytes: number
  sha256: string
  /** Its bytes, read when their turn comes. */
  open: () => Iterable<Uint8Array>
}

/** One line of the bundle: an entry, or the hash of one that is left out. */
export interface LineToWrite {
  line: string
  /** The hash of the entry as the ledger has it. */
  hash: string
  leftOut: boolean
}

/** What goes into a bundle, wherever it comes from. The lines are asked for twice: once to count, once to write. */
export interface BundleContents {
  lines: () => Iterable<LineToWrite>
  files: readonly MemberToWrite[]
  missing: readonly MissingLine[]
  /** Canonical JSON. */
  rules: string
}
