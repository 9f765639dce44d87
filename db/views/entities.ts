import type { BodyOf, KindName } from '#model/record/kinds.ts'
import { prepared, type Sqlite } from '../handles.ts'
import type { Fact } from './facts.ts'

/** Which table lists the things that a kind of entry brings into being, and what it shows of them. */
const listed: { [K in KindName]?: { sql: string; values: (body: BodyOf<K>, fact: Fact) => unknown[] } } = {
  'project-opened': {
    sql: `insert into projects (id, name, timeZone, withdrawn, entries, lastRecordedAt) values (?, ?, ?, ?, 0, ?)
      on conflict (id) do update set name = excluded.name, timeZone = excluded.timeZone, withdrawn = excluded.withdrawn`,
    values: (body, fact) => [
      fact.root,
      body.name,
      body.timeZone,
      Number(fact.withdrawn),
      fact.standing.recordedAt,
    ],
  },
  'floor-added': {
    sql: `insert into floors (id, project, name, level, withdrawn) values (?, ?, ?, ?, ?)
      on conflict (id) do update set name = excluded.name, level = excluded.level, withdrawn = excluded.withdrawn`,
    values: (body, fact) => [fact.root, fact.standing.project, body.name, body.level, Number(fact.withdrawn)],
  },
  'zone-added': {
    sql: `insert into zones (id, project, floor, name, heated, withdrawn) values (?, ?, ?, ?, ?, ?)
      on conflict (id) do update set floor = excluded.floor, name = excluded.name, heated = excluded.heated,
        withdrawn = excluded.withdrawn`,
    values: (body, fact) => [
      fact.root,
      fact.standing.project,
      body.floor,
      body.name,
      Number(body.heated),
      Number(fact.withdrawn),
    ],
  },
  'bay-planned': {
    sql: `insert into bays (id, project, zone, name, withdrawn) values (?, ?, ?, ?, ?)
      on conflict (id) do update set zone = excluded.zone, name = excluded.name, withdrawn = excluded.withdrawn`,
    values: (body, fact) => [fact.root, fact.standing.project, body.zone, body.name, Number(fact.withdrawn)],
  },
  'person-added': {
    sql: `insert into people (id, project, name, role, withdrawn) values (?, ?, ?, ?, ?)
      on conflict (id) do update set name = excluded.name, role = excluded.role, withdrawn = excluded.withdrawn`,
    values: (body, fact) => [fact.root, fact.standing.project, body.name, body.role, Number(fact.withdrawn)],
  },
  'instrument-added': {
    sql: `insert into instruments (id, project, type, serial, withdrawn) values (?, ?, ?, ?, ?)
      on conflict (id) do update set type = excluded.type, serial = excluded.serial, withdrawn = excluded.withdrawn`,
    values: (body, fact) => [
      fact.root,
      fact.standing.project,
      body.type,
      body.serial,
      Number(fact.withdrawn),
    ],
  },
  'logger-imported': {
    sql: `insert into imports (entry, project, subject, sha256, madeBy, withdrawn) values (?, ?, ?, ?, ?, ?)
      on conflict (entry) do update set madeBy = excluded.madeBy, withdrawn = excluded.withdrawn`,
    values: (body, fact) => [
      fact.root,
      fact.standing.project,
      fact.standing.subject,
      body.sha256,
      body.madeBy ?? null,
      Number(fact.withdrawn),
    ],
  },
}

/** Lists the thing that a fact brings into being; other facts leave the lists alone. */
export function projectEntity(sqlite: Sqlite, fact: Fact): void {
  const list = listed[fact.standing.kind]
  if (list === undefined) return
  const values = list.values as (body: unknown, fact: Fact) => unknown[]
  prepared(sqlite, list.sql).run(...values(JSON.parse(fact.standing.body), fact))
}
