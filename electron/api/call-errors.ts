import { ORPCError, ValidationError } from '@orpc/server'
import type { z } from 'zod'
import { CorrectionConflict, EntryRefused, RecordError, UnknownId } from '#db/errors.ts'
import { type CallErrorCode, callErrors } from '#model/contract/errors.ts'
import { InputError } from '#model/errors.ts'
import type { Log } from '../log.ts'
import { problemsOfInput } from './input-problems.ts'

type DataOf<C extends CallErrorCode> = z.input<(typeof callErrors)[C]['data']>

/** An error of the contract, ready to be thrown by any call. */
export function callError<C extends CallErrorCode>(
  code: C,
  data: DataOf<C>,
  message?: string,
): ORPCError<C, DataOf<C>> {
  const { status, message: usual } = callErrors[code]
  return new ORPCError(code, { status, message: message ?? usual, data })
}

/**
 * Returns what a person is told of whatever a call threw: one of the contract's errors, and nothing else. What nobody
 * foresaw is kept in the log with its cause; only the log's id leaves the program.
 * @param where the call, such as `record.append`.
 * @param input what was sent, for the value beside each problem.
 */
export function toCallError(
  thrown: unknown,
  where: string,
  input: unknown,
  log: Log,
): ORPCError<string, unknown> {
  if (thrown instanceof InputError) return outOfRange([problemOf(thrown)])
  if (thrown instanceof EntryRefused) return outOfRange(thrown.problems)
  if (thrown instanceof UnknownId)
    return callError('NOT_FOUND', { what: thrown.what, id: thrown.id }, thrown.message)
  if (thrown instanceof CorrectionConflict) {
    return callError('CONFLICT', { detail: thrown.message, entry: thrown.entry }, thrown.message)
  }
  if (thrown instanceof RecordError) {
    return callError('STORAGE', { state: thrown.state, detail: thrown.message }, thrown.message)
  }
  if (thrown instanceof ORPCError) {
    if (isCallError(thrown)) return thrown
    const { cause } = thrown
    if (thrown.code === 'BAD_REQUEST' && cause instanceof ValidationError) {
      return outOfRange(problemsOfInput(cause.issues as z.core.$ZodIssue[], input))
    }
  }
  const logId = log.keep(where, thrown)
  return callError(
    'INTERNAL',
    { logId },
    `Something went wrong inside Bayledger. The log has it as ${logId}.`,
  )
}

function problemOf({ field, message }: InputError) {
  return { field, value: '', message }
}

function outOfRange(problems: DataOf<'INPUT_OUT_OF_RANGE'>['problems']) {
  return callError('INPUT_OUT_OF_RANGE', { problems }, problems.map(({ message }) => message).join(' '))
}

function isCallError(error: ORPCError<string, unknown>): boolean {
  return Object.hasOwn(callErrors, error.code)
}
