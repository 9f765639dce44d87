import { randomBytes, scrypt, timingSafeEqual } from 'node:crypto'
import type { PinKept } from '../data-folder/pin-file.ts'

type Hashed = Pick<PinKept, 'n' | 'r' | 'p' | 'salt' | 'hash'>

/**
 * The cost of one try: 128 MiB and, measured on a busy two-core machine, 1.0 s. It slows down who copied the file, and the
 * one who signs waits once in ten minutes.
 * @source RFC 7914; OWASP Password Storage Cheat Sheet, scrypt N = 2^17, r = 8, p = 1. @provenance from memory
 */
export const usualCost = 2 ** 17
const [r, p] = [8, 1]
const hashBytes = 32

/** Returns what is kept of a PIN: a salt of its own and the scrypt hash. */
export async function hashPin(pin: string, n: number = usualCost): Promise<Hashed> {
  const salt = randomBytes(16)
  const hash = await derive(pin, salt, { n, r, p }, hashBytes)
  return { n, r, p, salt: salt.toString('hex'), hash: hash.toString('hex') }
}

/** True when it is the PIN; takes as long when it is not. */
export async function isPin(pin: string, kept: Hashed): Promise<boolean> {
  const wanted = Buffer.from(kept.hash, 'hex')
  const found = await derive(pin, Buffer.from(kept.salt, 'hex'), kept, wanted.length)
  return timingSafeEqual(found, wanted)
}

function derive(
  pin: string,
  salt: Buffer,
  cost: Pick<Hashed, 'n' | 'r' | 'p'>,
  bytes: number,
): Promise<Buffer> {
  // Node refuses more than 32 MiB unless told; RFC 7914 needs 128·N·r bytes.
  const options = { N: cost.n, r: cost.r, p: cost.p, maxmem: 256 * cost.n * cost.r }
  return new Promise((resolve, reject) => {
    scrypt(pin.normalize('NFKC'), salt, bytes, options, (error, key) =>
      error ? reject(error) : resolve(key),
    )
  })
}
