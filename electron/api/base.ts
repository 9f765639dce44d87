import { mapEventIterator } from '@orpc/client'
import { implement } from '@orpc/server'
import { RecordError } from '#db/index.ts'
import { contract } from '#model/contract/index.ts'
import { callRule } from '#model/people/index.ts'
import { callError, toCallError } from './call-errors.ts'
import type { RecordHolder } from './record-holder.ts'
import type { Services } from './services.ts'

/**
 * The contract, to be implemented call by call. Whatever a call throws, at once or in the middle of a stream, leaves
 * as one of the contract's errors. A call without a row in the table of who may do what is refused.
 */
export const calls = implement(contract)
  .$context<Services>()
  .use(async ({ context, path, next, signal }, input: unknown) => {
    const where = path.join('.')
    const told = (thrown: unknown) =>
      signal?.aborted === true ? thrown : toCallError(thrown, where, input, context.log)
    try {
      const result = await next({ context: { record: recordFor(where, context.record) } })
      if (!isStream(result.output)) return result
      const output = mapEventIterator(result.output, {
        value: async (event) => event,
        error: async (thrown) => told(thrown),
      })
      return { ...result, output }
    } catch (thrown) {
      throw told(thrown)
    }
  })

/**
 * Denied by default: a call that nobody has put into the table of who may do what is refused, and one that stands there
 * as reading gets a record without a connection that writes.
 */
function recordFor(call: string, record: RecordHolder): RecordHolder {
  const rule = callRule(call)
  if (rule === null) {
    const detail = `Nobody may call ${call}: it has no row in model/people/may.ts.`
    throw callError('NOT_ALLOWED', { detail }, detail)
  }
  if (rule.changes !== 'nothing') return record
  const readOnlyBecause = new RecordError(
    'read-only',
    `${call} reads: model/people/may.ts lets it write nothing.`,
  )
  return { ...record, current: () => ({ ...record.current(), write: null, readOnlyBecause }) }
}

function isStream(output: unknown): output is AsyncIteratorObject<unknown, unknown, void> {
  return typeof output === 'object' && output !== null && Symbol.asyncIterator in output
}
