import type { WaysEvent } from '#model/contract/ways.ts'
import { calls } from './base.ts'
import { withProgress } from './progress.ts'

/** Worked out on a thread, with its progress; whoever stops listening stops it. */
export const compare = calls.ways.compare.handler(async function* ({
  context,
  input: { asOf, ...input },
  signal,
}): AsyncGenerator<WaysEvent, void, void> {
  const question = {
    ...input,
    recordFile: context.record.current().file,
    asOf: asOf === undefined ? context.clock() : Date.parse(asOf),
  }
  const found = yield* withProgress(
    (options) => context.workers.run('compare ways', question, options),
    signal,
  )
  yield { kind: 'done', found }
})
