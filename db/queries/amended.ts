import type { StoryEntry } from '#model/record/entry.ts'
import type { ProjectId } from '#model/record/ids.ts'
import { plucked, prepared, type ReadHandle } from '../handles.ts'
import { storyEntriesByRoot } from './story-entries.ts'

/** Facts of a project that were corrected or withdrawn by an entry recorded at or after `since`, with all their versions. */
export function amendedSince(
  read: ReadHandle,
  project: ProjectId,
  since: number,
  most: number,
): StoryEntry[] {
  const roots = plucked<string>(
    read.sqlite,
    `select f.root from ledger l join factVersions v on v.seq = l.seq join facts f on f.seq = v.fact
     where l.project = ? and l.corrects is not null and l.recordedAt >= ?
     group by f.root order by max(l.recordedAt) desc, f.root limit ?`,
  ).all(project, since, most)
  return storyEntriesByRoot(read, roots)
}

/** Standing facts of a project that were first written down long after they happened, and recorded at or after `since`. */
export function lateSince(read: ReadHandle, project: ProjectId, since: number, most: number): StoryEntry[] {
  const roots = plucked<string>(
    read.sqlite,
    `select f.root from facts f join ledger l on l.seq = f.seq
     where f.project = ? and f.late = 1 and f.withdrawn = 0 and l.recordedAt >= ?
     order by l.recordedAt desc, f.seq desc limit ?`,
  ).all(project, since, most)
  return storyEntriesByRoot(read, roots)
}

/** Two entries of one machine, one after the other, of which the later carries the earlier time. */
export interface ClockJumpRow {
  device: string
  entry: string
  subject: string
  before: number
  at: number
}

/** Where the clock of a machine went back between two entries that it wrote for a project. */
export function clockJumps(read: ReadHandle, project: ProjectId): ClockJumpRow[] {
  return prepared<ClockJumpRow>(
    read.sqlite,
    `select device, id as entry, subject, before, recordedAt as at from (
       select device, id, subject, project, recordedAt,
         lag(recordedAt) over (partition by device order by deviceSeq) as before
       from ledger)
     where project = ? and before > recordedAt order by recordedAt limit 200`,
  ).all(project)
}
