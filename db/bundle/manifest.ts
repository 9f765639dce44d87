import { canonicalJson } from '../canonical.ts'
import { textOfBytes } from './bytes.ts'
import { BundleFault } from './fault.ts'
import {
  bundleFormat,
  bundleVersion,
  hashedFolders,
  headFormat,
  limits,
  type Manifest,
  memberName,
  members,
  type TreeHead,
} from './format.ts'
import { mostMemberBytes } from './tar.ts'

type Shape = (value: unknown) => boolean

const text =
  (most: number): Shape =>
  (value) =>
    typeof value === 'string' && value.length <= most
const hex =
  (bytes: number): Shape =>
  (value) =>
    typeof value === 'string' && value.length === 2 * bytes && /^[0-9a-f]*$/.test(value)
const count: Shape = (value) => Number.isSafeInteger(value) && (value as number) >= 0
const instant: Shape = (value) => typeof value === 'string' && isInstant(value)
const orNull =
  (shape: Shape): Shape =>
  (value) =>
    value === null || shape(value)
const oneOf =
  (...words: readonly unknown[]): Shape =>
  (value) =>
    words.includes(value)
const listOf =
  (shape: Shape, most: number): Shape =>
  (value) =>
    Array.isArray(value) && value.length <= most && value.every(shape)
/** An object with these members and no others; those of `more` may be absent. */
const record =
  (shapes: Record<string, Shape>, more: Record<string, Shape> = {}): Shape =>
  (value) => {
    if (typeof value !== 'object' || value === null || Array.isArray(value)) return false
    const known = { ...more, ...shapes }
    return (
      Object.keys(shapes).every((key) => Object.hasOwn(value, key)) &&
      Object.entries(value).every(([key, one]) => Object.hasOwn(known, key) && known[key]!(one))
    )
  }

const uuid = text(64)
const manifestShape = record({
  format: oneOf(bundleFormat),
  version: oneOf(bundleVersion),
  made: record({ at: instant, by: text(400), program: text(100), device: uuid, deviceName: text(400) }),
  scope: record(
    {
      kind: oneOf('record', 'project', 'bays'),
      project: uuid,
      projectName: text(400),
      bays: listOf(record({ id: uuid, name: text(400) }), 100_000),
      asOf: orNull(instant),
      reason: orNull(text(4000)),
    },
    { baysOfProject: count },
  ),
  entries: record({ given: count, leftOut: count }),
  missing: listOf(record({ name: text(100), why: text(400) }), limits.members),
  members: listOf(record({ name: text(100), bytes: count, sha256: hex(32) }), limits.members),
})

const headShape = record({
  format: oneOf(headFormat),
  version: oneOf(bundleVersion),
  device: uuid,
  publicKey: hex(32),
  signedAt: instant,
  size: count,
  root: hex(32),
  manifestSha256: hex(32),
})

/** The manifest in these bytes. @throws BundleFault for anything but a manifest of this version */
export function manifestFrom(bytes: Uint8Array): Manifest {
  const manifest = shaped<Manifest>(bytes, members.manifest, bundleFormat, manifestShape)
  const seen = new Set<string>()
  for (const { name, bytes: size, sha256 } of manifest.members) {
    const shown = JSON.stringify(name.slice(0, 80))
    if (!memberName.test(name))
      throw new BundleFault(`The list of contents names ${shown}, which no bundle may hold.`)
    if (seen.has(name)) throw new BundleFault(`The list of contents names ${shown} twice.`)
    if (size > mostMemberBytes)
      throw new BundleFault(`${shown} is said to have ${size} bytes; that is too many.`)
    const [folder, hash] = name.split('/')
    if (hash !== undefined && (hash !== sha256 || !(hashedFolders as readonly string[]).includes(folder!)))
      throw new BundleFault(`${shown} is not named after its own SHA-256.`)
    seen.add(name)
  }
  for (const name of [members.readme, members.rules, members.entries]) {
    if (!seen.has(name)) throw new BundleFault(`The list of contents lacks ${name}.`)
  }
  return manifest
}

/** The tree head in these bytes. @throws BundleFault for anything but a tree head of this version */
export function headFrom(bytes: Uint8Array): TreeHead {
  return shaped<TreeHead>(bytes, members.head, headFormat, headShape)
}

function shaped<T>(bytes: Uint8Array, name: string, format: string, shape: Shape): T {
  const value = jsonIn(bytes, name)
  const said = value as { format?: unknown; version?: unknown } | null
  if (typeof said !== 'object' || said?.format !== format)
    throw new BundleFault(`${name} is not one of a signed bundle of Bayledger.`)
  if (typeof said.version === 'number' && said.version > bundleVersion) {
    throw new BundleFault(
      `This bundle was made by a newer Bayledger (bundle version ${said.version}; this one reads ${bundleVersion}). Update Bayledger, or take the verifier from a newer one.`,
    )
  }
  if (!shape(value)) throw new BundleFault(`${name} is not written as version ${bundleVersion} says.`)
  return value as T
}

/** JSON that is shallow enough to be looked at, in its one canonical form. */
function jsonIn(bytes: Uint8Array, name: string): unknown {
  const written = textOfBytes(bytes)
  if (written === null) throw new BundleFault(`${name} is not UTF-8 text.`)
  const value = parsedJson(written, name)
  if (!isCanonical(value, written)) throw new BundleFault(`${name} is not in canonical form.`)
  return value
}

function isCanonical(value: unknown, written: string): boolean {
  try {
    return canonicalJson(value) === written
  } catch (cause) {
    // A text with half a character in it has no canonical form.
    if (cause instanceof TypeError) return false
    throw cause
  }
}

/** What a JSON text says. @throws BundleFault when it is none, or nested deeper than any honest one */
export function parsedJson(written: string, name: string): unknown {
  let value: unknown
  try {
    value = JSON.parse(written)
  } catch (cause) {
    if (cause instanceof SyntaxError || cause instanceof RangeError)
      throw new BundleFault(`${name} is not JSON.`)
    throw cause
  }
  if (mayBeDeep(written) && isDeeperThan(value, limits.depth))
    throw new BundleFault(`${name} is nested deeper than ${limits.depth} levels.`)
  return value
}

/** A text with few opening brackets cannot be deep, which spares nearly every entry the walk through its parts. */
function mayBeDeep(written: string): boolean {
  let opened = 0
  for (const bracket of ['{', '[']) {
    for (let at = written.indexOf(bracket); at !== -1; at = written.indexOf(bracket, at + 1)) {
      opened += 1
      if (opened > limits.depth) return true
    }
  }
  return false
}

function isDeeperThan(value: unknown, levels: number): boolean {
  if (typeof value !== 'object' || value === null) return false
  if (levels === 0) return true
  for (const key in value) if (isDeeperThan((value as Record<string, unknown>)[key], levels - 1)) return true
  return false
}

function isInstant(value: string): boolean {
  return /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/.test(value) && !Number.isNaN(Date.parse(value))
}
