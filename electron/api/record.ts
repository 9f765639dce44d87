import { appendEntries, backUp, entryVersions, listBackups, listFacts, verifySteps } from '#db/index.ts'
import type { VerifyEvent } from '#model/contract/index.ts'
import { calls } from './base.ts'

export const append = calls.record.append.handler(({ context, input }) => ({
  entries: appendEntries(context.record.current(), input.entries, { recordedAt: context.clock() }),
}))

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
  for (const event of verifySteps(context.record.current().read)) {
    yield event
    signal?.throwIfAborted()
    // A long record must not keep other calls waiting.
    await new Promise((resolve) => setImmediate(resolve))
  }
})

/** Backups can be listed in recovery too: there they are needed most. */
export const backups = calls.record.backups.handler(({ context }) => ({
  backups: listBackups(context.folder.backups),
}))

const backUpNow = calls.record.backUp.handler(async ({ context: { record, folder, clock } }) => ({
  backup: await backUp(record.current(), folder.backups, clock()),
}))

export { backUpNow as backUp }
