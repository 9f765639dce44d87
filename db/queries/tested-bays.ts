import type { BayId, ProjectId } from '#model/record/ids.ts'
import type { BodyOf } from '#model/record/kinds.ts'
import { plucked, prepared, type ReadHandle } from '../handles.ts'

export interface TestedBay {
  id: BayId
  name: string
  project: ProjectId
  projectName: string
  /** When its last moisture test that stands was read [epoch ms]. */
  lastTestAt: number
}

/** The bays of all projects of a record with a moisture test that stands and was read by `asOf`, last tested first. */
export function testedBays(read: ReadHandle, asOf: number): TestedBay[] {
  return prepared<TestedBay>(
    read.sqlite,
    `select b.id, b.name, b.project, p.name as projectName, max(f.happenedAt) as lastTestAt
     from bays b join projects p on p.id = b.project
       join facts f on f.subject = b.id and f.kind = 'moisture-read' and f.withdrawn = 0 and f.happenedAt <= ?
     where b.withdrawn = 0 and p.withdrawn = 0 group by b.id order by lastTestAt desc, b.id`,
  ).all(asOf)
}

/** The plan of a bay and the batches of it that stand and were mixed by `asOf`. */
export function planAndBatches(
  read: ReadHandle,
  bay: BayId,
  asOf: number,
): { plan: BodyOf<'bay-planned'>; batches: BodyOf<'batch-mixed'>[] } {
  const bodies = <Body>(kind: string, until: number) =>
    plucked<string>(
      read.sqlite,
      `select l.body from facts f join ledger l on l.seq = f.standing
       where f.subject = ? and f.kind = ? and f.withdrawn = 0 and f.happenedAt <= ? order by f.happenedAt, f.seq`,
    )
      .all(bay, kind, until)
      .map((body) => JSON.parse(body) as Body)
  return {
    plan: bodies<BodyOf<'bay-planned'>>('bay-planned', Number.MAX_SAFE_INTEGER)[0]!,
    batches: bodies<BodyOf<'batch-mixed'>>('batch-mixed', asOf),
  }
}
