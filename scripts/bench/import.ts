import { createReadStream, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import BetterSqlite from 'better-sqlite3'
import { parse } from 'csv-parse'
import { appendEntries, closeRecord, createRecord } from '#db/index.ts'
import { keepLoggerFile } from '#electron/imports/keep.ts'
import { guessLoggerFile } from '#electron/imports/preview.ts'
import { newEntry } from '#model/record/entry.ts'
import { uuidV7From } from '#model/record/ids.ts'
import { type Measured, median } from './measure.ts'

const rows = 250_000
const rounds = 5
const goal = 0.4
const start = Date.UTC(2026, 0, 1)

/**
 * Rows a second of a logger file read in: layout guessed, every row checked, compared with what the record holds, and
 * committed with entry, hashes and original bytes on a synced disk. The yardstick is what nobody can do without:
 * csv-parse over the same file and a bare batch insert of the same numbers, in the same run, on the same disk.
 */
export default async function importBench(): Promise<Measured[]> {
  const folder = mkdtempSync(join(tmpdir(), 'bayledger-bench-import-'))
  try {
    const file = join(folder, 'logger.csv')
    writeFileSync(file, loggerText())
    const ours: number[] = []
    const bare: number[] = []
    for (let round = 0; round < rounds; round++) {
      bare.push(rows / (await timed(() => parseAndInsert(file, join(folder, `bare-${round}.sqlite`)))))
      ours.push(rows / (await importInto(join(folder, `record-${round}.sqlite`), file)))
    }
    const [measured, yardstick] = [median(ours), median(bare)]
    const ratio = measured / yardstick
    return [
      {
        name: `Logger file of ${rows.toLocaleString('en-GB')} rows, checked and committed`,
        measured,
        unit: 'rows/s',
        yardstick,
        ratio,
        goal: `≥ ${goal} of csv-parse and a bare insert`,
        met: ratio >= goal,
      },
    ]
  } finally {
    rmSync(folder, { recursive: true })
  }
}

/** A reading a minute of air temperature and humidity; no hour repeats, the times are UTC. */
function loggerText(): string {
  const lines = Array.from({ length: rows }, (_, i) => {
    const time = new Date(start + i * 60_000).toISOString().slice(0, 19).replace('T', ' ')
    return `${time},${(15 + ((i * 7) % 83) / 10).toFixed(1)},${(50 + ((i * 3) % 400) / 10).toFixed(1)}`
  })
  return `Time (UTC),Temperature (°C),Relative humidity (%)\n${lines.join('\n')}\n`
}

async function timed(work: () => Promise<unknown>): Promise<number> {
  const begin = performance.now()
  await work()
  return (performance.now() - begin) / 1000
}

async function parseAndInsert(file: string, database: string): Promise<void> {
  const sqlite = new BetterSqlite(database)
  sqlite.pragma('journal_mode = wal')
  sqlite.pragma('synchronous = full')
  sqlite.exec(
    'create table readings (series integer, at integer, value real, primary key (series, at)) strict, without rowid',
  )
  const insert = sqlite.prepare('insert into readings values (?, ?, ?)')
  const cells: string[][] = []
  for await (const row of createReadStream(file).pipe(parse({ from_line: 2 }))) cells.push(row as string[])
  sqlite.transaction(() => {
    for (const series of [1, 2]) {
      for (let i = 0; i < cells.length; i++) insert.run(series, start + i * 60_000, Number(cells[i]![series]))
    }
  })()
  sqlite.close()
}

/** Returns how long the import took [s]; making the record and its bay is not counted. */
async function importInto(recordFile: string, file: string): Promise<number> {
  const { bay, person } = makeRecord(recordFile)
  const now = Date.UTC(2026, 10, 25)
  return timed(async () => {
    const { guess } = await guessLoggerFile(file, statSync(file).size, 'UTC')
    if (guess === null) throw new Error('The file of the benchmark was not recognised.')
    const job = { recordFile, bay, person, path: file, fileName: 'logger.csv', reading: guess }
    const kept = await keepLoggerFile(
      { ...job, entry: mint<'entry'>(), acceptBadRows: false, now },
      () => undefined,
    )
    if (kept.readings !== 2 * rows) throw new Error(`Only ${kept.readings} readings were kept.`)
  })
}

let minted = 0
function mint<T extends string>() {
  const random = new Uint8Array(10)
  new DataView(random.buffer).setUint32(6, ++minted)
  return uuidV7From<T>(start, random)
}

function makeRecord(recordFile: string) {
  const record = createRecord(recordFile, { now: start })
  const [project, person, floor, zone, bay] = [
    mint<'project'>(),
    mint<'person'>(),
    mint<'floor'>(),
    mint<'zone'>(),
    mint<'bay'>(),
  ]
  const fact = (kind: string, id: string, body: object) =>
    newEntry.parse({
      id,
      project,
      subject: id,
      kind,
      happenedAt: new Date(start).toISOString(),
      zone: 'UTC',
      person,
      source: 'typed',
      body,
    })
  const zoneBody = {
    floor,
    name: 'North',
    loading: 'light',
    soundness: 'C',
    regularity: 'SR2',
    heated: false,
    covering: 'vinyl',
    moistureMethod: 'probe',
  }
  const corners = [
    { x: 0, y: 0 },
    { x: 6, y: 0 },
    { x: 6, y: 5 },
  ]
  const bayBody = {
    zone,
    name: 'N1',
    outline: corners,
    screed: 'cement-sand',
    construction: 'floating',
    designThicknessMm: 65,
  }
  const projectBody = { name: 'Rope Walk', timeZone: 'UTC', currency: 'GBP', ruleSet: 'british' }
  appendEntries(
    record,
    [
      fact('project-opened', project, projectBody),
      fact('person-added', person, { name: 'R. Alder', role: 'supervisor' }),
      fact('floor-added', floor, { name: 'Ground', level: 0, base: 'ground slab' }),
      fact('zone-added', zone, zoneBody),
      fact('bay-planned', bay, bayBody),
    ],
    { recordedAt: start },
  )
  closeRecord(record)
  return { bay, person }
}
