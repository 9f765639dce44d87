/** What a bundle is checked with. Node brings its own; a page brings WebCrypto and a SHA-256 that takes bytes as they come. */
export interface Hashing {
  /** SHA-256 of bytes that are all here. */
  sha256: (bytes: Uint8Array) => Uint8Array
  /** SHA-256 of bytes that come piece by piece. */
  startSha256: () => RunningSha256
  /** Ed25519 (RFC 8032) over the message as it is. `cannot` is a third answer and never counts as good. */
  checkSignature: (signed: Signed) => Promise<SignatureAnswer>
}

export interface RunningSha256 {
  update: (bytes: Uint8Array) => void
  digest: () => Uint8Array
}

export interface Signed {
  publicKey: Uint8Array<ArrayBuffer>
  message: Uint8Array<ArrayBuffer>
  signature: Uint8Array<ArrayBuffer>
}

export type SignatureAnswer = 'good' | 'wrong' | 'cannot'
