import type { EntryVersion, StoryEntry } from '#model/record/entry.ts'
import { type KindName, kinds } from '#model/record/kinds.ts'

/** One field that a correction changed. Null where the fact did not hold it. */
export interface Change {
  field: string
  label: string
  from: unknown
  to: unknown
}

/** A correction, a withdrawal or the taking back of one: who, when, why, and old against new. */
export interface Amendment {
  /** The fact, by the id of its first version. */
  entry: string
  /** This version of it. */
  version: string
  kind: KindName
  subject: string
  what: 'corrected' | 'withdrawn' | 'brought back'
  at: number
  person: string
  reason: string | null
  changes: Change[]
  /** Another correction of the same version stands beside it. */
  conflict: boolean
  /** The fact was first written down then, by this person. */
  firstAt: number
  firstBy: string
}

/**
 * Returns what was corrected or withdrawn from an instant on, the newest first. What is compared is the version that stood
 * before; the moment at which it happened counts as a field.
 * @param entries facts with all their versions
 * @param since by the time of recording [epoch ms]
 */
export function amendmentsOf(entries: readonly StoryEntry[], since: number): Amendment[] {
  return entries
    .flatMap((entry) =>
      entry.versions.flatMap((version, i): Amendment[] => {
        if (i === 0 || version.recordedAt < since) return []
        const before = entry.versions.slice(0, i).findLast(({ kind }) => kind !== 'entry-withdrawn')
        const withdrawn = version.kind === 'entry-withdrawn'
        const isAfterWithdrawal = entry.versions[i - 1]?.kind === 'entry-withdrawn'
        return [
          {
            entry: entry.id,
            version: version.id,
            kind: entry.kind,
            subject: entry.subject,
            what: withdrawn ? 'withdrawn' : isAfterWithdrawal ? 'brought back' : 'corrected',
            at: version.recordedAt,
            person: version.person,
            reason: version.reason,
            changes: withdrawn || before === undefined ? [] : changesBetween(entry.kind, before, version),
            conflict: entry.conflict,
            firstAt: entry.versions[0]!.recordedAt,
            firstBy: entry.versions[0]!.person,
          },
        ]
      }),
    )
    .sort((a, b) => b.at - a.at || (a.version < b.version ? 1 : -1))
}

function changesBetween(kind: KindName, before: EntryVersion, after: EntryVersion): Change[] {
  const fields = kinds[kind].fields as Readonly<Record<string, { label: string }>>
  const moved: Change[] =
    before.happenedAt === after.happenedAt
      ? []
      : [
          {
            field: 'happenedAt',
            label: 'When it happened',
            from: new Date(before.happenedAt).toISOString(),
            to: new Date(after.happenedAt).toISOString(),
          },
        ]
  const changed = Object.entries(fields).flatMap(([field, { label }]): Change[] => {
    const from = before.body[field] ?? null
    const to = after.body[field] ?? null
    return JSON.stringify(from) === JSON.stringify(to) ? [] : [{ field, label, from, to }]
  })
  return [...moved, ...changed]
}
