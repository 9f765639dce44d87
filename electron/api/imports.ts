import { findFileBySha256, UnknownId } from '#db/index.ts'
import { placeOfBay } from '#db/queries/bay-readings.ts'
import { entryVersions } from '#db/queries/entries.ts'
import type { ImportEvent } from '#model/contract/logger-file.ts'
import type { EntryId } from '#model/record/ids.ts'
import type { BodyOf } from '#model/record/kinds.ts'
import { requireMayWrite } from './allowed.ts'
import { calls } from './base.ts'
import { withProgress } from './progress.ts'
import type { Services } from './services.ts'

export const preview = calls.imports.preview.handler(async ({ context, input, signal }) => {
  const { read } = context.record.current()
  const { project, timeZone } = placeOfBay(read, input.bay)
  const { id, path, fileName, bytes, sha256 } = context.uploads.find(input.upload)
  const guess = await context.workers.run('guess logger file', { path, bytes, timeZone }, { signal })
  const alreadyRead = findFileBySha256(read, sha256, project)
  return { upload: id, fileName, bytes, sha256, alreadyRead, ...guess }
})

export const check = calls.imports.check.handler(({ context, input, signal }) => {
  const recordFile = context.record.current().file
  const { path } = context.uploads.find(input.upload)
  const { bay, reading } = input
  return context.workers.run(
    'check logger file',
    { recordFile, bay, path, reading, now: context.clock() },
    { signal },
  )
})

export const commit = calls.imports.commit.handler(async function* ({
  context,
  input,
  signal,
}): AsyncGenerator<ImportEvent, void, void> {
  const before = writtenBefore(context, input.entry)
  if (before !== null) {
    yield before
    return
  }
  const { file: recordFile, read } = context.record.current()
  const { bay, reading, entry, person, acceptBadRows } = input
  requireMayWrite(context, 'logger-imported', person, placeOfBay(read, bay).project)
  const { id, path, fileName } = context.uploads.find(input.upload)
  const now = context.clock()
  const job = { recordFile, bay, path, fileName, reading, entry, person, acceptBadRows, now }
  const kept = yield* withProgress((options) => context.workers.run('keep logger file', job, options), signal)
  await context.uploads.remove(id)
  yield { kind: 'done', ...kept }
})

/** What an earlier commit of the same entry has written: its answer was lost, its upload is gone. */
function writtenBefore(context: Services, entry: EntryId): ImportEvent | null {
  try {
    const first = entryVersions(context.record.current().read, entry)[0]
    if (first === undefined || first.id !== entry || first.kind !== 'logger-imported') return null
    const { rows, refused } = first.body as BodyOf<'logger-imported'>
    return { kind: 'done', entry, readings: rows, refused }
  } catch (cause) {
    if (cause instanceof UnknownId) return null
    throw cause
  }
}
