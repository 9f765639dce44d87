import { and, asc, eq } from 'drizzle-orm'
import type { BayState, ProjectOutline, ProjectSummary } from '#model/contract/shapes.ts'
import type { ProjectId } from '#model/record/ids.ts'
import { UnknownId } from '../errors.ts'
import { prepared, type ReadHandle } from '../handles.ts'
import { bays, facts, floors, instruments, ledger, people, projects, zones } from '../schema.ts'
import { partOf } from './part-of.ts'

/** A project's outline without the state of its bays, which is computed from their stories. */
export type StoredOutline = Omit<ProjectOutline, 'bays'> & {
  bays: Omit<ProjectOutline['bays'][number], 'state'>[]
}
export type { BayState }

/** The projects of a record, the one last written in first. */
export function projectSummaries(read: ReadHandle): ProjectSummary[] {
  return prepared<Omit<ProjectSummary, 'lastRecordedAt'> & { lastRecordedAt: number }>(
    read.sqlite,
    `select id, name, entries, lastRecordedAt from projects
     where withdrawn = 0 order by lastRecordedAt desc, id`,
  )
    .all()
    .map((row) => ({ ...row, lastRecordedAt: new Date(row.lastRecordedAt).toISOString() }))
}

/**
 * Floors, zones, bays, people and instruments of a project as they stand; withdrawn ones are left out, and so are bays
 * of which a record that holds a part has only the plan.
 * @throws UnknownId when there is no such project
 */
export function projectOutline(read: ReadHandle, project: ProjectId): StoredOutline {
  return read.sqlite.transaction(() => outline(read, project))()
}

function outline(read: ReadHandle, project: ProjectId): StoredOutline {
  const opened = read.orm
    .select({ id: projects.id, body: ledger.body })
    .from(projects)
    .innerJoin(facts, eq(facts.root, projects.id))
    .innerJoin(ledger, eq(ledger.seq, facts.standing))
    .where(eq(projects.id, project))
    .get()
  if (opened === undefined) throw new UnknownId('project', project)
  const floorRows = read.orm
    .select({ id: floors.id, body: ledger.body })
    .from(floors)
    .innerJoin(facts, eq(facts.root, floors.id))
    .innerJoin(ledger, eq(ledger.seq, facts.standing))
    .where(and(eq(floors.project, project), eq(floors.withdrawn, false)))
    .orderBy(asc(floors.level), asc(floors.name), asc(floors.id))
    .all()
  const zoneRows = read.orm
    .select({ id: zones.id, body: ledger.body })
    .from(zones)
    .innerJoin(floors, eq(floors.id, zones.floor))
    .innerJoin(facts, eq(facts.root, zones.id))
    .innerJoin(ledger, eq(ledger.seq, facts.standing))
    .where(and(eq(zones.project, project), eq(zones.withdrawn, false)))
    .orderBy(asc(floors.level), asc(zones.name), asc(zones.id))
    .all()
  const bayRows = read.orm
    .select({ id: bays.id, floor: zones.floor, body: ledger.body })
    .from(bays)
    .innerJoin(zones, eq(zones.id, bays.zone))
    .innerJoin(floors, eq(floors.id, zones.floor))
    .innerJoin(facts, eq(facts.root, bays.id))
    .innerJoin(ledger, eq(ledger.seq, facts.standing))
    .where(and(eq(bays.project, project), eq(bays.withdrawn, false)))
    .orderBy(asc(floors.level), asc(zones.name), asc(bays.name), asc(bays.id))
    .all()
  const personRows = read.orm
    .select({ id: people.id, body: ledger.body })
    .from(people)
    .innerJoin(facts, eq(facts.root, people.id))
    .innerJoin(ledger, eq(ledger.seq, facts.standing))
    .where(and(eq(people.project, project), eq(people.withdrawn, false)))
    .orderBy(asc(people.name), asc(people.id))
    .all()
  const instrumentRows = read.orm
    .select({ id: instruments.id, body: ledger.body })
    .from(instruments)
    .innerJoin(facts, eq(facts.root, instruments.id))
    .innerJoin(ledger, eq(ledger.seq, facts.standing))
    .where(and(eq(instruments.project, project), eq(instruments.withdrawn, false)))
    .orderBy(asc(instruments.type), asc(instruments.serial), asc(instruments.id))
    .all()
  const part = partOf(read, project)
  const named = new Set<string>(part?.named.map(({ id }) => id))
  return {
    part,
    project: withBody(opened),
    floors: floorRows.map(withBody),
    zones: zoneRows.map(withBody),
    bays: bayRows.filter(({ id }) => !named.has(id)).map(withBody),
    people: personRows.map(withBody),
    instruments: instrumentRows.map((row) => ({ ...withBody(row), ...lastCheckOf(read, row.id) })),
  } as unknown as StoredOutline
}

function withBody<Row extends { body: string }>(row: Row) {
  return { ...row, body: JSON.parse(row.body) as Record<string, unknown> }
}

function lastCheckOf(read: ReadHandle, instrument: string) {
  const last = prepared<{ happenedAt: number; passed: number }>(
    read.sqlite,
    `select f.happenedAt, json_extract(l.body, '$.passed') as passed from facts f join ledger l on l.seq = f.standing
     where f.subject = ? and f.kind = 'instrument-checked' and f.withdrawn = 0 order by f.happenedAt desc, f.seq desc limit 1`,
  ).get(instrument)
  return {
    lastCheckedAt: last === undefined ? null : new Date(last.happenedAt).toISOString(),
    lastCheckPassed: last === undefined ? null : last.passed === 1,
  }
}
