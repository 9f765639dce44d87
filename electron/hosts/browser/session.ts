import { createHash, randomBytes, timingSafeEqual } from 'node:crypto'

/** A token of 256 random bits, fresh at every start and never written to disk. */
export function freshToken(): string {
  return randomBytes(32).toString('base64url')
}

/**
 * True when an Authorization header carries the token. Both sides are hashed first, so that the comparison takes the
 * same time whatever the length and the place of the first difference.
 */
export function carriesToken(header: string | undefined, token: string): boolean {
  const digest = (text: string) => createHash('sha256').update(text).digest()
  return timingSafeEqual(digest(header ?? ''), digest(`Bearer ${token}`))
}
