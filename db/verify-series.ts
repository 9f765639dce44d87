import { inflateSync } from 'node:zlib'
import { canonicalJson } from './canonical.ts'
import type { Sqlite } from './handles.ts'
import { readingsHash, sha256Hex } from './hash.ts'

interface SeriesRow {
  series: number
  entry: string
  position: number
  subject: string
  quantity: string
  heading: string
  readings: number
  firstAt: number
  lastAt: number
  readingsSha256: string
  sealed: number
  body: string | null
  entrySubject: string | null
}

/** For each series, what differs from its entry or from its readings; null when all agrees. */
export function* firstSeriesFault(present: Sqlite): Generator<string | null> {
  const rows = present
    .prepare<[], SeriesRow>(
      `select s.*, l.body, l.subject as entrySubject from series s left join ledger l on l.id = s.entry order by s.series`,
    )
    .all()
  for (const row of rows) yield seriesFault(present, row)
  yield missingSeries(present)
}

function seriesFault(present: Sqlite, row: SeriesRow): string | null {
  const name = `Series ${row.series}`
  if (row.body === null) return `${name} belongs to no entry of the ledger.`
  if (row.sealed !== 1) return `${name} is not complete.`
  const columns = (JSON.parse(row.body) as { columns: Record<string, unknown>[] }).columns
  // The number of a series is that of the record it was read into; in a record that took it in it is another.
  const { series: _, ...said } = columns[row.position] ?? {}
  const kept = {
    column: row.heading,
    quantity: row.quantity,
    readings: row.readings,
    readingsSha256: row.readingsSha256,
  }
  if (canonicalJson(said) !== canonicalJson(kept) || row.subject !== row.entrySubject) {
    return `${name} is described otherwise than in its entry ${row.entry}.`
  }
  const range = 'from readings where series = ? order by at'
  const at = present.prepare(`select at ${range}`).pluck().all(row.series) as number[]
  const value = present.prepare(`select value ${range}`).pluck().all(row.series) as number[]
  if (at.length !== row.readings)
    return `${name} has ${at.length} readings where its entry says ${row.readings}.`
  if (at[0] !== row.firstAt || at.at(-1) !== row.lastAt)
    return `${name} begins or ends at another time than it says.`
  if (readingsHash(at, value) !== row.readingsSha256) {
    return `${name}: a reading was changed after the file was read (the hash of the readings does not agree).`
  }
  return null
}

function missingSeries(present: Sqlite): string | null {
  const short = present
    .prepare<[], { id: string; said: number; found: number }>(
      `select l.id, json_array_length(l.body, '$.columns') as said,
         (select count(*) from series s where s.entry = l.id) as found
       from ledger l where l.kind = 'logger-imported' and l.corrects is null and said <> found limit 1`,
    )
    .get()
  if (short !== undefined) return `Entry ${short.id} has ${short.found} series where it says ${short.said}.`
  const stray = present
    .prepare(
      'select series from readings r where not exists (select 1 from series s where s.series = r.series) limit 1',
    )
    .pluck()
    .get()
  return stray === undefined ? null : `Readings of series ${String(stray)} belong to no series.`
}

/** For each kept file, what differs from its hash; at the end, a file that an entry names and nobody kept. */
export function* firstFileFault(present: Sqlite): Generator<string | null> {
  const hashes = present.prepare('select sha256 from files order by sha256').pluck().all() as string[]
  const byHash = present.prepare<[string], FileRow>('select * from files where sha256 = ?')
  for (const sha256 of hashes) {
    yield fileFault(byHash.get(sha256)!)
  }
  const lost = present
    .prepare<[], { entry: string; sha256: string }>(
      `select id as entry, json_extract(body, '$.sha256') as sha256 from ledger l
       where kind = 'logger-imported' and not exists (select 1 from files f where f.sha256 = json_extract(l.body, '$.sha256'))
       limit 1`,
    )
    .get()
  yield lost === undefined ? null : `The file ${lost.sha256} that entry ${lost.entry} names is not kept.`
}

interface FileRow {
  sha256: string
  bytes: number
  packed: Buffer
  packedSha256: string
}

function fileFault({ sha256, bytes, packed, packedSha256 }: FileRow): string | null {
  if (sha256Hex(packed) !== packedSha256) return `The kept file ${sha256} was changed after it was packed.`
  let original: Buffer
  try {
    original = inflateSync(packed)
  } catch (cause) {
    const detail = cause instanceof Error ? cause.message : String(cause)
    return `The kept file ${sha256} cannot be unpacked: ${detail}.`
  }
  if (sha256Hex(original) !== sha256)
    return `The kept file ${sha256} has other bytes than the file that was read.`
  return original.length === bytes
    ? null
    : `The kept file ${sha256} has ${original.length} bytes where ${bytes} are noted.`
}
