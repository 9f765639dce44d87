import type { RunningSha256 } from './hashing.ts'

/** First 32 bits of the fractional parts of the cube roots of the first 64 primes; worked out, not typed. */
const constants = new Int32Array(64)
/** The same of the square roots of the first eight primes. */
const start = new Int32Array(8)
{
  const primes: number[] = []
  for (let n = 2; primes.length < 64; n++) if (primes.every((prime) => n % prime !== 0)) primes.push(n)
  const fraction = (root: number) => Math.floor((root - Math.floor(root)) * 2 ** 32) | 0
  for (const [i, prime] of primes.entries()) constants[i] = fraction(Math.cbrt(prime))
  for (let i = 0; i < 8; i++) start[i] = fraction(Math.sqrt(primes[i]!))
}

/**
 * SHA-256 of bytes that come piece by piece, for pages: WebCrypto only hashes what is in memory as a whole, and a bundle
 * with photos is larger than that.
 * @source FIPS 180-4, 4.2.2, 5.3.3, 6.2
 * @accuracy bit for bit as Node's own, on random pieces of random bytes (test SHA-1)
 * @provenance published; read from memory
 */
export function startPlainSha256(): RunningSha256 {
  const state = Int32Array.from(start)
  const words = new Int32Array(64)
  const block = new Uint8Array(64)
  let filled = 0
  let total = 0

  const update = (bytes: Uint8Array) => {
    total += bytes.length
    let at = 0
    if (filled > 0) {
      at = Math.min(64 - filled, bytes.length)
      block.set(bytes.subarray(0, at), filled)
      filled += at
      if (filled < 64) return
      compress(state, words, block, 0)
      filled = 0
    }
    for (; at + 64 <= bytes.length; at += 64) compress(state, words, bytes, at)
    block.set(bytes.subarray(at), 0)
    filled = bytes.length - at
  }

  const digest = () => {
    const bits = total * 8
    const end = new Uint8Array(filled < 56 ? 64 - filled : 128 - filled)
    end[0] = 0x80
    const view = new DataView(end.buffer)
    view.setUint32(end.length - 8, Math.floor(bits / 2 ** 32))
    view.setUint32(end.length - 4, bits >>> 0)
    update(end)
    const result = new Uint8Array(32)
    const out = new DataView(result.buffer)
    for (let i = 0; i < 8; i++) out.setInt32(4 * i, state[i]!)
    return result
  }
  return { update, digest }
}

export function plainSha256(bytes: Uint8Array): Uint8Array {
  const hash = startPlainSha256()
  hash.update(bytes)
  return hash.digest()
}

function compress(state: Int32Array, w: Int32Array, bytes: Uint8Array, from: number): void {
  for (let i = 0; i < 16; i++) {
    const at = from + 4 * i
    w[i] = (bytes[at]! << 24) | (bytes[at + 1]! << 16) | (bytes[at + 2]! << 8) | bytes[at + 3]!
  }
  for (let i = 16; i < 64; i++) {
    const x = w[i - 15]!
    const y = w[i - 2]!
    const low = turn(x, 7) ^ turn(x, 18) ^ (x >>> 3)
    const high = turn(y, 17) ^ turn(y, 19) ^ (y >>> 10)
    w[i] = (w[i - 16]! + low + w[i - 7]! + high) | 0
  }
  let [a, b, c, d, e, f, g, h] = state as unknown as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ]
  for (let i = 0; i < 64; i++) {
    const choice = (e & f) ^ (~e & g)
    const t1 = (h + (turn(e, 6) ^ turn(e, 11) ^ turn(e, 25)) + choice + constants[i]! + w[i]!) | 0
    const majority = (a & b) ^ (a & c) ^ (b & c)
    const t2 = ((turn(a, 2) ^ turn(a, 13) ^ turn(a, 22)) + majority) | 0
    h = g
    g = f
    f = e
    e = (d + t1) | 0
    d = c
    c = b
    b = a
    a = (t1 + t2) | 0
  }
  state[0]! += a
  state[1]! += b
  state[2]! += c
  state[3]! += d
  state[4]! += e
  state[5]! += f
  state[6]! += g
  state[7]! += h
}

function turn(x: number, by: number): number {
  return (x >>> by) | (x << (32 - by))
}
