import crypto from 'node:crypto'
import type { Hashing } from './hashing.ts'

/** RFC 8410, 4: what stands before the 32 bytes of an Ed25519 key in its DER form (from memory; OpenSSL reads it so). */
export const publicKeyPrefix = Buffer.from('302a300506032b6570032100', 'hex')

/** Node's own hashes and signatures; an older Node lacks the quick way to hash what is all here. */
export const nodeHashing: Hashing = {
  sha256: (bytes) =>
    crypto.hash === undefined
      ? crypto.createHash('sha256').update(bytes).digest()
      : crypto.hash('sha256', bytes, 'buffer'),
  startSha256: () => {
    const running = crypto.createHash('sha256')
    return { update: (bytes) => void running.update(bytes), digest: () => running.digest() }
  },
  checkSignature: async ({ publicKey, message, signature }) => {
    const der = Buffer.concat([publicKeyPrefix, publicKey])
    const key = crypto.createPublicKey({ key: der, format: 'der', type: 'spki' })
    return crypto.verify(null, message, key, signature) ? 'good' : 'wrong'
  },
}
