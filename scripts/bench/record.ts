import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import BetterSqlite from 'better-sqlite3'
import {
  appendEntries,
  appendLoggerImport,
  backUp,
  bayStory,
  closeRecord,
  createRecord,
  type LoggerSeries,
  type RecordFile,
  verify,
} from '#db/index.ts'
import { type CheckedEntry, newEntry } from '#model/record/entry.ts'
import type { BayId } from '#model/record/ids.ts'
import { uuidV7From } from '#model/record/ids.ts'
import type { KindName } from '#model/record/kinds.ts'
import { type Measured, median } from './measure.ts'

const start = Date.UTC(2026, 0, 5, 7)
const minute = 60_000
const readingsInAll = 1_000_000
const bays = 20
const entriesOfBay = 300
const rounds = 5

/**
 * Speed of the record on disk, each number beside a bare SQLite doing the least that could be called the same, in the
 * same run, on the same disk, with the same safety (write-ahead log, every commit synced).
 */
export default async function recordBench(): Promise<Measured[]> {
  const folder = mkdtempSync(join(tmpdir(), 'bayledger-bench-record-'))
  try {
    const site = openSite(join(folder, 'record.bayledger'))
    const imported = importReadings(site, folder)
    const story = [
      storyOfBay(site, 0, readingsInAll / 2),
      storyOfBay(site, 1, readingsInAll / 2 / (bays - 1)),
    ]
    const appended = [appendOneByOne(site, folder), appendInBatches(site, folder)]
    const kept = await keeping(site, folder)
    closeRecord(site.record)
    return [imported, ...story, ...appended, ...kept]
  } finally {
    rmSync(folder, { recursive: true })
  }
}

interface BenchSite {
  record: RecordFile
  entry: (kind: KindName, subject: string | null, body: Record<string, unknown>, at?: number) => CheckedEntry
  bays: BayId[]
}

function openSite(file: string): BenchSite {
  let count = 0
  const id = () => {
    count += 1
    const random = new Uint8Array(10)
    new DataView(random.buffer).setUint32(6, count)
    return uuidV7From(start, random) as string
  }
  const [project, person] = [id(), id()]
  const entry: BenchSite['entry'] = (kind, subject, body, at = start) => {
    const own = kind === 'project-opened' ? project : kind === 'person-added' ? person : id()
    return newEntry.parse({
      id: own,
      project,
      subject: subject ?? own,
      kind,
      happenedAt: new Date(at).toISOString(),
      zone: 'Europe/London',
      person,
      source: 'typed',
      body,
    })
  }
  const record = createRecord(file, { now: start })
  const floor = entry('floor-added', null, { name: 'Ground', level: 0, base: 'ground slab' })
  const zone = entry('zone-added', null, {
    floor: floor.id,
    name: 'East',
    loading: 'light',
    soundness: 'B',
    regularity: 'SR2',
    heated: false,
    covering: 'vinyl',
    moistureMethod: 'hygrometer box',
  })
  const outline = [
    { x: 0, y: 0 },
    { x: 6, y: 0 },
    { x: 6, y: 5 },
  ]
  const planned = Array.from({ length: bays }, (_, i) =>
    entry('bay-planned', null, {
      zone: zone.id,
      name: `B${i + 1}`,
      outline,
      screed: 'cement-sand',
      construction: 'floating',
      designThicknessMm: 70,
    }),
  )
  const opened = entry('project-opened', null, {
    name: 'Bench',
    timeZone: 'Europe/London',
    currency: 'GBP',
    ruleSet: 'british',
  })
  const first = entry('person-added', null, { name: 'Bench', role: 'supervisor' })
  appendEntries(record, [opened, first, floor, zone, ...planned], { recordedAt: start })
  const site = { record, entry, bays: planned.map((one) => one.id as unknown as BayId) }
  for (const bay of site.bays.slice(0, 2)) {
    const reads = Array.from({ length: entriesOfBay }, (_, i) => airRead(site, bay, start + i * 60 * minute))
    appendEntries(record, reads, { recordedAt: start + 400 * 24 * 60 * minute })
  }
  return site
}

const airRead = (site: BenchSite, bay: string, at: number) =>
  site.entry(
    'air-read',
    bay,
    { airC: 18.5, rhPercent: 61, surfaceC: 16, openings: 'closed', place: 'room' },
    at,
  )

/** Half of all readings in the first bay, the others spread over the rest: 1,000,000 in the file. */
function importReadings({ record, entry, bays: all }: BenchSite, folder: string): Measured {
  const rates: number[] = []
  let from = 0
  for (const [i, bay] of all.entries()) {
    const count = i === 0 ? readingsInAll / 4 : Math.round(readingsInAll / 4 / (bays - 1))
    const series = twoColumns(count, start + i)
    const asked = entry('logger-imported', bay, {
      fileName: `room-${i}.csv`,
      refused: 0,
      readAs: 'UTF-8, comma, decimal point',
      columns: series.map((one) => ({ column: one.quantity, quantity: one.quantity })),
    })
    const original = Buffer.from(`bench file ${i}\n`)
    const took = timed(() =>
      appendLoggerImport(record, asked, series, original, { recordedAt: start + 1e11 }),
    )
    if (i === 0) rates.push((2 * count) / took)
    from += 2 * count
  }
  const bare = bareReadings(folder, twoColumns(readingsInAll / 4, start))
  const measured = median(rates)
  return {
    name: `Readings of one logger file written (${(readingsInAll / 2).toLocaleString('en-GB')}, ${from.toLocaleString('en-GB')} in the file)`,
    measured,
    unit: 'rows/s',
    yardstick: bare,
    ratio: measured / bare,
    goal: '≥ 250,000 rows/s',
    met: measured >= 250_000,
  }
}

function twoColumns(count: number, from: number): LoggerSeries[] {
  const at = Float64Array.from({ length: count }, (_, i) => from + i * minute)
  return [
    { quantity: 'airC', at, value: Float64Array.from(at, (_, i) => 18 + 3 * Math.sin(i / 230)) },
    { quantity: 'rhPercent', at, value: Float64Array.from(at, (_, i) => 60 + 9 * Math.cos(i / 310)) },
  ]
}

/** One row after the other through a prepared statement, in one transaction. */
function bareReadings(folder: string, series: LoggerSeries[]): number {
  const sqlite = bareSqlite(join(folder, 'bare-readings.sqlite'))
  sqlite.exec(
    'create table r (series integer, at integer, value real, primary key (series, at)) strict, without rowid',
  )
  const insert = sqlite.prepare('insert into r values (?, ?, ?)')
  let rows = 0
  const took = timed(
    sqlite.transaction(() => {
      for (const [column, { at, value }] of series.entries()) {
        for (let i = 0; i < at.length; i++) insert.run(column, at[i], value[i])
        rows += at.length
      }
    }),
  )
  sqlite.close()
  return rows / took
}

/** Everything of one bay, against the bare query for its readings alone. */
function storyOfBay({ record, bays: all }: BenchSite, which: number, readings: number): Measured {
  const bay = all[which]!
  const ids = record.read.sqlite.prepare('select series from series where subject = ?').pluck().all(bay)
  const range = record.read.sqlite
    .prepare('select at, value from readings where series = ? and at >= ? order by at')
    .raw()
  const ours: number[] = []
  const bare: number[] = []
  for (let round = 0; round < rounds; round++) {
    bare.push(timed(() => ids.map((id) => range.all(id, 0).length)))
    ours.push(timed(() => bayStory(record.read, bay)))
  }
  const [measured, yardstick] = [median(ours) * 1000, median(bare) * 1000]
  return {
    name: `Story of a bay with ${Math.round(readings).toLocaleString('en-GB')} readings and ${entriesOfBay} entries`,
    measured,
    unit: 'ms',
    yardstick,
    ratio: measured / yardstick,
    goal: '≤ 3 × the bare range query',
    met: measured <= 3 * yardstick,
  }
}

function appendOneByOne(site: BenchSite, folder: string): Measured {
  const count = 400
  const entries = Array.from({ length: count }, (_, i) => airRead(site, site.bays[2]!, start + i * minute))
  const took = timed(() => {
    for (const one of entries) appendEntries(site.record, [one], { recordedAt: start + 1e10 })
  })
  const bare = bareRows(join(folder, 'bare-single.sqlite'), entries, 1)
  return {
    name: 'Entries appended one by one, each on the disk before the next',
    measured: count / took,
    unit: 'entries/s',
    yardstick: bare,
    ratio: count / took / bare,
    goal: '≥ 0.3 of a bare insert',
    met: count / took / bare >= 0.3,
  }
}

function appendInBatches(site: BenchSite, folder: string): Measured {
  const count = 5000
  const entries = Array.from({ length: count }, (_, i) => airRead(site, site.bays[3]!, start + i * minute))
  const took = timed(() => {
    for (let i = 0; i < count; i += 500) {
      appendEntries(site.record, entries.slice(i, i + 500), { recordedAt: start + 1e10 })
    }
  })
  const bare = bareRows(join(folder, 'bare-batch.sqlite'), entries, 500)
  return {
    name: 'Entries appended 500 at a time: checked, hashed, chained, put into the views',
    measured: count / took,
    unit: 'entries/s',
    yardstick: bare,
    ratio: count / took / bare,
    goal: '≥ 3,000 entries/s',
    met: count / took >= 3000,
  }
}

/** The same facts as rows of a table with a unique id and nothing else. */
function bareRows(file: string, entries: CheckedEntry[], atOnce: number): number {
  const sqlite = bareSqlite(file)
  sqlite.exec(`create table l (seq integer primary key, id text unique, project text, subject text, kind text,
    happenedAt integer, person text, body text) strict`)
  const insert = sqlite.prepare(
    'insert into l (id, project, subject, kind, happenedAt, person, body) values (?, ?, ?, ?, ?, ?, ?)',
  )
  const some = sqlite.transaction((list: CheckedEntry[]) => {
    for (const one of list) {
      const { id, project, subject, kind, happenedAt, person, body } = one
      insert.run(id, project, subject, kind, Date.parse(happenedAt), person, JSON.stringify(body))
    }
  })
  const took = timed(() => {
    for (let i = 0; i < entries.length; i += atOnce) some(entries.slice(i, i + atOnce))
  })
  sqlite.close()
  return entries.length / took
}

/** How long it takes to verify the whole record and to back it up; there is no fair yardstick and no goal. */
async function keeping({ record }: BenchSite, folder: string): Promise<Measured[]> {
  const all = (name: string, seconds: number): Measured => ({
    name,
    measured: seconds * 1000,
    unit: 'ms',
    yardstick: null,
    ratio: null,
    goal: '–',
    met: null,
  })
  const verifyStarted = performance.now()
  const report = await verify(record.read)
  const verified = (performance.now() - verifyStarted) / 1000
  if (!report.ok) throw new Error(report.firstDifference ?? 'the record does not agree')
  const backupStarted = performance.now()
  await backUp(record, join(folder, 'backups'), start)
  const backedUp = (performance.now() - backupStarted) / 1000
  return [
    all(
      `Everything verified: ${report.entries} entries, ${report.series} series, 1,000,000 readings`,
      verified,
    ),
    all('The same record backed up, copy reopened and compared', backedUp),
  ]
}

function bareSqlite(file: string): BetterSqlite.Database {
  const sqlite = new BetterSqlite(file)
  sqlite.pragma('journal_mode = wal')
  sqlite.pragma('synchronous = full')
  return sqlite
}

/** [s] */
function timed(work: () => unknown): number {
  const startedAt = performance.now()
  work()
  return (performance.now() - startedAt) / 1000
}
