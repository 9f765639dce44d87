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
  /** Set for an InputError. */
  field: string | null
  code: string | null
  cause: Failure | null
}

/** Returns an error in the form that can be sent. */
export function failureOf(thrown: unknown): Failure {
  if (!(thrown instanceof Error)) {
    return { name: 'Error', message: String(thrown), stack: '', field: null, code: null, cause: null }
  }
  const { name, message, stack = '', cause } = thrown
  return {
    name,
    message,
    stack,
    field: thrown instanceof InputError ? thrown.field : null,
    code: 'code' in thrown && typeof thrown.code === 'string' ? thrown.code : null,
    cause: cause === undefined ? null : failureOf(cause),
  }
}

/** Returns the error that a failure was: an InputError stays one, any other keeps its name, code and cause. */
export function errorOf(failure: Failure): Error {
  if (failure.field !== null) return new InputError(failure.field, failure.message)
  const error = new Error(
    failure.message,
    failure.cause === null ? undefined : { cause: errorOf(failure.cause) },
  )
  error.name = failure.name
  error.stack = failure.stack
  return failure.code === null ? error : Object.assign(error, { code: failure.code })
}
