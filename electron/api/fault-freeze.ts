import { createHash } from 'node:crypto'
import { existsSync, openAsBlob, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { frontOf } from '#db/bundle/front.ts'
import { syncToDisk } from '#db/disk.ts'
import { onDisk } from '#db/errors.ts'
import { appendEntries, projectOutline, UnknownId } from '#db/index.ts'
import { storyEntriesByRoot } from '#db/queries/story-entries.ts'
import { bundleFileEnding, type KeptBundle } from '#model/contract/bundles.ts'
import type { FreezeEvent } from '#model/contract/faults.ts'
import { InputError } from '#model/errors.ts'
import { newEntry } from '#model/record/entry.ts'
import type { EntryId } from '#model/record/ids.ts'
import type { BodyOf } from '#model/record/kinds.ts'
import { requireMayCall } from './allowed.ts'
import { calls } from './base.ts'
import { bayOfDefect } from './fault-groups.ts'
import { madeFile, makeFile } from './report-files.ts'
import type { Services } from './services.ts'
import { bundlesIn, signBundle } from './sign-bundle.ts'

const minuteMs = 60_000

export const freeze = calls.faults.freeze.handler(async function* ({
  context,
  input,
  signal,
}): AsyncGenerator<FreezeEvent, void, void> {
  const { entry, defect, project, person, reason } = input
  requireMayCall(context, 'faults.freeze', person, project)
  const { read } = context.record.current()
  if (sealOf(context, entry) !== null) {
    yield { kind: 'done', entry }
    return
  }
  const bays = [...new Set(input.bays)]
  const subject = bayOfDefect(read, defect)
  if (!bays.includes(subject))
    throw new InputError('bays', 'must hold the bay on which the fault was found: its evidence is there.')
  const { timeZone } = projectOutline(read, project).project.body
  const now = context.clock()
  const asOf = new Date(now).toISOString()

  const report = yield* reportOf(context, { project, bays, asOf }, signal)
  const asked = { project, person, scope: { kind: 'bays' as const, bays }, asOf: now, reason }
  const signing = signBundle(context, asked, signal)
  let step = await signing.next()
  for (; step.done !== true; step = await signing.next()) yield { ...step.value, step: 'bundle' }
  const bundle: KeptBundle = step.value
  const reportName = keepReport(context, bundle.name, report)

  const seal = newEntry.parse({
    id: entry,
    project,
    subject,
    kind: 'evidence-frozen',
    happenedAt: new Date(Math.floor(now / minuteMs) * minuteMs).toISOString(),
    zone: timeZone,
    person,
    source: 'typed',
    body: {
      defect,
      contentHash: bundle.fingerprint,
      entriesCount: bundle.about.given,
      asOf,
      bays: bays.map((bay) => ({ bay })),
      reason,
      bundle: bundle.name,
      report: reportName,
      reportHash: sha256(report),
    } satisfies BodyOf<'evidence-frozen'>,
  })
  appendEntries(context.record.current(), [seal], { recordedAt: context.clock() })
  yield { kind: 'done', entry }
})

export const frozenFile = calls.faults.frozenFile.handler(async ({ context, input }) => {
  const seal = sealOf(context, input.entry)
  if (seal === null) throw new UnknownId('entry', input.entry)
  const name = input.what === 'bundle' ? seal.bundle : seal.report
  const folder = bundlesIn(context)
  // Only a name that stands in the folder is taken, so that no name leads out of it.
  const found = name !== undefined && existsSync(folder) && readdirSync(folder).includes(name)
  if (name === undefined || !found) throw new UnknownId(`frozen ${input.what}`, name ?? input.entry)
  const path = join(folder, name)
  const [is, was] =
    input.what === 'bundle'
      ? [frontOf(path)?.fingerprint, seal.contentHash]
      : [sha256(readFileSync(path)), seal.reportHash]
  if (is !== was) {
    throw new InputError(
      input.what,
      `The file ${name} is not the one that was frozen: its SHA-256 differs. Look for the frozen one in a backup or where it was sent.`,
    )
  }
  return { name, file: await openAsBlob(path) }
})

/** The report of all the bays, in bytes. */
async function* reportOf(
  context: Services,
  { project, bays, asOf }: Pick<Parameters<typeof makeFile>[1], 'project' | 'bays' | 'asOf'>,
  signal: AbortSignal | undefined,
): AsyncGenerator<FreezeEvent, Uint8Array, void> {
  const kind = bays.length === 1 ? 'bay' : 'project'
  for await (const event of makeFile(context, { project, kind, bays, asOf, estimates: false }, signal)) {
    if (event.kind === 'done') return madeFile(context, event.file.made).bytes
    yield { kind: 'progress', step: 'report', done: event.done, of: event.of }
  }
  throw new Error('The report ended without a file.')
}

/** Keeps the report beside its bundle, under the same name; it gets that name only when it is complete and on the disk. */
function keepReport(context: Services, bundleName: string, report: Uint8Array): string {
  const folder = bundlesIn(context)
  const name = `${bundleName.slice(0, -bundleFileEnding.length)}.pdf`
  return onDisk(folder, () => {
    const building = join(folder, `${name}.part`)
    writeFileSync(building, report, { mode: 0o600 })
    syncToDisk(building)
    renameSync(building, join(folder, name))
    syncToDisk(folder)
    return name
  })
}

/** What an earlier call, or this one, has sealed under this id; null while nothing is. */
function sealOf({ record }: Services, entry: EntryId): BodyOf<'evidence-frozen'> | null {
  const [found] = storyEntriesByRoot(record.current().read, [entry])
  return found?.kind === 'evidence-frozen' ? (found.body as BodyOf<'evidence-frozen'>) : null
}

const sha256 = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex')
