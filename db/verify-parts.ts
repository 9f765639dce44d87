import crypto from 'node:crypto'
import { BundleFault } from './bundle/fault.ts'
import { members } from './bundle/format.ts'
import { lineOfRow } from './bundle/line.ts'
import { MerkleTree } from './bundle/merkle.ts'
import { nodeHashing, publicKeyPrefix } from './bundle/node-hashing.ts'
import { prepared, type Sqlite } from './handles.ts'
import { sha256Hex } from './hash.ts'
import type { LedgerRow } from './ledger-row.ts'
import { leavesOf, type PartRow, saidBy } from './parts.ts'

/**
 * For each part that was taken in, what is wrong with it; null when nothing is. The signed bundle is put together again
 * from the entries that are here and the hashes of the others: list, tree and signature must be those of that day.
 */
export function* partFaults(sqlite: Sqlite, parts: readonly PartRow[]): Generator<string | null> {
  const places = parts.length === 0 ? new Map<string, number>() : placesByHash(sqlite)
  for (const part of parts) {
    const name = `The part ${part.fingerprint.slice(0, 16)}… that was taken in`
    const fault = faultOf(sqlite, part, places)
    yield fault === null ? null : `${name} ${fault}`
  }
}

function faultOf(sqlite: Sqlite, part: PartRow, places: ReadonlyMap<string, number>): string | null {
  const said = readFront(part)
  if (said === null) return 'has a list or a head that no bundle has: it was changed after it was taken in.'
  const { manifest, head } = said
  if (sha256Hex(part.head) !== part.fingerprint || head.manifestSha256 !== sha256Hex(part.manifest))
    return 'does not have the list and head that were signed: it was changed after it was taken in.'
  const key = Buffer.concat([publicKeyPrefix, Buffer.from(head.publicKey, 'hex')])
  const publicKey = crypto.createPublicKey({ key, format: 'der', type: 'spki' })
  if (!crypto.verify(null, part.head, publicKey, part.signature)) return 'has a wrong signature.'
  if (part.project !== manifest.scope.project) return 'stands under another project than it is about.'
  const rowAt = prepared<LedgerRow>(sqlite, 'select * from ledger where seq = ?')
  const tree = new MerkleTree(nodeHashing.sha256)
  const lines = crypto.createHash('sha256')
  for (const { given, hash } of leavesOf(part)) {
    tree.add(Buffer.from(hash, 'hex'))
    const place = given ? places.get(hash) : undefined
    if (given && place === undefined)
      return `gave an entry that is not here any more (${hash.slice(0, 16)}…): it was removed or changed.`
    lines.update(`${place === undefined ? `"${hash}"` : lineOfRow(rowAt.get(place)!)}\n`)
  }
  if (Buffer.from(tree.root()).toString('hex') !== head.root)
    return 'does not make the tree that was signed: the hashes that it keeps were changed.'
  const signed = manifest.members.find(({ name }) => name === members.entries)?.sha256
  return lines.digest('hex') === signed ? null : 'does not give and leave out the entries that were signed.'
}

function readFront(part: PartRow): ReturnType<typeof saidBy> | null {
  try {
    return saidBy(part)
  } catch (cause) {
    if (cause instanceof BundleFault) return null
    throw cause
  }
}

function placesByHash(sqlite: Sqlite): Map<string, number> {
  const rows = prepared<{ seq: number; hash: string }>(sqlite, 'select seq, hash from ledger')
  return new Map(rows.all().map(({ seq, hash }) => [hash, seq]))
}
