import type { Manifest, TreeHead } from './bundle/format.ts'
import { headFrom, manifestFrom } from './bundle/manifest.ts'
import { prepared, type Sqlite } from './handles.ts'

/** A bundle that leaves entries out and was taken in, as the record keeps it: what was signed, and every leaf of its tree. */
export interface PartRow {
  fingerprint: string
  project: string
  /** [epoch ms] */
  takenInAt: number
  manifest: Buffer
  head: Buffer
  signature: Buffer
  /** For each line of the bundle one byte, 1 when the entry was given, and the 32 bytes of its hash. */
  leaves: Buffer
}

export interface Leaf {
  given: boolean
  hash: string
}

const leafBytes = 33

/** Leaves as they come, in the form in which a part keeps them; a million of them are 33 MB. */
export function leafList(): { add: (leaf: Leaf) => void; bytes: () => Buffer } {
  let bytes = Buffer.alloc(1000 * leafBytes)
  let end = 0
  return {
    add: ({ given, hash }) => {
      if (end === bytes.length) bytes = Buffer.concat([bytes, Buffer.alloc(bytes.length)])
      bytes[end] = given ? 1 : 0
      bytes.write(hash, end + 1, 'hex')
      end += leafBytes
    },
    bytes: () => bytes.subarray(0, end),
  }
}

export function* leavesOf({ leaves }: Pick<PartRow, 'leaves'>): Generator<Leaf> {
  for (let at = 0; at < leaves.length; at += leafBytes)
    yield { given: leaves[at] === 1, hash: leaves.toString('hex', at + 1, at + leafBytes) }
}

/** The parts of a record in the order in which they were taken in; none in a file of before there were parts. */
export function partsIn(sqlite: Sqlite): PartRow[] {
  const version = Number(sqlite.pragma('user_version', { simple: true }))
  if (version < 2) return []
  return prepared<PartRow>(sqlite, 'select * from parts order by takenInAt, fingerprint').all()
}

export function keepPart(sqlite: Sqlite, part: PartRow): void {
  prepared(
    sqlite,
    `insert into parts (fingerprint, project, takenInAt, manifest, head, signature, leaves)
     values (@fingerprint, @project, @takenInAt, @manifest, @head, @signature, @leaves)`,
  ).run(part)
}

/** What a part says of itself. It was checked before it was kept. */
export function saidBy({ manifest, head }: PartRow): { manifest: Manifest; head: TreeHead } {
  return { manifest: manifestFrom(manifest), head: headFrom(head) }
}

/** The hashes of entries that parts leave out. */
export function leftOutBy(parts: readonly PartRow[]): Set<string> {
  const hashes = new Set<string>()
  for (const part of parts) for (const { given, hash } of leavesOf(part)) if (!given) hashes.add(hash)
  return hashes
}

/** The hashes of entries that parts gave. */
export function givenBy(parts: readonly PartRow[]): Set<string> {
  const hashes = new Set<string>()
  for (const part of parts) for (const { given, hash } of leavesOf(part)) if (given) hashes.add(hash)
  return hashes
}

/** Takes out of a set of hashes those whose entries are in the ledger after a place. Returns the last place seen. */
export function withoutThoseHere(sqlite: Sqlite, hashes: Set<string>, afterSeq: number): number {
  let last = afterSeq
  const rows = prepared<{ seq: number; hash: string }>(
    sqlite,
    'select seq, hash from ledger where seq > ? order by seq',
  )
  for (const { seq, hash } of rows.iterate(afterSeq)) {
    last = seq
    hashes.delete(hash)
  }
  return last
}
