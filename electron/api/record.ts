import { appendEntries, entryVersions, listFacts } from '#db/index.ts'
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
