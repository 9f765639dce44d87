import { createHash } from 'node:crypto'
import type { LedgerEntry } from '#model/record/entry.ts'
import { canonicalJson } from './canonical.ts'

/** The `prevHash` of a device's first entry. */
export const chainStart = '0'.repeat(64)

/** SHA-256 of bytes or UTF-8 text, lower-case hex. */
export function sha256Hex(data: Uint8Array | string): string {
  return createHash('sha256').update(data).digest('hex')
}

/**
 * The hash of an entry: SHA-256 over the canonical JSON of everything it says, with the hash of the entry that the
 * same device wrote before it. Its place in this file (`seq`) is left out, because another file may hold it elsewhere.
 */
export function entryHash(entry: Omit<LedgerEntry, 'seq' | 'hash'>): string {
  return sha256Hex(
    canonicalJson({
      id: entry.id,
      device: entry.device,
      deviceSeq: entry.deviceSeq,
      project: entry.project,
      subject: entry.subject,
      kind: entry.kind,
      kindVersion: entry.kindVersion,
      happenedAt: entry.happenedAt,
      zone: entry.zone,
      recordedAt: entry.recordedAt,
      person: entry.person,
      source: entry.source,
      body: entry.body,
      answers: entry.answers,
      corrects: entry.corrects,
      reason: entry.reason,
      prevHash: entry.prevHash,
    }),
  )
}

/** SHA-256 of readings as pairs (time in epoch ms, value), each a little-endian IEEE 754 double. */
export function readingsHash(at: ArrayLike<number>, value: ArrayLike<number>): string {
  const hash = createHash('sha256')
  const pairsAtOnce = 65_536
  for (let from = 0; from < at.length; from += pairsAtOnce) {
    const count = Math.min(pairsAtOnce, at.length - from)
    const bytes = new DataView(new ArrayBuffer(count * 16))
    for (let i = 0; i < count; i++) {
      bytes.setFloat64(i * 16, at[from + i]!, true)
      bytes.setFloat64(i * 16 + 8, value[from + i]!, true)
    }
    hash.update(bytes)
  }
  return hash.digest('hex')
}
