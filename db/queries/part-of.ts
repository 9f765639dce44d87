import type { ProjectPart } from '#model/contract/parts.ts'
import type { BayId } from '#model/record/ids.ts'
import type { BundleScope } from '../bundle/format.ts'
import { plucked, prepared, type ReadHandle, type Sqlite } from '../handles.ts'
import { givenBy, leftOutBy, type PartRow, partsIn, saidBy, withoutThoseHere } from '../parts.ts'

/** What of a record's parts was worked out, and up to which entry. Entries are only ever added, so it is carried on. */
interface Known {
  parts: PartRow[]
  /** Hashes of the entries that the parts gave. */
  given: ReadonlySet<string>
  missing: Set<string>
  seenSeq: number
}
const known = new WeakMap<Sqlite, Known>()

/** Entries that parts of this record leave out and that are not here. */
export function missingIn(sqlite: Sqlite): Readonly<Pick<Known, 'parts' | 'given'>> & {
  missing: ReadonlySet<string>
} {
  const before = known.get(sqlite)
  const count = before === undefined ? null : plucked<number>(sqlite, 'select count(*) from parts').get()
  let now = before
  if (now === undefined || count !== now.parts.length) {
    const parts = partsIn(sqlite)
    now = { parts, given: givenBy(parts), missing: leftOutBy(parts), seenSeq: 0 }
    // A record without parts is asked again only by its number of parts.
    if (Number(sqlite.pragma('user_version', { simple: true })) >= 2) known.set(sqlite, now)
  }
  if (now.missing.size > 0) now.seenSeq = withoutThoseHere(sqlite, now.missing, now.seenSeq)
  return now
}

/**
 * How much of a project this record holds, when all it has of it came in bundles of some bays; null when it has the whole.
 * A bay that is only planned here, because others are judged beside it, is not held: what was recorded of it is not here.
 */
export function partOf(read: ReadHandle, project: string): ProjectPart | null {
  const { parts, given, missing } = missingIn(read.sqlite)
  if (missing.size === 0) return null
  const said = parts
    .filter((part) => part.project === project)
    .map((part) => saidBy(part).manifest)
    .filter(({ scope }) => scope.kind === 'bays')
    .sort((a, b) => (a.made.at < b.made.at ? -1 : 1))
  const newest = said.at(-1)
  if (newest === undefined) return null
  const whole = new Set(said.flatMap(({ scope }) => scope.bays.map(({ id }) => id)))
  const here = prepared<{ id: BayId; name: string; hash: string }>(
    read.sqlite,
    `select b.id, b.name, l.hash from bays b join ledger l on l.id = b.id
     where b.project = ? and b.withdrawn = 0 order by b.name, b.id`,
  ).all(project)
  const isHeld = ({ id, hash }: (typeof here)[number]) => whole.has(id) || !given.has(hash)
  const [held, named] = [here.filter(isHeld), here.filter((bay) => !isHeld(bay))]
  const plannedHere = held.filter(({ id }) => !whole.has(id)).length
  return {
    held: held.map(withoutHash),
    named: named.map(withoutHash),
    ofBays: bayCount(newest.scope, plannedHere),
    missingEntries: missing.size,
    asOf: newest.scope.asOf ?? newest.made.at,
  }
}

function bayCount({ baysOfProject }: BundleScope, plannedHere: number): number | null {
  return baysOfProject === undefined ? null : baysOfProject + plannedHere
}

function withoutHash({ id, name }: { id: BayId; name: string }) {
  return { id, name }
}
