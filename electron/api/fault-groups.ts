import { type ReadHandle, UnknownId } from '#db/index.ts'
import { storyEntriesByRoot } from '#db/queries/story-entries.ts'
import type { FaultFact, FaultLine, FaultState } from '#model/contract/faults.ts'
import type { Movement } from '#model/faults/shapes.ts'
import type { StoryEntry, StoryEntryOf } from '#model/record/entry.ts'
import type { BayId, EntryId } from '#model/record/ids.ts'
import type { KindName } from '#model/record/kinds.ts'
import { type SymptomCode, symptoms } from '#model/record/words.ts'

/** The kinds that tell the story of a fault. */
export const faultKinds = [
  'defect-found',
  'defect-measured',
  'crack-gauged',
  'fault-evidence-noted',
  'cause-named',
  'repair-done',
  'repair-retested',
  'defect-closed',
  'evidence-frozen',
] as const satisfies KindName[]

type Defect = StoryEntryOf<'defect-found'>

/** The standing entries of one kind. */
export function standing<K extends KindName>(entries: readonly StoryEntry[], kind: K): StoryEntryOf<K>[] {
  return entries.filter((one) => one.kind === kind && !one.withdrawn) as unknown as StoryEntryOf<K>[]
}

/**
 * The symptoms that were found in one look at one place, as groups: the same bay, the same moment, the same outline. What
 * was found at another time or elsewhere is another fault, with a cause of its own.
 */
export function groupDefects(entries: readonly StoryEntry[]): Defect[][] {
  const looks = Map.groupBy(standing(entries, 'defect-found'), ({ subject, happenedAt, body }) =>
    JSON.stringify([subject, happenedAt, body.shape, body.outline, body.x, body.y]),
  )
  return [...looks.values()].map((look) => look.toSorted((a, b) => firstSeq(a) - firstSeq(b)))
}

/** What belongs to one fault of all that was recorded about faults of its bay. */
export function factsOfFault(defects: readonly Defect[], entries: readonly StoryEntry[]) {
  const ids = new Set<string>(defects.map(({ id }) => id))
  const about = <
    K extends
      | 'defect-measured'
      | 'crack-gauged'
      | 'fault-evidence-noted'
      | 'repair-done'
      | 'defect-closed'
      | 'evidence-frozen',
  >(
    kind: K,
  ) => byTime(standing(entries, kind).filter(({ body }) => ids.has((body as { defect: string }).defect)))
  const repairs = about('repair-done')
  const repaired = new Set<string>(repairs.map(({ id }) => id))
  return {
    measured: about('defect-measured'),
    gauged: about('crack-gauged'),
    noted: about('fault-evidence-noted'),
    named: byTime(
      standing(entries, 'cause-named').filter(({ body }) =>
        body.defects.some(({ defect }) => ids.has(defect)),
      ),
    ),
    repairs,
    retests: byTime(standing(entries, 'repair-retested').filter(({ body }) => repaired.has(body.repair))),
    closed: about('defect-closed'),
    frozen: about('evidence-frozen'),
  }
}
export type FaultFacts = ReturnType<typeof factsOfFault>

/** How far it has come, and since when. A repair counts until its last re-test says otherwise. */
export function stateOfFault(
  defects: readonly Defect[],
  { named, repairs, retests, closed }: FaultFacts,
): { state: FaultState; since: number } {
  const shut = new Set<string>(closed.map(({ body }) => body.defect))
  if (defects.every(({ id }) => shut.has(id))) return { state: 'closed', since: last(closed)!.happenedAt }
  const repair = last(repairs)
  if (repair !== undefined) {
    const retest = last(retests.filter(({ body }) => body.repair === repair.id))
    if (retest?.body.result === 'passed') return { state: 're-tested', since: retest.happenedAt }
    if (retest?.body.result === 'failed') return { state: 're-test failed', since: retest.happenedAt }
    return { state: 'repaired', since: repair.happenedAt }
  }
  const cause = last(named)
  if (cause !== undefined) return { state: 'cause named', since: cause.happenedAt }
  return { state: 'open', since: defects[0]!.happenedAt }
}

const cracks: ReadonlySet<SymptomCode> = new Set(['S05', 'S06', 'S07', 'S08', 'S09'])

/** One line of the list. */
export function lineOfFault(defects: readonly Defect[], facts: FaultFacts, movement: Movement): FaultLine {
  const found = defects.map(({ body }) => body)
  const seen = found.map(({ symptom }) => symptom).filter(isSymptom)
  const measures = facts.measured.map(({ body }) => body)
  const latest = (name: 'lengthM' | 'areaM2' | 'widthMm') =>
    measures.findLast((one) => one[name] !== undefined)?.[name] ?? greatest(found.map((one) => one[name]))
  return {
    id: defects[0]!.id,
    defects: defects.map(({ id }) => id),
    bay: defects[0]!.subject as BayId,
    symptoms: seen,
    firstSeenOn: found.map(({ firstSeenOn }) => firstSeenOn).toSorted()[0]!,
    foundAt: defects[0]!.happenedAt,
    ...stateOfFault(defects, facts),
    movement: seen.some((code) => cracks.has(code)) ? movement.verdict : null,
    cause: last(facts.named)?.body.cause ?? null,
    lengthM: latest('lengthM'),
    areaM2: latest('areaM2'),
    widthMm: last(facts.gauged)?.body.widthMm ?? latest('widthMm'),
  }
}

/** Without what only the history of an entry needs. */
export function asFact<K extends KindName>({ id, happenedAt, person, body }: StoryEntryOf<K>): FaultFact<K> {
  return { id, happenedAt, person, body }
}

/** Not closed first; within each, what was found last. */
export function inOrder(lines: readonly FaultLine[]): FaultLine[] {
  const shut = ({ state }: FaultLine) => (state === 'closed' ? 1 : 0)
  return lines.toSorted((a, b) => shut(a) - shut(b) || b.foundAt - a.foundAt)
}

/** The main symptom is written first. */
const firstSeq = ({ versions }: Defect) => versions[0]?.seq ?? 0
const isSymptom = (text: string): text is SymptomCode => Object.hasOwn(symptoms, text)
const last = <T>(list: readonly T[]): T | undefined => list.at(-1)
const byTime = <T extends { happenedAt: number }>(list: readonly T[]): T[] =>
  list.toSorted((a, b) => a.happenedAt - b.happenedAt)

function greatest(values: readonly (number | undefined)[]): number | null {
  const known = values.filter((value) => value !== undefined)
  return known.length === 0 ? null : Math.max(...known)
}

/** The bay on which a symptom was found. */
export function bayOfDefect(read: ReadHandle, defect: EntryId): BayId {
  const [found] = storyEntriesByRoot(read, [defect])
  if (found?.kind !== 'defect-found') throw new UnknownId('defect', defect)
  return found.subject as BayId
}
