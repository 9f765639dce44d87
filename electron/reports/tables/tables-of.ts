import { type SeriesQuantity, seriesQuantities } from '#model/record/climate.ts'
import type { StoryEntry } from '#model/record/entry.ts'
import { sources } from '#model/record/entry.ts'
import type { FieldSet } from '#model/record/fields.ts'
import { type KindName, kindNames } from '#model/record/kinds.ts'
import { coverings } from '#model/record/words.ts'
import { limitText, listRules } from '#model/rules/index.ts'
import { severities } from '#model/watch/alert.ts'
import { fieldsOf } from '../entry-text.ts'
import type { BayFile } from '../handover/bay-file.ts'
import { gapsOf } from '../handover/gaps.ts'
import type { Names } from '../handover/names.ts'
import { siteIso } from '../site-text.ts'
import type { Cell, Table, TableColumn } from './table.ts'

interface Tabled {
  bays: readonly BayFile[]
  names: Names
  zone: string
}

/** What a cell is told with. */
type Telling = Pick<Tabled, 'names' | 'zone'>

const utc = (at: number) => new Date(at).toISOString()

/** Returns all that is known of some bays as tables: one a kind of thing, with units in the headings and both clocks. */
export function tablesOf(tabled: Tabled): Table[] {
  return [
    bayTable(tabled),
    conditionTable(tabled),
    gapTable(tabled),
    alertTable(tabled),
    moistureResultTable(tabled),
    ruleTable(tabled),
    ...entryTables(tabled),
    readingTable(tabled),
  ].filter(({ rows }) => rows.length > 0)
}

function bayTable({ bays, zone }: Tabled): Table {
  return {
    name: 'bays',
    columns: [
      'Bay',
      'Place',
      'Covering',
      'Verdict',
      'State',
      'Because',
      'Finished UTC',
      'Finished site time',
      'Story SHA-256',
      'Id',
    ].map((name) => ({ name })),
    rows: bays.map(({ id, name, place, covering, readiness, state, facts, hash }) => {
      const { t0 } = facts.life
      const finished = t0 === null ? [null, null] : [utc(t0), siteIso(t0, zone)]
      return [
        name,
        place,
        coverings[covering],
        readiness.verdict,
        state.word,
        state.because,
        ...finished,
        hash,
        id,
      ]
    }),
  }
}

function conditionTable({ bays }: Tabled): Table {
  return {
    name: 'conditions',
    columns: ['Bay', 'Condition', 'State', 'Because', 'Entries'].map((name) => ({ name })),
    rows: bays.flatMap((bay) =>
      bay.readiness.conditions.map(({ name, state, because, entries }) => [
        bay.name,
        name,
        state,
        because,
        entries.join(' '),
      ]),
    ),
  }
}

function gapTable({ bays }: Tabled): Table {
  return {
    name: 'known-gaps',
    columns: ['Bay', 'What', 'State', 'Because', 'Answered'].map((name) => ({ name })),
    rows: bays.flatMap((bay) =>
      gapsOf(bay).map(({ what, state, because, answered }) => [bay.name, what, state, because, answered]),
    ),
  }
}

function alertTable({ bays, names, zone }: Tabled): Table {
  return {
    name: 'alerts',
    columns: [
      'Bay',
      'Rule',
      'Alert',
      'Weight',
      'Since UTC',
      'Since site time',
      'Until UTC',
      'Non-conformance',
      'What to do',
      'Answer',
      'Answered by',
      'Answered UTC',
      'Id',
    ].map((name) => ({ name })),
    rows: bays.flatMap((bay) =>
      bay.alerts.map((one) => [
        bay.name,
        one.rule,
        one.title,
        severities[one.severity],
        utc(one.since),
        siteIso(one.since, zone),
        one.until === null ? null : utc(one.until),
        one.nonconformance,
        one.whatToDo,
        one.answeredBy?.answer ?? null,
        one.answeredBy === null ? null : names.of(one.answeredBy.person),
        one.answeredBy === null ? null : utc(one.answeredBy.at),
        one.id,
      ]),
    ),
  }
}

function moistureResultTable({ bays, zone }: Tabled): Table {
  return {
    name: 'moisture-results',
    columns: [
      'Bay',
      'Place',
      'Read UTC',
      'Read site time',
      'Value',
      'Unit',
      'Limit',
      'Verdict',
      'Counts',
      'Why',
      'Entry id',
    ].map((name) => ({ name })),
    rows: bays.flatMap((bay) =>
      bay.tests.map(({ entry, at, acceptance, limit, valid, contradictions }) => [
        bay.name,
        entry.body.point,
        utc(at),
        siteIso(at, zone),
        acceptance.value,
        acceptance.unit,
        limit === null ? null : limitText(limit),
        acceptance.verdict,
        valid,
        [...contradictions, ...acceptance.reasons].join(' '),
        entry.id,
      ]),
    ),
  }
}

function ruleTable({ bays }: Tabled): Table {
  const rules = bays[0]?.rules
  return {
    name: 'rules',
    columns: [
      'Group',
      'Question',
      'Operator',
      'Value',
      'Unit',
      'Source',
      'Edition',
      'Clause',
      'How it is known',
      'Reason',
      'Rule',
    ].map((name) => ({ name })),
    rows: (rules === undefined ? [] : listRules(rules)).map(({ id, group, question, limit }) => [
      group,
      question,
      limit.operator,
      limit.value,
      limit.unit,
      limit.source,
      limit.edition ?? null,
      limit.clause ?? null,
      limit.provenance,
      limit.reason ?? null,
      id,
    ]),
  }
}

const entryColumns: readonly TableColumn[] = [
  'About',
  'Happened UTC',
  'Happened site time',
  'Written down UTC',
  'By',
  'Source',
  'Late',
  'Withdrawn',
  'Versions',
  'Last reason',
  'Entry id',
].map((name) => ({ name }))

/** A table a kind of entry; a list inside an entry gets a table of its own, tied by the entry's id. */
function entryTables({ bays, names, zone }: Tabled): Table[] {
  const entries = new Map<string, StoryEntry>()
  for (const { story } of bays) for (const entry of story.entries) entries.set(entry.id, entry)
  const sorted = [...entries.values()].sort((a, b) => a.happenedAt - b.happenedAt || (a.id < b.id ? -1 : 1))
  return kindNames.flatMap((kind) => {
    const own = sorted.filter((entry) => entry.kind === kind)
    const fields = fieldsOf(kind)
    const plain = Object.entries(fields).filter(([, { item }]) => item === undefined)
    const main: Table = {
      name: kind,
      columns: [...entryColumns, ...columnsOf(Object.fromEntries(plain))],
      rows: own.map((entry) => [
        names.of(entry.subject),
        utc(entry.happenedAt),
        siteIso(entry.happenedAt, zone),
        utc(entry.recordedAt),
        names.of(entry.person),
        sources[entry.source],
        entry.late,
        entry.withdrawn,
        entry.versions.length,
        entry.versions.at(-1)?.reason ?? null,
        entry.id,
        ...plain.flatMap(([name, field]) =>
          cellsOf(field, (entry.body as Record<string, unknown>)[name], { names, zone }),
        ),
      ]),
    }
    return [main, ...listTables(kind, fields, own, { names, zone })]
  })
}

function listTables(kind: KindName, fields: FieldSet, own: readonly StoryEntry[], telling: Telling): Table[] {
  return Object.entries(fields).flatMap(([name, { item }]): Table[] => {
    if (item === undefined) return []
    const rows = own.flatMap((entry) => {
      const list: unknown = (entry.body as Record<string, unknown>)[name]
      return (Array.isArray(list) ? (list as Record<string, unknown>[]) : []).map((one, i): Cell[] => [
        telling.names.of(entry.subject),
        entry.id,
        i + 1,
        ...Object.entries(item).flatMap(([part, field]) => cellsOf(field, one[part], telling)),
      ])
    })
    const columns = [
      { name: 'About' },
      { name: 'Entry id' },
      { name: 'Number in the list' },
      ...columnsOf(item),
    ]
    return [{ name: `${kind}.${name}`, columns, rows }]
  })
}

/** A reference has its name and its id, an instant both clocks; everything else one column. */
function columnsOf(fields: FieldSet): TableColumn[] {
  return Object.values(fields).flatMap(({ label, unit, input }): TableColumn[] => {
    if (input === 'reference') return [{ name: label }, { name: `${label}, id` }]
    if (input === 'instant')
      return [
        { name: label, unit: 'UTC' },
        { name: label, unit: 'site time' },
      ]
    return [{ name: label, unit }]
  })
}

function cellsOf(field: FieldSet[string], value: unknown, { names, zone }: Telling): Cell[] {
  if (field.input === 'reference') {
    const id = value === undefined ? null : String(value)
    return [id === null || field.pointsAt === 'entry' ? null : names.of(id), id]
  }
  if (field.input === 'instant') {
    const at = value === undefined ? Number.NaN : Date.parse(String(value))
    return Number.isFinite(at) ? [utc(at), siteIso(at, zone)] : [null, null]
  }
  if (value === undefined || value === null) return [null]
  if (typeof value === 'number' || typeof value === 'boolean') return [value]
  const text = String(value)
  return [field.input === 'choice' ? (field.options?.[text] ?? text) : text]
}

/** Every reading of every logger file. */
function readingTable({ bays, zone }: Tabled): Table {
  const words = (quantity: SeriesQuantity) => seriesQuantities[quantity]
  return {
    name: 'readings',
    columns: [
      'Bay',
      'UTC',
      'Site time',
      'Quantity',
      'Value',
      'Unit',
      'Made by, when not measured',
      'Entry id',
    ].map((name) => ({ name })),
    rows: bays.flatMap(({ name, story }) =>
      story.series.flatMap(({ at, value, quantity, madeBy, entry }) =>
        at.map((instant, i): Cell[] => [
          name,
          utc(instant),
          siteIso(instant, zone),
          words(quantity).label,
          value[i]!,
          words(quantity).unit,
          madeBy,
          entry,
        ]),
      ),
    ),
  }
}
