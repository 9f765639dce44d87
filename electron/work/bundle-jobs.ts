import { basename } from 'node:path'
import { BundleFault } from '#db/bundle/fault.ts'
import type { Manifest, TreeHead } from '#db/bundle/format.ts'
import { type BundleAsked, type MakingPlace, makeBundle } from '#db/bundle/make-bundle.ts'
import type { BundleReport } from '#db/bundle/read-bundle.ts'
import { checkBundle, type Places, takeIn } from '#db/bundle/take-in.ts'
import { closeRecord, openRecord, RecordError, type RecordFile } from '#db/index.ts'
import { keysOfDevice } from '#db/signing/publish-key.ts'
import type { BundleAbout, BundleCheck, BundleJoining, KeptBundle } from '#model/contract/bundles.ts'
import { InputError } from '#model/errors.ts'
import type { Report } from './jobs.ts'

export interface MakeBundleQuestion {
  recordFile: string
  asked: BundleAsked
  place: MakingPlace
}

/** Makes a signed bundle over connections of this thread; see `makeBundle`. */
export async function makeBundleHere(
  { recordFile, asked, place }: MakeBundleQuestion,
  onProgress: Report,
): Promise<KeptBundle> {
  const record = openRecord(recordFile, { now: place.now, skipLook: true })
  try {
    const { file, bytes, fingerprint, manifest, head } = makeBundle(record, asked, place, onProgress)
    return { name: basename(file), file, bytes, fingerprint, about: aboutOf(manifest, head) }
  } finally {
    closeRecord(record)
  }
}

export interface ReceivedBundle {
  recordFile: string
  /** Where the file waits. */
  path: string
  now: number
}

type Checked = Omit<BundleCheck, 'upload' | 'fileName' | 'bytes'>

/** Checks a received bundle and tries what taking it in would do; everything tried is undone. */
export async function checkReceived(
  { recordFile, path, now }: ReceivedBundle,
  onProgress: Report,
): Promise<Checked> {
  const { report, places } = await checkBundle(path, onProgress)
  const { verdict, firstDifference, fingerprint, head, manifest } = report
  const said = {
    verdict,
    firstDifference,
    fingerprint,
    about: manifest === null || head === null ? null : aboutOf(manifest, head),
  }
  if (verdict !== 'good') {
    const notJoined = 'Only a bundle in which everything agrees is taken in.'
    return { ...said, key: null, joining: null, notJoined }
  }
  const record = openRecord(recordFile, { now, skipLook: true })
  try {
    return { ...said, key: trustOf(record, report), ...tried(record, path, { places, now }) }
  } finally {
    closeRecord(record)
  }
}

/**
 * Takes a bundle in: it is checked again, from its first byte to its last, and then merged in one transaction.
 * @throws InputError when it is not the one that was checked, or cannot be taken in; nothing is written then
 */
export async function takeInReceived(
  { recordFile, path, now, fingerprint }: ReceivedBundle & { fingerprint: string },
  onProgress: Report,
): Promise<BundleJoining> {
  const { report, places } = await checkBundle(path, onProgress)
  if (report.verdict !== 'good') throw new InputError('bundle', report.firstDifference ?? report.verdict)
  if (report.fingerprint !== fingerprint) {
    throw new InputError(
      'fingerprint',
      'This is another bundle than the one that was checked. Check it first.',
    )
  }
  const record = openRecord(recordFile, { now, skipLook: true })
  try {
    return takeIn(record, path, places, { forGood: true, now })
  } catch (cause) {
    if (cause instanceof BundleFault) throw new InputError('bundle', `${cause.message} Nothing was taken in.`)
    throw cause
  } finally {
    closeRecord(record)
  }
}

function tried(
  record: RecordFile,
  path: string,
  { places, now }: { places: Places; now: number },
): Pick<BundleCheck, 'joining' | 'notJoined'> {
  try {
    return { joining: takeIn(record, path, places, { forGood: false, now }), notJoined: null }
  } catch (cause) {
    const readOnly = cause instanceof RecordError && ['read-only', 'newer version'].includes(cause.state)
    if (cause instanceof BundleFault || readOnly) return { joining: null, notJoined: cause.message }
    throw cause
  }
}

function trustOf(record: RecordFile, { head }: BundleReport): BundleCheck['key'] {
  if (head === null) return null
  const known = keysOfDevice(record.read, head.device)
  const same = known.find(({ publicKey }) => publicKey === head.publicKey)
  if (same !== undefined) return { trust: 'known', knownSince: same.at }
  const first = known[0]
  return first === undefined
    ? { trust: 'first seen', knownSince: null }
    : { trust: 'another', knownSince: first.at }
}

/** What a bundle says about itself, for people. */
export function aboutOf({ made, scope, entries, missing, members }: Manifest, head: TreeHead): BundleAbout {
  const inFolder = (folder: string) => members.filter(({ name }) => name.startsWith(`${folder}/`)).length
  return {
    madeAt: made.at,
    by: made.by,
    program: made.program,
    device: head.device,
    deviceName: made.deviceName,
    publicKey: head.publicKey,
    scope: scope.kind,
    projectName: scope.projectName,
    bays: scope.bays.map(({ name }) => name),
    baysOfProject: scope.baysOfProject ?? null,
    asOf: scope.asOf,
    reason: scope.reason,
    given: entries.given,
    leftOut: entries.leftOut,
    missing: missing.length,
    loggerFiles: inFolder('files'),
    photos: inFolder('photos'),
  }
}
