/** Small tools for bytes that run wherever the checker runs: in Node and in a page opened from disk. */

const hexDigits = Array.from({ length: 256 }, (_, byte) => byte.toString(16).padStart(2, '0'))

export function hexOf(bytes: Uint8Array): string {
  let text = ''
  for (let i = 0; i < bytes.length; i++) text += hexDigits[bytes[i]!]
  return text
}

/** The bytes of lower-case hex; the caller has made sure that it is. */
export function bytesOfHex(hex: string): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(hex.length / 2)
  for (let i = 0; i < bytes.length; i++) bytes[i] = Number.parseInt(hex.slice(2 * i, 2 * i + 2), 16)
  return bytes
}

export function sameBytes(a: Uint8Array, b: Uint8Array): boolean {
  return a.length === b.length && a.every((byte, i) => byte === b[i])
}

export function joined(parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0))
  let at = 0
  for (const part of parts) {
    whole.set(part, at)
    at += part.length
  }
  return whole
}

const strictUtf8 = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true })

/** The text of UTF-8 bytes; null when they are not UTF-8. */
export function textOfBytes(bytes: Uint8Array): string | null {
  try {
    return strictUtf8.decode(bytes)
  } catch (cause) {
    if (cause instanceof TypeError) return null
    throw cause
  }
}

export function bytesOfText(text: string): Uint8Array<ArrayBuffer> {
  return new TextEncoder().encode(text)
}
