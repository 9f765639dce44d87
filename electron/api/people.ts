import { randomBytes } from 'node:crypto'
import { appendEntries, EntryRefused } from '#db/index.ts'
import { companyOf, personOf, pinEverSet } from '#db/queries/people.ts'
import { pinProblem, rolesInForce } from '#model/people/index.ts'
import { newEntry } from '#model/record/entry.ts'
import { uuidV7From } from '#model/record/ids.ts'
import { calls } from './base.ts'
import { callError } from './call-errors.ts'
import { proofRefusal } from './pin-refusal.ts'
import type { Services } from './services.ts'

export const status = calls.people.status.handler(({ context: { record, pins }, input }) => {
  const { read } = record.current()
  const { people } = companyOf(read, input.project)
  const standings = people.map(({ id }) => pins.standingOf(id))
  return { binds: standings.some(({ isSet }) => isSet) || pinEverSet(read, input.project), people: standings }
})

export const prove = calls.people.prove.handler(async ({ context: { record, pins }, input }) => {
  const { id } = personOf(record.current().read, input.person)
  const proof = await pins.prove(id, input.pin)
  if (!proof.proven) throw proofRefusal(id, proof)
  return pins.standingOf(id)
})

export const setPin = calls.people.setPin.handler(async ({ context, input }) => {
  const { record, pins } = context
  const person = personOf(record.current().read, input.person)
  const problem = pinProblem(input.pin)
  // What was typed is a secret even when it cannot be used: no sentence repeats it.
  if (problem !== null)
    throw new EntryRefused('', [{ field: 'pin', value: '', message: `The PIN ${problem}.` }])
  const how = await groundOf(context, person, input)
  // Written down first: a PIN that nobody was told of would be worse than an entry whose PIN was not kept.
  noteInRecord(context, person, how, input.by)
  const typedBy = input.by === undefined || input.by === person.id ? 'themselves' : 'another'
  await pins.set(person.id, input.pin, typedBy)
  return pins.standingOf(person.id)
})

export const lock = calls.people.lock.handler(({ context, input }) => ({
  locked: context.pins.lock(input.person),
}))

type Known = ReturnType<typeof personOf>
type How = 'first' | 'changed' | 'reset'

/** Returns on what ground the PIN of a person may be set. @throws NOT_ALLOWED when there is none */
async function groundOf(
  { record, pins }: Services,
  { id, project }: Known,
  { old, by }: { old?: string | undefined; by?: string | undefined },
): Promise<How> {
  const company = companyOf(record.current().read, project)
  const isManager = (person: string) => rolesInForce(person, company).includes('quality manager')
  const vouched = by !== undefined && by !== id && isManager(by)
  if (vouched) {
    if (!pins.has(by))
      throw needed(by, 'The quality manager who sets it must have a PIN of their own first.', 'pin not set')
    if (!pins.isProven(by))
      throw needed(by, 'The quality manager who sets it must prove their own PIN first.')
    pins.used(by)
    return pins.has(id) ? 'reset' : 'first'
  }
  if (by !== undefined && by !== id)
    throw needed(id, 'Only a quality manager of this project can set the PIN of another person.', 'role')
  if (pins.has(id)) {
    if (old === undefined)
      throw needed(id, 'To change a PIN, type the old one, or let a quality manager set it anew.')
    const proof = await pins.prove(id, old)
    if (!proof.proven) throw proofRefusal(id, proof)
    return 'changed'
  }
  const guarded =
    isManager(id) && company.people.some((one) => one.id !== id && isManager(one.id) && pins.has(one.id))
  if (guarded)
    throw needed(
      id,
      'Another quality manager has a PIN already and must let this one in: they set the first PIN together.',
      'role',
    )
  return 'first'
}

function needed(
  person: string,
  detail: string,
  reason: 'pin needed' | 'pin not set' | 'role' = 'pin needed',
) {
  return callError('NOT_ALLOWED', { detail, reason, person }, detail)
}

function noteInRecord(
  { record, clock }: Services,
  { id, project, timeZone }: Known,
  how: How,
  by?: string,
): void {
  const now = clock()
  const entry = newEntry.parse({
    id: uuidV7From(now, randomBytes(10)),
    project,
    subject: id,
    kind: 'pin-set',
    happenedAt: new Date(now).toISOString(),
    zone: timeZone,
    person: by ?? id,
    source: 'typed',
    body: { how },
  })
  appendEntries(record.current(), [entry], { recordedAt: now })
}
