import { calls } from './base.ts'
import { callError } from './call-errors.ts'

export const moveAside = calls.recovery.moveAside.handler(({ context: { record, clock } }) => {
  if (record.state().state === 'open') {
    throw callError('NOT_ALLOWED', { detail: 'The record opens well, so it stays where it is.' })
  }
  return { movedTo: record.moveAside(clock()) }
})
