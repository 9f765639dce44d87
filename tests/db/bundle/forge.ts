import { generateKeyPairSync, sign } from 'node:crypto'
import { members } from '#db/bundle/format.ts'
import { MerkleTree } from '#db/bundle/merkle.ts'
import { nodeHashing } from '#db/bundle/node-hashing.ts'
import { endBytes, headerOf, paddingAfter } from '#db/bundle/tar.ts'
import { canonicalJson, sha256Hex } from '#db/index.ts'

/** A bundle taken apart, to be changed by somebody who knows its form and has a key of his own. */
export interface Parts {
  manifest: Record<string, unknown>
  head: Record<string, unknown>
  files: { name: string; bytes: Buffer }[]
}

export function takenApart(bundle: Buffer): Parts {
  const all: { name: string; bytes: Buffer }[] = []
  for (let at = 0; at < bundle.length - endBytes; ) {
    const name = bundle.toString('latin1', at, at + 100).replace(/\0.*$/s, '')
    const size = Number.parseInt(bundle.toString('latin1', at + 124, at + 135), 8)
    all.push({ name, bytes: bundle.subarray(at + 512, at + 512 + size) })
    at += 512 + size + paddingAfter(size)
  }
  const [manifest, head] = all
  return {
    manifest: JSON.parse(manifest!.bytes.toString()) as Record<string, unknown>,
    head: JSON.parse(head!.bytes.toString()) as Record<string, unknown>,
    files: all.slice(3),
  }
}

export interface Forging {
  /** What the list says; worked out from the files when left out. */
  list?: (lines: { name: string; bytes: number; sha256: string }[]) => unknown[]
  manifest?: (manifest: Record<string, unknown>) => Record<string, unknown>
  head?: (head: Record<string, unknown>) => Record<string, unknown>
  /** The text of the list as it is written. */
  written?: (text: string) => string
}

/** Puts parts together again, with every hash right and signed with a new key: only what the forger wanted is wrong. */
export function putTogether({ manifest, head, files }: Parts, forging: Forging = {}): Buffer {
  const same = <T>(value: T) => value
  const lines = files.map(({ name, bytes }) => ({ name, bytes: bytes.length, sha256: sha256Hex(bytes) }))
  const entries = files
    .find(({ name }) => name === members.entries)!
    .bytes.toString()
    .split('\n')
    .slice(0, -1)
  const leftOut = entries.filter((line) => line.startsWith('"')).length
  const counted = { given: entries.length - leftOut, leftOut }
  const full = (forging.manifest ?? same)({
    ...manifest,
    entries: counted,
    members: (forging.list ?? same)(lines),
  })
  const text = (forging.written ?? same)(canonicalJson(full))
  const tree = new MerkleTree(nodeHashing.sha256)
  for (const line of entries) {
    tree.add(
      line.startsWith('"') ? Buffer.from(line.slice(1, -1), 'hex') : nodeHashing.sha256(Buffer.from(line)),
    )
  }
  const { publicKey, privateKey } = generateKeyPairSync('ed25519')
  const own = publicKey.export({ type: 'spki', format: 'der' }).subarray(12).toString('hex')
  const root = Buffer.from(tree.root()).toString('hex')
  const signed = { ...head, publicKey: own, size: tree.size, root, manifestSha256: sha256Hex(text) }
  const headText = canonicalJson((forging.head ?? same)(signed))
  return archive([
    { name: members.manifest, bytes: Buffer.from(text) },
    { name: members.head, bytes: Buffer.from(headText) },
    { name: members.signature, bytes: sign(null, Buffer.from(headText), privateKey) },
    ...files,
  ])
}

export function archive(files: readonly { name: string; bytes: Buffer }[]): Buffer {
  const blocks = files.flatMap(({ name, bytes }) => [
    headerOf(name, bytes.length),
    bytes,
    Buffer.alloc(paddingAfter(bytes.length)),
  ])
  return Buffer.concat([...blocks, Buffer.alloc(endBytes)])
}

/** The entries of a bundle changed line by line, with every hash of the chain worked out anew. */
export function withEntries(
  parts: Parts,
  change: (entries: Record<string, unknown>[]) => Record<string, unknown>[],
): Parts {
  const file = parts.files.find(({ name }) => name === members.entries)!
  const entries = file.bytes
    .toString()
    .split('\n')
    .slice(0, -1)
    .map((line) => JSON.parse(line) as Record<string, unknown>)
  let prevHash = '0'.repeat(64)
  const lines = change(entries).map((entry, i) => {
    const line = canonicalJson({ ...entry, deviceSeq: i + 1, prevHash })
    prevHash = sha256Hex(line)
    return `${line}\n`
  })
  const files = parts.files.map((one) =>
    one === file ? { ...file, bytes: Buffer.from(lines.join('')) } : one,
  )
  return { ...parts, files }
}
