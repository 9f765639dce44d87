import type { NewScreedEvent } from '#model/contract/faults.ts'
import { calls } from './base.ts'
import { bayOfDefect } from './fault-groups.ts'
import { withProgress } from './progress.ts'

export const newScreed = calls.faults.newScreed.handler(async function* ({
  context,
  input,
  signal,
}): AsyncGenerator<NewScreedEvent, void, void> {
  const { read, file } = context.record.current()
  const job = { recordFile: file, bay: bayOfDefect(read, input.defect), asOf: context.clock() }
  const drying = yield* withProgress(
    (options) => context.workers.run('forecast new screed', job, options),
    signal,
  )
  yield { kind: 'done', drying }
})
