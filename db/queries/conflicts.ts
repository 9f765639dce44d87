import type { ConflictToSettle } from '#model/contract/bundles.ts'
import type { EntryId, ProjectId } from '#model/record/ids.ts'
import { plucked, prepared, type ReadHandle } from '../handles.ts'
import { type FactRow, factColumns, storyEntriesFrom } from './story-entries.ts'

/** The facts of a project on which two corrections of one version stand side by side, oldest happening first. */
export function conflictsOf(read: ReadHandle, project: ProjectId): ConflictToSettle[] {
  const rows = prepared<FactRow>(
    read.sqlite,
    `select ${factColumns} from facts f join ledger l on l.seq = f.standing
     where f.project = ? and f.conflict = 1 order by f.happenedAt, f.seq`,
  ).all(project)
  const endsOf = plucked<EntryId>(
    read.sqlite,
    `select l.id from factVersions v join ledger l on l.seq = v.seq
     where v.fact = (select fact from factVersions x join ledger y on y.seq = x.seq where y.id = ?)
       and v.leaf = 1 and l.kind <> 'entry-withdrawn' order by v.seq`,
  )
  return storyEntriesFrom(read, rows).map((fact) => ({ fact, ends: endsOf.all(fact.id) }))
}
