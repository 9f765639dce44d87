import type { StoryEntry } from '#model/record/entry.ts'
import { type KindName, kindNames } from '#model/record/kinds.ts'
import { dayOnSite } from '../../parts/site-time.ts'

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
  const first = dayOnSite(fromDay, zone)
  const last = dayOnSite(toDay, zone)
  return {
    subject: subject ?? undefined,
    kinds: kind === null ? undefined : [kind],
    from: first === null ? undefined : new Date(first.from).toISOString(),
    to: last === null ? undefined : new Date(last.to).toISOString(),
  }
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
