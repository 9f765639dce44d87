import { appendEntries, backUp, entryVersions, listBackups, listFacts } from '#db/index.ts'
import type { VerifyEvent } from '#model/contract/index.ts'
import { requireAllowed, requireProofs } from './allowed.ts'
import { calls } from './base.ts'
import { withProgress } from './progress.ts'
import { requireReleasable } from './release-gate.ts'

export const append = calls.record.append.handler(({ context, input }) => {
  const signing = requireAllowed(context, input.entries)
  requireReleasable(context, input.entries)
  requireProofs(context, signing)
  return {
    entries: appendEntries(context.record.current(), input.entries, { recordedAt: context.clock() }),
  }
})

export const history = calls.record.history.handler(({ context, input }) => ({
  versions: entryVersions(context.record.current().read, input.entry),
}))

export const list = calls.record.list.handler(({ context, input }) =>
  listFacts(context.record.current().read, input),
)

export const verify = calls.record.verify.handler(async function* ({
  context,
  signal,
}): AsyncGenerator<VerifyEvent, void, void> {
  const job = { recordFile: context.record.current().file, now: context.clock() }
  const report = yield* withProgress((options) => context.workers.run('verify record', job, options), signal)
  yield { kind: 'done', report }
})

/** Backups can be listed in recovery too: there they are needed most. */
export const backups = calls.record.backups.handler(({ context }) => ({
  backups: listBackups(context.folder.backups),
}))

const backUpNow = calls.record.backUp.handler(async ({ context: { record, folder, clock } }) => ({
  backup: await backUp(record.current(), folder.backups, clock()),
}))

export { backUpNow as backUp }
