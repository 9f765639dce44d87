import { createPrivateKey, createPublicKey, generateKeyPairSync, type KeyObject, sign } from 'node:crypto'
import {
  chmodSync,
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readFileSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import path from 'node:path'
import { syncToDisk } from '../disk.ts'
import { onDisk, RecordError } from '../errors.ts'

/** The key with which one device signs. The private half never leaves its file. */
export interface DeviceKey {
  device: string
  /** Ed25519, 32 bytes as hex. */
  publicKey: string
  /** 64 bytes over the message as it is (RFC 8032, pure Ed25519). */
  sign: (message: Uint8Array) => Buffer
}

/** Nobody but the owner may read a key: other users of the machine could sign in its name. */
const onlyOwner = 0o600
const derPrefixBytes = 12

/**
 * The key of a device, made when there is none. It is a file of its own in the data folder, never in the record: what is
 * handed over, copied or merged must not carry it. The file of another device beside it, as in a copied folder, is not used.
 * @throws RecordError full, read-only, corrupt (the file is there and holds no key)
 */
export function deviceKey(folder: string, device: string): DeviceKey {
  const file = path.join(folder, `${device}.pem`)
  return onDisk(file, () => {
    const key = existsSync(file) ? readKey(file) : makeKey(folder, file)
    return { device, publicKey: publicHex(key), sign: (message) => sign(null, message, key) }
  })
}

function makeKey(folder: string, file: string): KeyObject {
  mkdirSync(folder, { recursive: true, mode: 0o700 })
  const { privateKey } = generateKeyPairSync('ed25519')
  const handle = openSync(file, 'wx', onlyOwner)
  try {
    writeFileSync(handle, privateKey.export({ type: 'pkcs8', format: 'pem' }))
    fsyncSync(handle)
  } finally {
    closeSync(handle)
  }
  syncToDisk(folder)
  return privateKey
}

function readKey(file: string): KeyObject {
  // A tool that copied the folder may have opened the file to others; where modes mean nothing, this changes nothing.
  if ((statSync(file).mode & 0o077) !== 0) chmodSync(file, onlyOwner)
  const key = parsed(file)
  if (key?.asymmetricKeyType === 'ed25519') return key
  throw new RecordError(
    'corrupt',
    `${file} holds no signing key. Move it aside; the next bundle is then signed with a new key, which will be shown as new to whoever knows the old one.`,
  )
}

function parsed(file: string): KeyObject | null {
  try {
    return createPrivateKey(readFileSync(file))
  } catch (cause) {
    if (cause instanceof Error && 'code' in cause && String(cause.code).startsWith('ERR_OSSL')) return null
    throw cause
  }
}

function publicHex(key: KeyObject): string {
  return createPublicKey(key).export({ type: 'spki', format: 'der' }).subarray(derPrefixBytes).toString('hex')
}
