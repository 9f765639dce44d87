import { companyOf, personOf, pinEverSet, writtenEntry } from '#db/queries/people.ts'
import {
  type Act,
  actOf,
  type Company,
  callProblem,
  type KnownPerson,
  type Made,
  madeFrom,
  makerProblem,
  needsPin,
  roleProblem,
  rolesInForce,
} from '#model/people/index.ts'
import type { CheckedEntry } from '#model/record/entry.ts'
import type { BayId } from '#model/record/ids.ts'
import type { KindName } from '#model/record/kinds.ts'
import type { Role } from '#model/record/people.ts'
import { callError } from './call-errors.ts'
import { requireOwnName } from './own-name.ts'
import type { Services } from './services.ts'

/** An entry that is new, with what it does to which fact. */
interface Asked {
  entry: CheckedEntry
  kind: string
  act: Act
}

/**
 * Refuses entries that the person named in them may not write: by role, or because they would check their own work; and a
 * person under a name that is taken. An entry that is written already is written. What cannot be judged here, such as a
 * person nobody knows, is left to the ledger, which refuses it with its own sentence.
 * @returns the acts that need the proof of a PIN where PINs bind; `requireProofs` asks for it, last of all
 * @throws NOT_ALLOWED with `reason` role or maker; EntryRefused for a name; nothing of the same append is written
 */
export function requireAllowed(services: Services, entries: readonly CheckedEntry[]): Signing[] {
  const signing: Signing[] = []
  const earlier: CheckedEntry[] = []
  for (const entry of entries) {
    const asked = askedOf(services, entry, earlier)
    if (asked !== null) {
      const { kind, act } = asked
      requireRole(
        { kind, act, person: entry.person, body: entry.body },
        companyWith(services, entry, earlier),
      )
      requireOtherMaker(services, asked, earlier)
      if (kind === 'person-added') requireOwnName(services, entry, earlier)
      if (needsPin(kind, act)) signing.push({ person: entry.person, project: entry.project })
    }
    earlier.push(entry)
  }
  return signing
}

/**
 * Refuses a first entry of a kind that a call writes by itself, such as a logger file.
 * @throws NOT_ALLOWED with `reason` role
 */
export function requireMayWrite({ record }: Services, kind: KindName, person: string, project: string): void {
  const company = companyOf(record.current().read, project)
  requireRole({ kind, act: 'write first', person, body: {} }, company)
}

/**
 * Refuses a call that somebody makes in a name whose role the table does not give it.
 * @param call such as `bundles.make`
 * @param project the one that it is about
 * @throws UnknownId for a person who stands in no project; NOT_ALLOWED with `reason` role
 */
export function requireMayCall({ record }: Services, call: string, person: string, project: string): void {
  const { read } = record.current()
  personOf(read, person)
  const problem = callProblem(call, rolesInForce(person, companyOf(read, project)))
  if (problem !== null) throw callError('NOT_ALLOWED', { detail: problem, reason: 'role', person }, problem)
}

/** Somebody whose signature an append carries. */
export interface Signing {
  person: string
  project: string
}

/**
 * Refuses signatures that nobody has proven, in projects where PINs bind: from the first PIN that was ever set in one.
 * @throws NOT_ALLOWED with `reason` "pin needed" or "pin not set" and the person, so that a screen can ask and try again
 */
export function requireProofs({ record, pins }: Services, signing: readonly Signing[]): void {
  const { read } = record.current()
  for (const { person, project } of signing) {
    if (pins.isProven(person)) continue
    const { people } = companyOf(read, project)
    const isSet = pins.has(person)
    if (!isSet && !people.some(({ id }) => pins.has(id)) && !pinEverSet(read, project)) continue
    const detail = isSet
      ? 'This is signed: the PIN of the person who signs is needed.'
      : 'This is signed, and people sign with a PIN in this project. The person who signs has none on this machine yet: set one.'
    throw callError('NOT_ALLOWED', { detail, reason: isSet ? 'pin needed' : 'pin not set', person }, detail)
  }
  for (const { person } of signing) pins.used(person)
}

/** Null for an entry that is written already, or that the ledger will refuse by itself. */
function askedOf({ record }: Services, entry: CheckedEntry, earlier: readonly CheckedEntry[]): Asked | null {
  const { read } = record.current()
  if (writtenEntry(read, entry.id) !== null) return null
  if (entry.corrects === undefined) return { entry, kind: entry.kind, act: actOf(entry, null) }
  const together = earlier.find(({ id }) => id === entry.corrects)
  const corrected = together ?? writtenEntry(read, entry.corrects)
  if (corrected === null || corrected.project !== entry.project) return null
  return { entry, kind: corrected.kind, act: actOf(entry, corrected) }
}

/** The people of the project as they will stand when this entry is written: with those of the same append. */
function companyWith(
  { record }: Services,
  { project }: CheckedEntry,
  earlier: readonly CheckedEntry[],
): Company {
  const { people, openedBy } = companyOf(record.current().read, project)
  const ofProject = earlier.filter((one) => one.project === project && one.corrects === undefined)
  const added = ofProject
    .filter(({ kind, id }) => kind === 'person-added' && !people.some((one) => one.id === (id as string)))
    .map(({ id, body }): KnownPerson => ({ id, role: body.role as Role }))
  const opening = ofProject.find(({ kind }) => kind === 'project-opened')
  return { people: [...people, ...added], openedBy: openedBy ?? opening?.person ?? null }
}

interface Doing {
  kind: string
  act: Act
  person: string
  body: Record<string, unknown>
}

function requireRole({ kind, act, person, body }: Doing, company: Company): void {
  // Whoever is not known yet can only be the one who opens the project; the ledger lets nobody else write.
  if (!company.people.some(({ id }) => id === person)) return
  const problem = roleProblem({ kind, act, body }, rolesInForce(person, company))
  if (problem === null) return
  throw callError('NOT_ALLOWED', { detail: problem, reason: 'role', person }, problem)
}

const checkingKinds: readonly string[] = ['hold-point-released', 'bay-decided', 'nonconformance-closed']

function requireOtherMaker(services: Services, asked: Asked, earlier: readonly CheckedEntry[]): void {
  const { entry, kind } = asked
  if (!checkingKinds.includes(kind) || entry.kind === 'entry-withdrawn') return
  const problem = makerProblem({ ...entry, kind }, [
    ...madeFrom(services.watch.now(entry.subject as BayId).story.entries),
    ...earlier.map(madeTogether),
  ])
  if (problem === null) return
  throw callError('NOT_ALLOWED', { detail: problem, reason: 'maker', person: entry.person }, problem)
}

function madeTogether({ id, kind, person, body }: CheckedEntry): Made {
  return { id, kind, writers: [person], body }
}
