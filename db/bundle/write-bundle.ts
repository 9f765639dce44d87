import { closeSync, fsyncSync, openSync, writeSync } from 'node:fs'
import { canonicalJson } from '../canonical.ts'
import { RecordError } from '../errors.ts'
import { sha256Hex } from '../hash.ts'
import type { DeviceKey } from '../signing/device-key.ts'
import { bytesOfText, hexOf } from './bytes.ts'
import type { BundleContents, MemberToWrite } from './contents.ts'
import {
  type BundleScope,
  bundleFormat,
  bundleVersion,
  headFormat,
  type Manifest,
  members,
  type TreeHead,
} from './format.ts'
import { MerkleTree } from './merkle.ts'
import { nodeHashing } from './node-hashing.ts'
import { readmeFor } from './readme.ts'
import { endBytes, headerOf, paddingAfter } from './tar.ts'

export interface BundleMaking {
  made: Manifest['made']
  scope: BundleScope
  key: DeviceKey
}

export interface BundleWritten {
  bytes: number
  /** SHA-256 of the tree head. */
  fingerprint: string
  head: TreeHead
  manifest: Manifest
}

const newline = '\n'
const textAtOnce = 256 * 1024

/**
 * Writes a signed bundle into a file that is not there yet, and makes sure that it is on the disk. Everything is read
 * twice or known by its hash before, so that little is in memory at a time; what turns out other than known stops it.
 * @param onProgress bytes written, and all that will be
 * @throws RecordError corrupt when the record does not agree with itself; what the disk throws
 */
export function writeBundle(
  file: string,
  contents: BundleContents,
  { made, scope, key }: BundleMaking,
  onProgress: (done: number, of: number) => void = () => undefined,
): BundleWritten {
  const counted = countLines(contents)
  const entries: MemberToWrite = {
    name: members.entries,
    bytes: counted.bytes,
    sha256: counted.sha256,
    open: () => inPieces(contents),
  }
  const parts = [
    textMember(members.readme, readmeFor(made, scope, counted)),
    textMember(members.rules, contents.rules),
    entries,
    ...contents.files,
  ]
  const manifest: Manifest = {
    format: bundleFormat,
    version: bundleVersion,
    made,
    scope,
    entries: { given: counted.given, leftOut: counted.leftOut },
    missing: [...contents.missing],
    members: parts.map(({ name, bytes, sha256 }) => ({ name, bytes, sha256 })),
  }
  const manifestText = canonicalJson(manifest)
  const head: TreeHead = {
    format: headFormat,
    version: bundleVersion,
    device: key.device,
    publicKey: key.publicKey,
    signedAt: made.at,
    size: counted.given + counted.leftOut,
    root: counted.root,
    manifestSha256: sha256Hex(manifestText),
  }
  const headBytes = bytesOfText(canonicalJson(head))
  const front = [
    textMember(members.manifest, manifestText),
    textMember(members.head, canonicalJson(head)),
    bytesMember(members.signature, key.sign(headBytes)),
  ]
  const bytes = writeMembers(file, [...front, ...parts], onProgress)
  return { bytes, fingerprint: sha256Hex(headBytes), head, manifest }
}

interface Counted {
  given: number
  leftOut: number
  bytes: number
  sha256: string
  root: string
}

function countLines(contents: BundleContents): Counted {
  const tree = new MerkleTree(nodeHashing.sha256)
  let [given, leftOut] = [0, 0]
  for (const { line, hash, leftOut: isOut } of contents.lines()) {
    const leaf = isOut ? Buffer.from(hash, 'hex') : nodeHashing.sha256(bytesOfText(line))
    if (hexOf(leaf) !== hash) {
      throw new RecordError(
        'corrupt',
        `Entry ${given + leftOut + 1} of the record does not have the hash of what it says. Check the whole record; nothing was signed.`,
      )
    }
    tree.add(leaf)
    if (isOut) leftOut += 1
    else given += 1
  }
  const hash = nodeHashing.startSha256()
  let bytes = 0
  for (const piece of inPieces(contents)) {
    hash.update(piece)
    bytes += piece.length
  }
  return { given, leftOut, bytes, sha256: hexOf(hash.digest()), root: hexOf(tree.root()) }
}

function* inPieces(contents: BundleContents): Generator<Uint8Array> {
  let text = ''
  for (const { line } of contents.lines()) {
    text += line + newline
    if (text.length < textAtOnce) continue
    yield bytesOfText(text)
    text = ''
  }
  if (text !== '') yield bytesOfText(text)
}

function textMember(name: string, text: string): MemberToWrite {
  return bytesMember(name, bytesOfText(text))
}

function bytesMember(name: string, bytes: Uint8Array): MemberToWrite {
  return { name, bytes: bytes.length, sha256: sha256Hex(bytes), open: () => [bytes] }
}

function writeMembers(
  file: string,
  all: readonly MemberToWrite[],
  onProgress: (done: number, of: number) => void,
): number {
  const of = all.reduce(
    (sum, { bytes }) => sum + headerOf('', 0).length + bytes + paddingAfter(bytes),
    endBytes,
  )
  const handle = openSync(file, 'wx', 0o600)
  let done = 0
  const put = (bytes: Uint8Array) => {
    for (let at = 0; at < bytes.length; ) at += writeSync(handle, bytes, at)
    done += bytes.length
    onProgress(Math.min(done, of - 1), of)
  }
  try {
    for (const member of all) {
      put(headerOf(member.name, member.bytes))
      const hash = nodeHashing.startSha256()
      let size = 0
      for (const piece of member.open()) {
        hash.update(piece)
        size += piece.length
        put(piece)
      }
      if (size !== member.bytes || hexOf(hash.digest()) !== member.sha256) throw notAsKnown(member)
      put(new Uint8Array(paddingAfter(size)))
    }
    put(new Uint8Array(endBytes))
    fsyncSync(handle)
  } finally {
    closeSync(handle)
  }
  onProgress(of, of)
  return done
}

function notAsKnown({ name }: MemberToWrite): RecordError {
  return new RecordError(
    'corrupt',
    `${name} does not have the bytes that the record knows by its hash. Check the whole record; no bundle was made.`,
  )
}
