import type { Hashing } from '#db/bundle/hashing.ts'
import { plainSha256, startPlainSha256 } from '#db/bundle/sha256.ts'

/**
 * Hashes in plain code, because WebCrypto cannot hash what comes piece by piece; the signature by WebCrypto. A browser
 * that has no Ed25519 answers `cannot`, which never counts as good.
 */
export const pageHashing: Hashing = {
  sha256: plainSha256,
  startSha256: startPlainSha256,
  checkSignature: async ({ publicKey, message, signature }) => {
    const subtle = globalThis.crypto?.subtle as SubtleCrypto | undefined
    if (subtle === undefined) return 'cannot'
    try {
      const key = await subtle.importKey('raw', publicKey, { name: 'Ed25519' }, false, ['verify'])
      return (await subtle.verify({ name: 'Ed25519' }, key, signature, message)) ? 'good' : 'wrong'
    } catch (cause) {
      if (!(cause instanceof DOMException)) throw cause
      return cause.name === 'NotSupportedError' ? 'cannot' : 'wrong'
    }
  },
}
