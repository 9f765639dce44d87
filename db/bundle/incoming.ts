import { z } from 'zod'
import { referencesOf } from '#model/record/check-body.ts'
import { type LedgerEntry, rangeAnswer, sources } from '#model/record/entry.ts'
import { idOf } from '#model/record/ids.ts'
import { isKindName, kinds } from '#model/record/kinds.ts'
import { prepared, type Sqlite } from '../handles.ts'
import { BundleFault } from './fault.ts'

const instant = z.string().refine((text) => {
  const at = Date.parse(text)
  return !Number.isNaN(at) && new Date(at).toISOString() === text
}, 'is not a time as the ledger writes it')
const hash = z.string().regex(/^[0-9a-f]{64}$/)

const shape = z.strictObject({
  id: idOf('entry'),
  device: idOf('device'),
  deviceSeq: z.number().int().min(1),
  project: idOf('project'),
  subject: z.string().min(1).max(64),
  kind: z.string().max(64),
  kindVersion: z.number().int().min(1),
  happenedAt: instant,
  zone: z.string().min(1).max(60),
  recordedAt: instant,
  person: idOf('person'),
  source: z.enum(Object.keys(sources) as [keyof typeof sources]),
  body: z.record(z.string(), z.unknown()),
  answers: z.array(rangeAnswer).max(60),
  corrects: idOf('entry').nullable(),
  reason: z.string().min(1).max(1000).nullable(),
  prevHash: hash,
})

/**
 * An entry from elsewhere as one of this ledger. A good hash says only that it was not changed since; whether it is an
 * entry at all, with a body that the screens can read, is asked here.
 * @throws BundleFault in a sentence that names it
 */
export function incomingEntry(said: unknown, hashOfIt: string): LedgerEntry {
  const parsed = shape.safeParse(said)
  const about = nameOf(said)
  if (!parsed.success) {
    const issue = parsed.error.issues[0]!
    throw new BundleFault(
      `${about} is not an entry: ${issue.path.join('.') || 'it'} does not fit (${issue.message}).`,
    )
  }
  const { kind, kindVersion, body, corrects, reason } = parsed.data
  if (!isKindName(kind) || kindVersion > kinds[kind].version) {
    throw new BundleFault(
      `${about} is of kind ${kind}, version ${kindVersion}, which this Bayledger does not know. Update it.`,
    )
  }
  const read = kinds[kind].body.safeParse(body)
  if (!read.success) {
    const issue = read.error.issues[0]!
    throw new BundleFault(
      `${about} has a body that no ${kinds[kind].title.toLowerCase()} has: ${issue.path.join('.')} ${issue.message}.`,
    )
  }
  if (corrects !== null && reason === null)
    throw new BundleFault(`${about} corrects an entry and does not say why.`)
  if (corrects === null && kind === 'entry-withdrawn') throw new BundleFault(`${about} withdraws nothing.`)
  return { ...parsed.data, kind, seq: 0, hash: hashOfIt } as LedgerEntry
}

/**
 * What an entry stands on is here already: its project, its subject, its person, what it points at and what it corrects.
 * They may have been withdrawn since; that is for the alerts to say.
 * @throws BundleFault in a sentence that names it
 */
export function requireGround(sqlite: Sqlite, entry: LedgerEntry): void {
  const { id, project, subject, person, kind, corrects, body } = entry
  const begins = kinds[kind].begins === true && corrects === null
  if (begins && subject !== id)
    throw new BundleFault(`${nameOf(entry)} begins something under another id than its own.`)
  const isHere = (what: string) => {
    const found = prepared(sqlite, 'select 1 from ledger where id = ? and project = ?').get(what, project)
    return found !== undefined || what === id
  }
  const needed = [
    ...(kind === 'project-opened'
      ? []
      : [
          ['its project', project],
          ['its person', person],
        ]),
    ['its subject', subject],
    ...(corrects === null ? [] : [['what it corrects', corrects]]),
    ...[...referencesOf(kinds[kind].fields, body)].map((one) => [one.path, one.id]),
  ] as [string, string][]
  for (const [what, points] of needed) {
    // The person who opens a project is added right after it.
    if (what === 'its person' && kind === 'person-added' && points === id) continue
    if (!isHere(points))
      throw new BundleFault(`${nameOf(entry)} stands on something that is not here: ${what} (${points}).`)
  }
  if (corrects === null) return
  const before = prepared<{ kind: string; subject: string }>(
    sqlite,
    `select f.kind, f.subject from ledger l join factVersions v on v.seq = l.seq join facts f on f.seq = v.fact where l.id = ?`,
  ).get(corrects)
  if (kind !== 'entry-withdrawn' && before?.kind !== kind)
    throw new BundleFault(`${nameOf(entry)} corrects an entry of another kind (${before?.kind}).`)
}

function nameOf(said: unknown): string {
  const { deviceSeq, device } = (said ?? {}) as { deviceSeq?: unknown; device?: unknown }
  return `Entry ${String(deviceSeq).slice(0, 20)} of device ${String(device).slice(0, 64)}`
}
