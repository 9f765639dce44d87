import type { StoryEntryOf } from '#model/record/entry.ts'
import { type Handle, prepared } from '../handles.ts'
import { type FactRow, factColumns, storyEntriesFrom } from './story-entries.ts'

export interface PhotosAbout {
  project: string
  /** What they are about: a bay, a floor, a zone, an instrument, the project. */
  subject: string
}

/** The standing photos of one thing, newest happening first. */
export function photosAbout(handle: Handle, about: PhotosAbout): StoryEntryOf<'photo-added'>[] {
  return factsAbout(handle, 'photo-added', about) as StoryEntryOf<'photo-added'>[]
}

/** The standing widths that were read off photos of one thing, newest first. */
export function photoMarksAbout(handle: Handle, about: PhotosAbout): StoryEntryOf<'photo-marked'>[] {
  return factsAbout(handle, 'photo-marked', about) as StoryEntryOf<'photo-marked'>[]
}

function factsAbout(handle: Handle, kind: 'photo-added' | 'photo-marked', { project, subject }: PhotosAbout) {
  const rows = prepared<FactRow>(
    handle.sqlite,
    `select ${factColumns} from facts f join ledger l on l.seq = f.standing
     where f.subject = ? and f.kind = ? and f.project = ? and f.withdrawn = 0
     order by f.happenedAt desc, f.seq desc`,
  ).all(subject, kind, project)
  return storyEntriesFrom(handle, rows)
}
