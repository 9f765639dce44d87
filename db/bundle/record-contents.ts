import { closeSync, openSync, readSync } from 'node:fs'
import { inflateSync } from 'node:zlib'
import type { BodyOf } from '#model/record/kinds.ts'
import type { PhotoFormat } from '#model/record/photos.ts'
import { rulesOfProject } from '#model/rules/project-rules.ts'
import { canonicalJson } from '../canonical.ts'
import { UnknownId } from '../errors.ts'
import { plucked, prepared, type Sqlite } from '../handles.ts'
import type { LedgerRow } from '../ledger-row.ts'
import { partsIn } from '../parts.ts'
import { photoFile, photoSize } from '../photos.ts'
import type { BundleContents, LineToWrite, MemberToWrite } from './contents.ts'
import type { MissingLine } from './format.ts'
import { lineOfRow } from './line.ts'
import type { Selection } from './select.ts'

const bytesAtOnce = 1024 * 1024

/**
 * What a selection of a record puts into a bundle. The caller keeps one read transaction open from here until the
 * bundle is written, so that everything is of one moment.
 */
export function contentsOf(
  sqlite: Sqlite,
  recordFile: string,
  project: string,
  selection: Selection,
): BundleContents {
  const files = new Map<string, MemberToWrite>()
  const missing = new Map<string, MissingLine>()
  const add = (member: MemberToWrite) => files.set(member.name, member)
  const named = prepared<LedgerRow>(
    sqlite,
    `select * from ledger where seq <= ? and ((kind = 'logger-imported' and corrects is null) or kind = 'photo-added')
     order by seq`,
  ).all(selection.lastSeq)
  for (const row of named) {
    if (!selection.given(row.seq)) continue
    if (row.kind === 'photo-added') addPhoto(recordFile, JSON.parse(row.body), { add, missing })
    else for (const member of loggerMembers(sqlite, row)) add(member)
  }
  return {
    lines: () => linesOf(sqlite, selection),
    files: [...files.values()],
    missing: [...missing.values()],
    rules: canonicalJson(rulesInForce(sqlite, project)),
  }
}

function* linesOf(sqlite: Sqlite, { lastSeq, given }: Selection): Generator<LineToWrite> {
  const next = prepared<LedgerRow>(
    sqlite,
    'select * from ledger where seq > ? and seq <= ? order by seq limit 1000',
  )
  const before = prepared(sqlite, 'select 1 from ledger where device = ? and deviceSeq = ?')
  const isPart = partsIn(sqlite).length > 0
  for (let rows = next.all(0, lastSeq); rows.length > 0; rows = next.all(rows.at(-1)!.seq, lastSeq)) {
    for (const row of rows) {
      const leftOut = !given(row.seq)
      // In a record that holds a part, a chain goes on after an entry that is not here: its hash goes along.
      if (isPart && !leftOut && row.deviceSeq > 1 && before.get(row.device, row.deviceSeq - 1) === undefined)
        yield { line: `"${row.prevHash}"`, hash: row.prevHash, leftOut: true }
      yield { line: leftOut ? `"${row.hash}"` : lineOfRow(row), hash: row.hash, leftOut }
    }
  }
}

function loggerMembers(sqlite: Sqlite, row: LedgerRow): MemberToWrite[] {
  const { sha256, bytes, columns } = JSON.parse(row.body) as BodyOf<'logger-imported'>
  const original: MemberToWrite = {
    name: `files/${sha256}`,
    bytes,
    sha256,
    open: () => {
      const kept = prepared<{ packed: Buffer }>(sqlite, 'select packed from files where sha256 = ?').get(
        sha256,
      )
      if (kept === undefined) throw new UnknownId('logger file', sha256)
      return [inflateSync(kept.packed)]
    },
  }
  const series = columns.map(
    ({ readings, readingsSha256 }, position): MemberToWrite => ({
      name: `series/${readingsSha256}`,
      bytes: readings * 16,
      sha256: readingsSha256,
      open: () => readingBytes(sqlite, row.id, position),
    }),
  )
  return [original, ...series]
}

/** The readings of one column, as the bytes that their hash covers. */
function* readingBytes(sqlite: Sqlite, entry: string, position: number): Generator<Uint8Array> {
  const series = plucked<number>(sqlite, 'select series from series where entry = ? and position = ?').get(
    entry,
    position,
  )
  const pairsAtOnce = bytesAtOnce / 16
  const next = prepared<{ at: number; value: number }>(
    sqlite,
    `select at, value from readings where series = ? and at > ? order by at limit ${pairsAtOnce}`,
  )
  for (
    let rows = next.all(series, Number.MIN_SAFE_INTEGER);
    rows.length > 0;
    rows = next.all(series, rows.at(-1)!.at)
  ) {
    const bytes = new DataView(new ArrayBuffer(rows.length * 16))
    for (const [i, { at, value }] of rows.entries()) {
      bytes.setFloat64(i * 16, at, true)
      bytes.setFloat64(i * 16 + 8, value, true)
    }
    yield new Uint8Array(bytes.buffer)
  }
}

function addPhoto(
  recordFile: string,
  { sha256, format }: { sha256: string; format: PhotoFormat },
  { add, missing }: { add: (member: MemberToWrite) => void; missing: Map<string, MissingLine> },
): void {
  const name = `photos/${sha256}`
  const bytes = photoSize(recordFile, sha256, format)
  if (bytes === null) {
    missing.set(name, { name, why: 'The record names this photo; its file was not on this machine.' })
    return
  }
  add({ name, bytes, sha256, open: () => fileBytes(photoFile(recordFile, sha256, format)) })
}

export function* fileBytes(file: string): Generator<Uint8Array> {
  const handle = openSync(file, 'r')
  try {
    for (;;) {
      const piece = Buffer.allocUnsafe(bytesAtOnce)
      const got = readSync(handle, piece)
      if (got === 0) return
      yield piece.subarray(0, got)
    }
  } finally {
    closeSync(handle)
  }
}

function rulesInForce(sqlite: Sqlite, project: string): unknown {
  const standing = prepared<{ body: string }>(
    sqlite,
    'select l.body from facts f join ledger l on l.seq = f.standing where f.root = ?',
  ).get(project)
  if (standing === undefined) throw new UnknownId('project', project)
  const rules = rulesOfProject(JSON.parse(standing.body) as BodyOf<'project-opened'>)
  // Through plain JSON, so that what a rule set leaves undefined does not matter.
  return JSON.parse(JSON.stringify(rules)) as unknown
}
