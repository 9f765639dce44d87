import { closeSync, openSync, readSync } from 'node:fs'
import { sha256Hex } from '../hash.ts'
import { BundleFault } from './fault.ts'
import { limits, type Manifest, members, type TreeHead } from './format.ts'
import { headFrom, manifestFrom } from './manifest.ts'
import { blockBytes, nameClaimed, paddingAfter, sizeClaimed } from './tar.ts'

export interface BundleFront {
  manifest: Manifest
  head: TreeHead
  fingerprint: string
}

export interface FrontBytes {
  manifest: Buffer
  head: Buffer
  signature: Buffer
}

/** The bytes of the first three files of a bundle that was checked: what was signed, and the signature. */
export function frontBytesOf(file: string): FrontBytes {
  const handle = openSync(file, 'r')
  try {
    const manifest = smallMember(handle, members.manifest, 0)
    const head = manifest && smallMember(handle, members.head, manifest.end)
    const signature = head && smallMember(handle, members.signature, head.end)
    if (manifest === null || head === null || signature === null)
      throw new BundleFault('The bundle has another beginning than a moment ago.')
    return { manifest: manifest.bytes, head: head.bytes, signature: signature.bytes }
  } finally {
    closeSync(handle)
  }
}

/**
 * What a bundle says about itself, from its first files alone, to show it in a list; nothing is checked but their form.
 * Null for a file that does not begin like a bundle.
 */
export function frontOf(file: string): BundleFront | null {
  const handle = openSync(file, 'r')
  try {
    const manifest = smallMember(handle, members.manifest, 0)
    const head = manifest === null ? null : smallMember(handle, members.head, manifest.end)
    if (manifest === null || head === null) return null
    return {
      manifest: manifestFrom(manifest.bytes),
      head: headFrom(head.bytes),
      fingerprint: sha256Hex(head.bytes),
    }
  } catch (cause) {
    if (cause instanceof BundleFault) return null
    throw cause
  } finally {
    closeSync(handle)
  }
}

function smallMember(handle: number, name: string, from: number): { bytes: Buffer; end: number } | null {
  const header = Buffer.alloc(blockBytes)
  if (readSync(handle, header, 0, blockBytes, from) < blockBytes || nameClaimed(header) !== name) return null
  const size = sizeClaimed(header)
  if (size === null || size > limits.manifestBytes) return null
  const bytes = Buffer.alloc(size)
  if (readSync(handle, bytes, 0, size, from + blockBytes) < size) return null
  return { bytes, end: from + blockBytes + size + paddingAfter(size) }
}
