import { bytesOfText } from './bytes.ts'

/** A block of a tar archive [bytes]. */
export const blockBytes = 512

/** Largest member that eleven octal digits can tell the size of [bytes]. */
export const mostMemberBytes = 8 ** 11 - 1

/** What ends an archive: two blocks of zeros. */
export const endBytes = 2 * blockBytes

/**
 * The header of a plain file of this name and size, with nothing in it that could differ: no time, no owner. The writer
 * writes it and the checker expects exactly these bytes, so that a header cannot be changed unseen.
 * @source POSIX.1-2001 pax, ustar interchange format: offsets and field widths of the header block
 * @provenance published; read from memory, and checked by two other readers of tar in the tests
 */
export function headerOf(name: string, size: number): Uint8Array<ArrayBuffer> {
  const header = new Uint8Array(blockBytes)
  const put = (text: string, at: number) => header.set(bytesOfText(text), at)
  const octal = (value: number, digits: number) => `${value.toString(8).padStart(digits, '0')}\0`
  put(name, 0)
  put(octal(0o644, 7), 100)
  put(octal(0, 7), 108)
  put(octal(0, 7), 116)
  put(octal(size, 11), 124)
  put(octal(0, 11), 136)
  put('        ', 148)
  put('0', 156)
  put('ustar\0', 257)
  put('00', 263)
  const sum = header.reduce((total, byte) => total + byte, 0)
  put(`${sum.toString(8).padStart(6, '0')}\0 `, 148)
  return header
}

/** Zeros after a member up to the next block [bytes]. */
export function paddingAfter(size: number): number {
  return (blockBytes - (size % blockBytes)) % blockBytes
}

/** The size that a header claims; null when the field is not eleven octal digits. */
export function sizeClaimed(header: Uint8Array): number | null {
  const field = String.fromCharCode(...header.subarray(124, 136))
  return /^[0-7]{11}\0$/.test(field) ? Number.parseInt(field, 8) : null
}

/** The name that a header claims, as far as it can be shown. */
export function nameClaimed(header: Uint8Array): string {
  const field = header.subarray(0, 100)
  const end = field.indexOf(0)
  return String.fromCharCode(...field.subarray(0, end === -1 ? 100 : end))
}
