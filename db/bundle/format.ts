/** The parts of a signed bundle, in the order in which they stand in it. Described for readers in `docs/record.md`. */
export const bundleFormat = 'bayledger bundle'
export const headFormat = 'bayledger tree head'
export const bundleVersion = 1

/** The ending of a bundle's file name. */
export const bundleEnding = '.baybundle'

export const members = {
  manifest: 'manifest.json',
  head: 'tree-head.json',
  signature: 'tree-head.sig',
  readme: 'README.txt',
  rules: 'rules.json',
  entries: 'entries.ndjson',
} as const

/** Folders whose files are named by the SHA-256 of their bytes. */
export const hashedFolders = ['files', 'series', 'photos'] as const
export type HashedFolder = (typeof hashedFolders)[number]

/** Every name that a member after the first three may have; anything else is refused before it is read. */
export const memberName =
  /^(?:README\.txt|rules\.json|entries\.ndjson|(?:files|series|photos)\/[0-9a-f]{64})$/

/** More than any honest bundle needs; what is larger is refused before it is read into memory. */
export const limits = {
  manifestBytes: 64 * 1024 * 1024,
  headBytes: 4096,
  lineBytes: 4 * 1024 * 1024,
  members: 400_000,
  depth: 32,
} as const

/** What the whole bundle commits to; these bytes are what is signed, and their SHA-256 is the fingerprint. */
export interface TreeHead {
  format: typeof headFormat
  version: number
  device: string
  /** Ed25519, 32 bytes as hex. */
  publicKey: string
  signedAt: string
  /** Leaves of the tree: entries given and entries left out. */
  size: number
  root: string
  manifestSha256: string
}

export interface BundleScope {
  /** The whole record; one project of it; some bays of a project with what they refer to. */
  kind: 'record' | 'project' | 'bays'
  project: string
  projectName: string
  bays: { id: string; name: string }[]
  /** Of some bays: how many bays the project has in all, so that a part can say what it is a part of. */
  baysOfProject?: number
  /** Only what was recorded up to then [ISO 8601]; null: everything. */
  asOf: string | null
  /** Why it was made, such as the fault that it is evidence for. */
  reason: string | null
}

export interface MemberLine {
  name: string
  bytes: number
  sha256: string
}

/** Something that an entry names and the bundle does not hold, and why. */
export interface MissingLine {
  name: string
  why: string
}

export interface Manifest {
  format: typeof bundleFormat
  version: number
  made: { at: string; by: string; program: string; device: string; deviceName: string }
  scope: BundleScope
  /** Lines of `entries.ndjson` with an entry, and lines with only the hash of one that was left out. */
  entries: { given: number; leftOut: number }
  missing: MissingLine[]
  members: MemberLine[]
}
