import type { SeriesQuantity } from '#model/record/climate.ts'
import type { NewEntry, RangeAnswer, Source } from '#model/record/entry.ts'
import type { FieldSet } from '#model/record/fields.ts'
import type { EntryId, PersonId, ProjectId } from '#model/record/ids.ts'
import { type BodyOf, type KindName, kinds } from '#model/record/kinds.ts'
import type { Chance } from './chance.ts'
import { iso, minuteMs, siteZone } from './site-clock.ts'

export interface LoggerDownload {
  subject: string
  person: PersonId
  recordedAt: number
  fileName: string
  columns: { quantity: SeriesQuantity; heading: string; at: number[]; value: number[] }[]
}

/** Something to write into the ledger, and when a person would have written it. */
export type Page = { recordedAt: number; entry: NewEntry } | { recordedAt: number; download: LoggerDownload }

export interface Noting<K extends KindName> {
  /** Left out for the entries that bring their subject into being. */
  subject?: string
  at: number
  person: PersonId
  body: BodyOf<K>
  source?: Source
  /** Why a value outside its usual range is right. */
  sure?: string
  /** Minutes between the happening and the writing; 12 when not said. */
  writtenAfterMin?: number
  corrects?: EntryId
  reason?: string
}

/** Collects what will be written; nothing that has not happened by `now` gets in. */
export interface Book {
  /** The moment at which the demonstration stands. */
  now: number
  note: <K extends KindName>(kind: K, noting: Noting<K>) => EntryId
  /** Like `note`, for a thing whose id had to be known before its entry. */
  begin: <K extends KindName>(kind: K, id: string, noting: Noting<K>) => void
  download: (download: LoggerDownload) => void
  /** Everything in the order of writing. */
  pages: () => Page[]
}

export function openBook(project: ProjectId, chance: Chance, now: number): Book {
  const pages: Page[] = []
  const write = <K extends KindName>(kind: K, id: EntryId, noting: Noting<K>) => {
    if (noting.at > now) return
    pages.push({
      recordedAt: Math.min(now, noting.at + (noting.writtenAfterMin ?? 12) * minuteMs),
      entry: {
        id,
        project,
        subject: noting.subject ?? id,
        kind,
        happenedAt: iso(noting.at),
        zone: siteZone,
        person: noting.person,
        source: noting.source ?? 'typed',
        body: noting.body as Record<string, unknown>,
        answers: oddValues(kind, noting.body, noting.sure),
        ...(noting.corrects === undefined ? {} : { corrects: noting.corrects, reason: noting.reason }),
      },
    })
  }
  return {
    now,
    note: (kind, noting) => {
      const id = chance.id<'entry'>(noting.at)
      write(kind, id, noting)
      return id
    },
    begin: (kind, id, noting) => write(kind, id as EntryId, noting),
    download: (download) => pages.push({ recordedAt: download.recordedAt, download }),
    pages: () => pages.sort((a, b) => a.recordedAt - b.recordedAt),
  }
}

/** The "are you sure?" answers that a person would have been asked for. */
function oddValues(
  kind: KindName,
  body: Record<string, unknown>,
  answer = 'Read twice; it is so',
): RangeAnswer[] {
  return Object.entries(kinds[kind].fields as FieldSet).flatMap(([field, { soft }]) => {
    const value = body[field]
    if (soft === undefined || typeof value !== 'number' || (value >= soft[0] && value <= soft[1])) return []
    return [{ field, value, answer }]
  })
}
