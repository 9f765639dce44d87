import { CorrectionConflict, EntryRefused, RecordError, type RecordState, UnknownId } from '#db/errors.ts'
import { InputError } from '#model/errors.ts'
import type { JobInput, JobName, JobOutput } from './jobs.ts'

/** What the main thread sends to a worker. */
export type Asked = { [K in JobName]: { job: K; input: JobInput<K> } }[JobName]

/** What a worker sends back. */
export type Answered =
  | { kind: 'progress'; done: number; of: number }
  | { kind: 'done'; output: JobOutput<JobName> }
  | { kind: 'failed'; failure: Failure }

/** An error as it travels between threads; a thrown class would lose its fields on the way. */
export interface Failure {
  name: string
  message: string
  stack: string
  code: string | null
  cause: Failure | null
  /** Set for the errors that a person is told of. */
  known: Known | null
}

type Known =
  | { is: 'InputError'; field: string }
  | { is: 'EntryRefused'; entry: string; problems: EntryRefused['problems'] }
  | { is: 'UnknownId'; what: string; id: string }
  | { is: 'CorrectionConflict'; entry: string | null }
  | { is: 'RecordError'; state: RecordState }

/** Returns an error in the form that can be sent. */
export function failureOf(thrown: unknown): Failure {
  if (!(thrown instanceof Error)) {
    return { name: 'Error', message: String(thrown), stack: '', code: null, cause: null, known: null }
  }
  const { name, message, stack = '', cause } = thrown
  return {
    name,
    message,
    stack,
    code: 'code' in thrown && typeof thrown.code === 'string' ? thrown.code : null,
    cause: cause === undefined ? null : failureOf(cause),
    known: knownOf(thrown),
  }
}

function knownOf(thrown: Error): Known | null {
  if (thrown instanceof InputError) return { is: 'InputError', field: thrown.field }
  if (thrown instanceof EntryRefused) {
    return { is: 'EntryRefused', entry: thrown.entry, problems: thrown.problems }
  }
  if (thrown instanceof UnknownId) return { is: 'UnknownId', what: thrown.what, id: thrown.id }
  if (thrown instanceof CorrectionConflict) return { is: 'CorrectionConflict', entry: thrown.entry }
  return thrown instanceof RecordError ? { is: 'RecordError', state: thrown.state } : null
}

/** Returns the error that a failure was: a known one is of its class again, any other keeps name, code and cause. */
export function errorOf(failure: Failure): Error {
  const { message, known } = failure
  const options = failure.cause === null ? undefined : { cause: errorOf(failure.cause) }
  switch (known?.is) {
    case 'InputError':
      return new InputError(known.field, message)
    case 'EntryRefused':
      return new EntryRefused(known.entry, known.problems)
    case 'UnknownId':
      return new UnknownId(known.what, known.id)
    case 'CorrectionConflict':
      return new CorrectionConflict(message, known.entry)
    case 'RecordError':
      return new RecordError(known.state, message, options)
    case undefined: {
      const error = new Error(message, options)
      error.name = failure.name
      error.stack = failure.stack
      return failure.code === null ? error : Object.assign(error, { code: failure.code })
    }
  }
}
