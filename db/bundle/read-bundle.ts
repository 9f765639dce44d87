import { bytesOfHex, hexOf, sameBytes } from './bytes.ts'
import { type DeviceChain, type EntryLine, EntryLines } from './entry-lines.ts'
import { BundleFault } from './fault.ts'
import { limits, type Manifest, type MemberLine, members, type TreeHead } from './format.ts'
import type { Hashing, SignatureAnswer } from './hashing.ts'
import { lineCutter } from './lines.ts'
import { headFrom, manifestFrom } from './manifest.ts'
import { ByteSource } from './source.ts'
import { blockBytes, endBytes, headerOf, nameClaimed, paddingAfter, sizeClaimed } from './tar.ts'

/** What a check of a bundle says. Only `good` is good. */
export interface BundleReport {
  /** `signature not checked`: all the rest agrees, and this machine cannot check the signature. */
  verdict: 'good' | 'broken' | 'signature not checked'
  /** In words: what differs first and where; null when nothing does. */
  firstDifference: string | null
  signature: SignatureAnswer | 'not reached'
  /** SHA-256 of the tree head: the one number that stands for the whole bundle. */
  fingerprint: string | null
  head: TreeHead | null
  manifest: Manifest | null
  chains: DeviceChain[]
  /** When the signing device wrote its key into its chain; null: the key stands only beside the signature. */
  keyPublishedAt: string | null
  bytes: number
}

export interface BundleListener {
  onProgress?: (done: number) => void
  onEntry?: (entry: EntryLine, hash: string) => void
  /** A member begins at this offset of the bundle. */
  onMember?: (member: MemberLine, offset: number) => void
}

const progressEveryBytes = 4 * 1024 * 1024

/**
 * Checks a bundle from its first byte to its last, in one pass and in little memory, and stops at the first difference.
 * Every byte counts: the headers must be the very ones that a bundle has, padding must be zero, nothing may follow.
 * @throws only what reading the bytes throws; a bad bundle is an answer
 */
export async function readBundle(
  chunks: AsyncIterable<Uint8Array>,
  hashing: Hashing,
  listener: BundleListener = {},
): Promise<BundleReport> {
  const source = new ByteSource(chunks)
  const report: BundleReport = {
    verdict: 'broken',
    firstDifference: null,
    signature: 'not reached',
    fingerprint: null,
    head: null,
    manifest: null,
    chains: [],
    keyPublishedAt: null,
    bytes: 0,
  }
  try {
    const { manifest, head } = await readFront(source, hashing, report)
    await readMembers(source, hashing, { manifest, head, report, listener })
    await readEnd(source)
    report.verdict = report.signature === 'good' ? 'good' : 'signature not checked'
  } catch (fault) {
    if (!(fault instanceof BundleFault)) throw fault
    report.firstDifference = fault.message
  } finally {
    report.bytes = source.taken
    await source.leave()
  }
  return report
}

/** List of contents, tree head and signature: they come first, so that nothing is read that they do not cover. */
async function readFront(
  source: ByteSource,
  hashing: Hashing,
  report: BundleReport,
): Promise<{ manifest: Manifest; head: TreeHead }> {
  const manifestBytes = await smallMember(source, members.manifest, limits.manifestBytes)
  const manifest = manifestFrom(manifestBytes)
  report.manifest = manifest
  const headBytes = await smallMember(source, members.head, limits.headBytes)
  const head = headFrom(headBytes)
  report.head = head
  report.fingerprint = hexOf(hashing.sha256(headBytes))
  if (hexOf(hashing.sha256(manifestBytes)) !== head.manifestSha256) {
    throw new BundleFault(`${members.manifest} is not the one that was signed.`)
  }
  const { given, leftOut } = manifest.entries
  if (head.size !== given + leftOut) {
    throw new BundleFault(
      `${members.manifest} speaks of ${given + leftOut} entries; ${head.size} were signed.`,
    )
  }
  const signature = await smallMember(source, members.signature, 64)
  const publicKey = bytesOfHex(head.publicKey)
  report.signature = await hashing.checkSignature({ publicKey, message: headBytes, signature })
  if (report.signature === 'wrong') {
    throw new BundleFault(
      'The signature is wrong: the tree head was changed after it was signed, or it was signed with another key.',
    )
  }
  return { manifest, head }
}

interface Reading {
  manifest: Manifest
  head: TreeHead
  report: BundleReport
  listener: BundleListener
}

async function readMembers(source: ByteSource, hashing: Hashing, reading: Reading): Promise<void> {
  const { manifest, head, report, listener } = reading
  const lines = new EntryLines(hashing)
  let told = 0
  const progress = () => {
    if (source.taken - told < progressEveryBytes) return
    told = source.taken
    listener.onProgress?.(told)
  }
  for (const member of manifest.members) {
    await requireHeader(source, member.name, member.bytes)
    listener.onMember?.(member, source.taken)
    const hash = hashing.startSha256()
    const cutter =
      member.name === members.entries
        ? lineCutter(member.name, (line) => {
            const taken = lines.add(line)
            if (taken !== null) listener.onEntry?.(taken.entry, taken.hash)
          })
        : null
    const whole = await source.pass(member.bytes, (piece) => {
      hash.update(piece)
      cutter?.update(piece)
      progress()
    })
    if (!whole) throw truncated(member.name)
    cutter?.end()
    if (hexOf(hash.digest()) !== member.sha256)
      throw new BundleFault(`${member.name} was changed after it was signed.`)
    if (cutter !== null) requireEntries(lines, manifest, head)
    await requireZeros(source, paddingAfter(member.bytes), `after ${member.name}`)
  }
  report.chains = lines.chains()
  report.keyPublishedAt = lines.keyPublishedAt(head)
  requireNeeded(lines.needed(), manifest)
}

function requireEntries(lines: EntryLines, manifest: Manifest, head: TreeHead): void {
  const { given, leftOut } = manifest.entries
  if (lines.given !== given || lines.leftOut !== leftOut) {
    throw new BundleFault(
      `${members.entries} has ${lines.given} entries and leaves out ${lines.leftOut}; ${given} and ${leftOut} were signed.`,
    )
  }
  if (lines.root() !== head.root) throw new BundleFault('The entries do not make the tree that was signed.')
}

/** What an entry speaks of is here, or the list says that it is not. */
function requireNeeded(needed: ReadonlySet<string>, manifest: Manifest): void {
  const here = new Set(manifest.members.map(({ name }) => name))
  const missing = new Set(manifest.missing.map(({ name }) => name))
  for (const name of needed) {
    if (here.has(name) || missing.has(name)) continue
    throw new BundleFault(`An entry speaks of ${name}, which is neither in the bundle nor listed as missing.`)
  }
}

/** A member that is read into memory as a whole. */
async function smallMember(source: ByteSource, name: string, most: number): Promise<Uint8Array<ArrayBuffer>> {
  const header = await source.take(blockBytes)
  const size = sizeClaimed(header)
  const isFirst = name === members.manifest
  if (header.length < blockBytes || size === null || nameClaimed(header) !== name) {
    throw isFirst
      ? new BundleFault('This is not a signed bundle of Bayledger, or its beginning is lost.')
      : header.length < blockBytes
        ? truncated(name)
        : new BundleFault(`${name} is not where it must stand.`)
  }
  if (size > most)
    throw new BundleFault(`${name} is said to have ${size} bytes; at most ${most} are allowed.`)
  if (!sameBytes(header, headerOf(name, size))) throw changedHeader(name)
  if (name === members.signature && size !== most)
    throw new BundleFault(`The signature has ${size} bytes; 64 are needed.`)
  const bytes = await source.take(size)
  if (bytes.length < size) throw truncated(name)
  await requireZeros(source, paddingAfter(size), `after ${name}`)
  return bytes
}

async function requireHeader(source: ByteSource, name: string, size: number): Promise<void> {
  const header = await source.take(blockBytes)
  if (header.length < blockBytes) throw truncated(name)
  if (sameBytes(header, headerOf(name, size))) return
  const claimed = nameClaimed(header)
  if (claimed === name) throw changedHeader(name)
  if (header.every((byte) => byte === 0))
    throw new BundleFault(`The bundle ends where the signed list has ${name}.`)
  const shown = JSON.stringify(claimed.slice(0, 80))
  throw new BundleFault(`${shown} stands where the signed list has ${name}.`)
}

async function requireZeros(source: ByteSource, count: number, where: string): Promise<void> {
  const bytes = await source.take(count)
  if (bytes.length < count) throw truncated(where)
  if (bytes.some((byte) => byte !== 0)) throw new BundleFault(`There are bytes ${where} that no bundle has.`)
}

async function readEnd(source: ByteSource): Promise<void> {
  const end = await source.take(endBytes)
  if (end.length < endBytes) throw truncated('its end')
  if (end.some((byte) => byte !== 0))
    throw new BundleFault('Something stands after the last file of the signed list.')
  if (!(await source.isAtEnd())) throw new BundleFault('Something follows after the end of the bundle.')
}

function changedHeader(name: string): BundleFault {
  return new BundleFault(
    `The header of ${name} is not the one that a bundle has: size, owner or time was changed.`,
  )
}

function truncated(where: string): BundleFault {
  return new BundleFault(`The bundle ends too early, at ${where}: it was cut off or did not arrive whole.`)
}
