import { existsSync, openAsBlob, readdirSync, statSync } from 'node:fs'
import { basename, join } from 'node:path'
import { frontOf } from '#db/bundle/front.ts'
import { UnknownId } from '#db/index.ts'
import { conflictsOf } from '#db/queries/conflicts.ts'
import { companyOf, isWithoutPeople, personOf } from '#db/queries/people.ts'
import {
  type BundleCheckEvent,
  type BundleEvent,
  bundleFileEnding,
  type KeptBundle,
  type TakeInEvent,
} from '#model/contract/bundles.ts'
import { aboutOf } from '../work/bundle-jobs.ts'
import { requireMayCall } from './allowed.ts'
import { calls } from './base.ts'
import { callError } from './call-errors.ts'
import { withProgress } from './progress.ts'
import type { Services } from './services.ts'
import { bundlesIn, signBundle } from './sign-bundle.ts'

export const make = calls.bundles.make.handler(async function* ({
  context,
  input,
  signal,
}): AsyncGenerator<BundleEvent, void, void> {
  const { project, person, scope, asOf, reason } = input
  requireMayCall(context, 'bundles.make', person, project)
  const asked = {
    project,
    person,
    scope,
    asOf: asOf === undefined ? null : Date.parse(asOf),
    reason: reason ?? null,
  }
  const bundle = yield* signBundle(context, asked, signal)
  yield { kind: 'done', bundle }
})

export const list = calls.bundles.list.handler(({ context }) => {
  const folder = bundlesIn(context)
  const names = existsSync(folder) ? readdirSync(folder) : []
  const bundles = names
    .filter((name) => name.endsWith(bundleFileEnding))
    .flatMap((name) => kept(join(folder, name)))
    .sort((a, b) => (a.about.madeAt < b.about.madeAt ? 1 : -1))
  return { folder, bundles }
})

export const file = calls.bundles.file.handler(async ({ context, input }) => {
  const folder = bundlesIn(context)
  // Only a name that stands in the folder is taken, so that no name leads out of it.
  const name = existsSync(folder) ? readdirSync(folder).find((one) => one === input.name) : undefined
  if (name === undefined || !name.endsWith(bundleFileEnding)) throw new UnknownId('bundle', input.name)
  return openAsBlob(join(folder, name))
})

export const check = calls.bundles.check.handler(async function* ({
  context,
  input,
  signal,
}): AsyncGenerator<BundleCheckEvent, void, void> {
  const { id, path, fileName, bytes } = context.uploads.find(input.upload)
  const job = { recordFile: context.record.current().file, path, now: context.clock() }
  const said = yield* withProgress((options) => context.workers.run('check bundle', job, options), signal)
  yield { kind: 'done', check: { upload: id, fileName, bytes, ...said } }
})

export const takeIn = calls.bundles.takeIn.handler(async function* ({
  context,
  input,
  signal,
}): AsyncGenerator<TakeInEvent, void, void> {
  const { id, path } = context.uploads.find(input.upload)
  const { fingerprint, person } = input
  requireMayTakeIn(context, path, person)
  const job = { recordFile: context.record.current().file, path, now: context.clock(), fingerprint }
  const joined = yield* withProgress((options) => context.workers.run('take in bundle', job, options), signal)
  await context.uploads.remove(id)
  yield { kind: 'done', joined }
})

export const conflicts = calls.bundles.conflicts.handler(({ context, input }) => ({
  conflicts: conflictsOf(context.record.current().read, input.project),
}))

/**
 * A bundle is taken in by somebody of the project that it is about; by somebody of another one when that project is new
 * here; by whoever sits at the machine only while the record knows nobody.
 */
function requireMayTakeIn(context: Services, path: string, person: string | undefined): void {
  const { read } = context.record.current()
  if (isWithoutPeople(read)) return
  if (person === undefined) {
    const detail = 'Say who takes it in: pick who is writing, then take the bundle in.'
    throw callError('NOT_ALLOWED', { detail, reason: 'role' }, detail)
  }
  const about = frontOf(path)?.manifest.scope.project
  const isHere = about !== undefined && companyOf(read, about).people.length > 0
  requireMayCall(context, 'bundles.takeIn', person, isHere ? about : personOf(read, person).project)
}

/** A bundle with what it says about itself; a file that does not begin like one is not shown. */
function kept(path: string): KeptBundle[] {
  const front = frontOf(path)
  if (front === null) return []
  const { manifest, head, fingerprint } = front
  return [
    {
      name: basename(path),
      file: path,
      bytes: statSync(path).size,
      fingerprint,
      about: aboutOf(manifest, head),
    },
  ]
}
