import { oc, type } from '@orpc/contract'
import { z } from 'zod'
import { idOf, type PersonId } from '../record/ids.ts'
import { callErrors } from './errors.ts'

const call = oc.errors(callErrors)
const person = idOf('person')
/** Its digits are counted by the host, so that no refusal ever repeats what was typed. */
const pin = z.string().max(64)

/** How it stands with the PIN of one person on this machine. Never the PIN, nor anything made from it. */
export interface PinStanding {
  person: PersonId
  /** Whether a PIN is set on this machine. */
  isSet: boolean
  /** How long the proof lasts if nobody signs [ms]; null when the PIN has not been proven. */
  provenForMs: number | null
  /** How long no try is taken [ms]; 0 when one is. The time runs only while Bayledger runs. */
  waitMs: number
  /** Wrong tries in a row. */
  wrongTries: number
}

export interface PinSheet {
  /** Whether signing needs a PIN in this project: from the first PIN on. */
  binds: boolean
  people: PinStanding[]
}

/** The calls about people's PINs. */
export const peopleCalls = {
  status: call.input(z.strictObject({ project: idOf('project') })).output(type<PinSheet>()),
  /** Sets a first PIN, changes it knowing the old one, or sets it anew as a quality manager (`by`) who has proven theirs. */
  setPin: call
    .input(z.strictObject({ person, pin, old: pin.optional(), by: person.optional() }))
    .output(type<PinStanding>()),
  /** Proves that it is this person who sits here; ends by itself when nobody signs for a while. */
  prove: call.input(z.strictObject({ person, pin })).output(type<PinStanding>()),
  /** Forgets the proof of one person, or of everybody. */
  lock: call.input(z.strictObject({ person: person.optional() })).output(type<{ locked: number }>()),
}
