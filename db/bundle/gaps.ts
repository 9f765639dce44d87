import type { LedgerEntry } from '#model/record/entry.ts'
import { plucked, prepared, type Sqlite } from '../handles.ts'
import { sha256Hex } from '../hash.ts'
import { givenBy, keepPart, leafList, partsIn, withoutThoseHere } from '../parts.ts'
import { BundleFault } from './fault.ts'
import { frontBytesOf } from './front.ts'
import { manifestFrom } from './manifest.ts'

/** What a bundle leaves out while it is taken in, and whether its entries fit into what is here. */
export interface Gaps {
  /** Hashes of the entries left out so far: a chain may go on after one of them. */
  leftOut: ReadonlySet<string>
  leaveOut: (hash: string) => void
  give: (hash: string) => void
  /** @throws BundleFault when the entry would tear a chain that is whole here, or fill a gap from inside */
  requireFits: (entry: LedgerEntry) => void
  /**
   * Keeps the bundle as a part when it leaves out what is not here either.
   * @returns how many entries that are
   */
  keep: (bundle: { file: string; now: number }) => number
}

/**
 * A record may hold a part of what a device wrote: the bundle that it came in is kept as the proof of its gaps. A chain
 * that is whole here stays whole, so that the next bundle of the whole record still fits.
 */
export function gapsFor(sqlite: Sqlite): Gaps {
  const leaves = leafList()
  const leftOut = new Set<string>()
  const whole = wholeChains(sqlite)
  return {
    leftOut,
    leaveOut: (hash) => {
      leaves.add({ given: false, hash })
      leftOut.add(hash)
    },
    give: (hash) => leaves.add({ given: true, hash }),
    requireFits: ({ device, deviceSeq }) => {
      const last = plucked<number | null>(sqlite, 'select max(deviceSeq) from ledger where device = ?').get(
        device,
      )
      const next = (last ?? 0) + 1
      if (deviceSeq > next && leftOut.size > 0 && whole.has(device)) throw new BundleFault(tears)
      const isTaken = prepared(sqlite, 'select 1 from ledger where device = ? and deviceSeq = ?')
      if (deviceSeq < next && isTaken.get(device, deviceSeq) === undefined) throw new BundleFault(fills)
    },
    keep: ({ file, now }) => {
      if (leftOut.size === 0) return 0
      const missing = new Set(leftOut)
      withoutThoseHere(sqlite, missing, 0)
      const { manifest, head, signature } = frontBytesOf(file)
      const fingerprint = sha256Hex(head)
      const isKept = prepared(sqlite, 'select 1 from parts where fingerprint = ?').get(fingerprint)
      if (missing.size > 0 && isKept === undefined) {
        const { project } = manifestFrom(manifest).scope
        const part = { fingerprint, project, takenInAt: now, manifest, head, signature }
        keepPart(sqlite, { ...part, leaves: leaves.bytes() })
      }
      return missing.size
    },
  }
}

const tears =
  'This record has all that the machine of this bundle wrote up to some day, and the bundle leaves out what it wrote after that: its chain would get a gap here. Ask for a bundle of the whole project or record. As evidence it can be checked and kept without being taken in.'
const fills =
  'This record holds a part, and the bundle brings entries from inside its gaps; the order of a record is that of its chain, so they cannot be put in between. Make a bundle here first, so that nothing written here is lost. Then open Bayledger on an empty folder, take in this fuller bundle, and after it the one made here: together they are the larger record, and facts that both corrected are shown for you to settle.'

/** The devices of which everything up to some entry is here, and of which no part was taken in. */
function wholeChains(sqlite: Sqlite): Set<string> {
  const chains = prepared<{ device: string }>(
    sqlite,
    'select device from ledger group by device having count(*) = max(deviceSeq)',
  ).all()
  const whole = new Set(chains.map(({ device }) => device))
  const parts = partsIn(sqlite)
  if (parts.length === 0) return whole
  const given = givenBy(parts)
  const rows = prepared<{ device: string; hash: string }>(sqlite, 'select device, hash from ledger')
  for (const { device, hash } of rows.iterate()) if (given.has(hash)) whole.delete(device)
  return whole
}
