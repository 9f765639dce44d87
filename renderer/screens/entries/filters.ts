import type { StoryEntry } from '#model/record/entry.ts'
import { type KindName, kindNames } from '#model/record/kinds.ts'
import { instantFromWall } from '../../parts/site-time.ts'

export interface Filters {
  subject: string | null
  kind: KindName | null
  fromDay: string
  toDay: string
  /** Only what is marked: late, corrected, withdrawn, in conflict. */
  mark: Mark | null
}
export type Mark = 'late' | 'corrected' | 'withdrawn' | 'conflict'

export const noFilters: Filters = { subject: null, kind: null, fromDay: '', toDay: '', mark: null }

/** The part of the filters that the record answers. */
export function inputOf({ subject, kind, fromDay, toDay }: Filters, zone: string) {
  const from = dayStart(fromDay, zone)
  const to = dayStart(toDay, zone)
  return {
    subject: subject ?? undefined,
    kinds: kind === null ? undefined : [kind],
    from: from === null ? undefined : new Date(from).toISOString(),
    to: to === null ? undefined : new Date(to + 24 * 3_600_000 - 1).toISOString(),
  }
}

function dayStart(day: string, zone: string): number | null {
  const wall = instantFromWall(day, '00:00', zone) ?? null
  if (wall === null) return null
  // Where midnight is skipped by a clock change, the day begins an hour later.
  if (wall.kind === 'skipped') {
    const later = instantFromWall(day, '01:00', zone)
    return later === null || later.kind === 'skipped' ? null : later.at
  }
  return wall.at
}

/** The part of the filters that looks at the marks of an entry. */
export function passes(entry: StoryEntry, { mark }: Filters): boolean {
  return mark === null || marksOf(entry).includes(mark)
}

export function marksOf(entry: StoryEntry): Mark[] {
  const marks: Mark[] = []
  if (entry.withdrawn) marks.push('withdrawn')
  if (entry.versions.filter(({ kind }) => kind !== 'entry-withdrawn').length > 1) marks.push('corrected')
  if (entry.late) marks.push('late')
  if (entry.conflict) marks.push('conflict')
  return marks
}

export const allKinds: readonly KindName[] = kindNames.filter((kind) => kind !== 'entry-withdrawn')
