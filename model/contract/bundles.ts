import { eventIterator, oc, type } from '@orpc/contract'
import { z } from 'zod'
import type { StoryEntry } from '../record/entry.ts'
import { type EntryId, idOf } from '../record/ids.ts'
import { callErrors } from './errors.ts'

/** The ending of a signed bundle's file name. */
export const bundleFileEnding = '.baybundle'

/** What a bundle says about itself. */
export interface BundleAbout {
  madeAt: string
  by: string
  program: string
  device: string
  deviceName: string
  publicKey: string
  scope: 'record' | 'project' | 'bays'
  projectName: string
  bays: string[]
  /** Of a bundle of some bays: how many the project has in all; null when it does not say, or holds them all. */
  baysOfProject: number | null
  asOf: string | null
  reason: string | null
  /** Entries given, and entries of which only the hash is there. */
  given: number
  leftOut: number
  /** Photos and files that entries name and the bundle says it does not hold. */
  missing: number
  loggerFiles: number
  photos: number
}

/** A bundle of this data folder. */
export interface KeptBundle {
  /** Name of the file in the folder of bundles. */
  name: string
  file: string
  bytes: number
  /** SHA-256 of its tree head, to be noted elsewhere. */
  fingerprint: string
  about: BundleAbout
}

export type BundleEvent =
  | { kind: 'progress'; done: number; of: number }
  | { kind: 'done'; bundle: KeptBundle }

/**
 * Whether the signing key is the one that this record knows of that device. `first seen` and `another` ask for a look at
 * the fingerprint; `another` also for a question to whoever sent it.
 */
export type KeyTrust = 'known' | 'first seen' | 'another'

/** What taking a bundle in would do, or did. */
export interface BundleJoining {
  added: number
  known: number
  loggerFiles: number
  photos: number
  conflicts: number
  /** Entries that it leaves out and that are not here either: this record then holds a part of the project. */
  missing: number
}

export interface BundleCheck {
  upload: string
  fileName: string
  bytes: number
  /** `signature not checked`: all else agrees, and this machine cannot check the signature. It is not good. */
  verdict: 'good' | 'broken' | 'signature not checked'
  /** In words: what differs first; null when nothing does. */
  firstDifference: string | null
  fingerprint: string | null
  about: BundleAbout | null
  key: { trust: KeyTrust; knownSince: string | null } | null
  /** What taking it in would do; null when it cannot be taken in. */
  joining: BundleJoining | null
  /** Why it cannot be taken in though it may be good, in a sentence; null when it can. */
  notJoined: string | null
}

export type BundleCheckEvent =
  | { kind: 'progress'; done: number; of: number }
  | { kind: 'done'; check: BundleCheck }

export type TakeInEvent =
  | { kind: 'progress'; done: number; of: number }
  | { kind: 'done'; joined: BundleJoining }

/** A fact with two corrections of one version, and the ends between which a person has to choose. */
export interface ConflictToSettle {
  fact: StoryEntry
  ends: EntryId[]
}

const call = oc.errors(callErrors)
const upload = z.string().regex(/^[0-9a-f]{32}$/, 'is not an upload of this session')
const scope = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('record') }),
  z.strictObject({ kind: z.literal('project') }),
  z.strictObject({ kind: z.literal('bays'), bays: z.array(idOf('bay')).min(1).max(5000) }),
])

/** Signed bundles: made here, or received, checked, taken in and settled. */
export const bundleCalls = {
  /** Writes a signed bundle into the data folder. `asOf` and `reason` freeze it as evidence of a moment. */
  make: call
    .input(
      z.strictObject({
        project: idOf('project'),
        person: idOf('person'),
        scope,
        asOf: z.iso.datetime({ offset: true }).optional(),
        reason: z.string().trim().min(1).max(1000).optional(),
      }),
    )
    .output(eventIterator(type<BundleEvent>())),
  /** The bundles of this data folder, newest first. */
  list: call.output(type<{ folder: string; bundles: KeptBundle[] }>()),
  /** The bytes of one of them, to be saved elsewhere. */
  file: call.input(z.strictObject({ name: z.string().min(1).max(200) })).output(type<Blob>()),
  /** Checks a received bundle from its first byte to its last, and tries what taking it in would do. Nothing is written. */
  check: call.input(z.strictObject({ upload })).output(eventIterator(type<BundleCheckEvent>())),
  /**
   * Takes in what is new. `fingerprint` is that of the bundle which was checked and seen. `person` is who takes it in: of
   * the bundle's project when that is here, else of another one; nobody only while the record knows no people.
   */
  takeIn: call
    .input(
      z.strictObject({
        upload,
        fingerprint: z.string().regex(/^[0-9a-f]{64}$/),
        person: idOf('person').optional(),
      }),
    )
    .output(eventIterator(type<TakeInEvent>())),
  /** Facts of a project on which two corrections stand side by side. */
  conflicts: call
    .input(z.strictObject({ project: idOf('project') }))
    .output(type<{ conflicts: ConflictToSettle[] }>()),
}
