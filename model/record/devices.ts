import { entryKind } from './entry-kind.ts'
import { choice, text } from './fields.ts'

/**
 * The public key with which a device signs what it hands over. It stands in the chain of that device; the private key
 * never enters the record.
 */
export const deviceKeyPublished = entryKind({
  kind: 'device-key-published',
  title: 'Signing key published',
  about: 'project',
  fields: {
    device: text('Device', { max: 64 }),
    name: text('Machine'),
    algorithm: choice('Algorithm', { Ed25519: 'Ed25519' }),
    publicKey: text('Public key', { max: 64 }),
  },
  problems: ({ publicKey }) =>
    /^[0-9a-f]{64}$/.test(publicKey)
      ? []
      : [{ field: 'publicKey', message: 'must be 32 bytes: 64 digits and letters a to f' }],
})
