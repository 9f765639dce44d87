import { bytesOfHex, hexOf, textOfBytes } from './bytes.ts'
import { BundleFault } from './fault.ts'
import { members, type TreeHead } from './format.ts'
import type { Hashing } from './hashing.ts'
import { parsedJson } from './manifest.ts'
import { MerkleTree } from './merkle.ts'

/** What the checker reads of an entry; the rest is covered by its hash. */
export interface EntryLine {
  id: string
  device: string
  deviceSeq: number
  prevHash: string
  recordedAt: string
  kind: string
  corrects: string | null
  body: Record<string, unknown>
}

export interface DeviceChain {
  device: string
  /** Entries of this device in the bundle. */
  entries: number
  /** Number and hash of its newest one here. */
  lastNumber: number
  head: string
}

const chainStart = '0'.repeat(64)
const hash = /^[0-9a-f]{64}$/

/**
 * Follows the entries of a bundle line by line: the SHA-256 of a line is the hash of the entry, each entry follows the
 * one that its device wrote before, and all hashes are the leaves of one tree. A line that holds only a hash stands
 * for an entry that was left out.
 */
export class EntryLines {
  readonly #hashing: Hashing
  readonly #tree: MerkleTree
  readonly #chains = new Map<string, DeviceChain>()
  readonly #leftOut = new Set<string>()
  readonly #needed = new Set<string>()
  readonly #keys = new Map<string, string>()
  #given = 0

  constructor(hashing: Hashing) {
    this.#hashing = hashing
    this.#tree = new MerkleTree(hashing.sha256)
  }

  /** Takes the next line. Returns the entry and its hash; null for one that was left out. */
  add(bytes: Uint8Array): { entry: EntryLine; hash: string } | null {
    const name = `Line ${this.#tree.size + 1} of ${members.entries}`
    const written = textOfBytes(bytes)
    if (written === null) throw new BundleFault(`${name} is not UTF-8 text.`)
    const value = parsedJson(written, name)
    if (typeof value === 'string') {
      if (written !== `"${value}"` || !hash.test(value))
        throw new BundleFault(`${name} is neither an entry nor a hash.`)
      this.#leftOut.add(value)
      this.#tree.add(bytesOfHex(value))
      return null
    }
    const entry = entryIn(value, name)
    const digest = this.#hashing.sha256(bytes)
    const own = hexOf(digest)
    this.#follow(entry, own, name)
    this.#tree.add(digest)
    this.#given += 1
    this.#note(entry)
    return { entry, hash: own }
  }

  get given(): number {
    return this.#given
  }

  get leftOut(): number {
    return this.#tree.size - this.#given
  }

  get size(): number {
    return this.#tree.size
  }

  root(): string {
    return hexOf(this.#tree.root())
  }

  chains(): DeviceChain[] {
    return [...this.#chains.values()]
  }

  /** Names of the members that the entries speak of: logger files, their readings, photos. */
  needed(): ReadonlySet<string> {
    return this.#needed
  }

  /** When the device of this head wrote the key of this head into its own chain; null when it did not, here. */
  keyPublishedAt({ device, publicKey }: Pick<TreeHead, 'device' | 'publicKey'>): string | null {
    return this.#keys.get(`${device} ${publicKey}`) ?? null
  }

  #follow(entry: EntryLine, own: string, name: string): void {
    const { device, deviceSeq, prevHash } = entry
    const last = this.#chains.get(device)
    const follows = (last?.lastNumber ?? 0) + 1
    const title = `${name} (entry ${deviceSeq} of device ${device})`
    if (deviceSeq < follows)
      throw new BundleFault(`${title} stands where entry ${follows} of that device should follow.`)
    if (deviceSeq === follows && prevHash !== (last?.head ?? chainStart)) {
      throw new BundleFault(
        `${title} does not follow the entry before it: that one was changed after it was written, or another stood there.`,
      )
    }
    if (deviceSeq > follows && !this.#leftOut.has(prevHash)) {
      throw new BundleFault(`${title} follows an entry that is neither here nor left out by its hash.`)
    }
    this.#chains.set(device, { device, entries: (last?.entries ?? 0) + 1, lastNumber: deviceSeq, head: own })
  }

  #note({ kind, device, corrects, body, recordedAt }: EntryLine): void {
    if (kind === 'logger-imported' && corrects === null) {
      this.#needed.add(`files/${String(body.sha256)}`)
      for (const column of Array.isArray(body.columns) ? body.columns : []) {
        this.#needed.add(`series/${String((column as { readingsSha256?: unknown } | null)?.readingsSha256)}`)
      }
    }
    if (kind === 'photo-added') this.#needed.add(`photos/${String(body.sha256)}`)
    // A device speaks only for itself: a key that another one wrote under its name counts for nothing.
    if (kind === 'device-key-published' && body.device === device) {
      const key = `${device} ${String(body.publicKey)}`
      if (!this.#keys.has(key)) this.#keys.set(key, recordedAt)
    }
  }
}

function entryIn(value: unknown, name: string): EntryLine {
  const entry = value as Partial<EntryLine> | null
  const fits =
    typeof entry === 'object' &&
    entry !== null &&
    typeof entry.id === 'string' &&
    typeof entry.device === 'string' &&
    typeof entry.kind === 'string' &&
    typeof entry.recordedAt === 'string' &&
    typeof entry.prevHash === 'string' &&
    Number.isSafeInteger(entry.deviceSeq) &&
    (entry.corrects === null || typeof entry.corrects === 'string') &&
    typeof entry.body === 'object' &&
    entry.body !== null
  if (!fits) throw new BundleFault(`${name} is neither an entry nor a hash.`)
  return entry as EntryLine
}
