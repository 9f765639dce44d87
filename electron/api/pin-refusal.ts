import { pinRules } from '#model/people/index.ts'
import { callError } from './call-errors.ts'
import type { Proof } from './pins.ts'

type Refused = Exclude<Proof, { proven: true }>

/** Returns the refusal of a PIN that did not prove, with how many tries are left or how long to wait. */
export function proofRefusal(person: string, refused: Refused) {
  const waitMs = 'waitMs' in refused ? refused.waitMs : 0
  const reason = reasonOf(refused)
  const detail = sentenceOf(refused)
  return callError('NOT_ALLOWED', { detail, reason, person, ...(waitMs > 0 ? { waitMs } : {}) }, detail)
}

function reasonOf(refused: Refused) {
  if (refused.because === 'no PIN') return 'pin not set'
  return refused.because === 'has to wait' || refused.waitMs > 0 ? 'locked' : 'wrong pin'
}

function sentenceOf(refused: Refused): string {
  if (refused.because === 'no PIN') return 'This person has no PIN on this machine yet. Set one first.'
  const wait = `No PIN is taken for the next ${durationText(refused.waitMs)} in which Bayledger is open. A quality manager can set a new one.`
  if (refused.because === 'has to wait') return `Too many wrong tries. ${wait}`
  if (refused.waitMs > 0) return `The PIN is wrong, ${refused.wrongTries} times in a row. ${wait}`
  const left = pinRules.freeTries - refused.wrongTries
  return `The PIN is wrong. ${left} more ${left === 1 ? 'try' : 'tries'} before one has to wait.`
}

/** "1 min", "40 s": rounded up, so that nobody comes back too early. */
function durationText(ms: number): string {
  return ms < 60_000 ? `${Math.ceil(ms / 1000)} s` : `${Math.ceil(ms / 60_000)} min`
}
