import { createHash } from 'node:crypto'
import { copyFileSync, readFileSync, writeFileSync } from 'node:fs'
import { endianness } from 'node:os'
import path from 'node:path'
import BetterSqlite from 'better-sqlite3'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { entryHash, readingsHash } from '#db/hash.ts'
import { closeRecord, openRecord, RecordError, verify } from '#db/index.ts'
import { entryFromRow, type LedgerRow } from '#db/ledger-row.ts'
import { viewTables } from '#db/views/project-entry.ts'
import type { VerifyReport } from '#model/contract/shapes.ts'
import { everyKind } from './every-kind.ts'
import { importLogger } from './logger.ts'
import { day, entry, morning, openSite, temporaryFolder } from './site.ts'

let folder: string
let forget: () => void
let sound: string
beforeAll(() => {
  ;({ folder, forget } = temporaryFolder())
  const open = openSite(folder)
  open.append(everyKind(open.site), morning + 2 * day)
  const body = { airC: 41 }
  const answers = [{ field: 'airC', value: 41, answer: 'beside the heater' }]
  open.append(entry(open.site, 'air-read', { body, answers }))
  importLogger(open)
  open.close()
  sound = open.file
})
afterAll(() => forget())

let copies = 0
/** A copy of the sound record, changed by somebody with a plain SQLite tool who drops the guards first. */
function tampered(change: (raw: BetterSqlite.Database) => void): string {
  copies += 1
  const file = path.join(folder, `tampered-${copies}`)
  copyFileSync(sound, file)
  const raw = new BetterSqlite(file)
  const triggers = raw
    .prepare("select name from sqlite_schema where type = 'trigger'")
    .pluck()
    .all() as string[]
  for (const trigger of triggers) raw.exec(`drop trigger ${trigger}`)
  raw.pragma('foreign_keys = 0')
  raw.pragma('ignore_check_constraints = 1')
  change(raw)
  raw.close()
  return file
}

async function verifyFile(file: string): Promise<VerifyReport> {
  const record = openRecord(file, { now: morning, readOnly: true })
  try {
    return await verify(record.read)
  } finally {
    closeRecord(record)
  }
}

const evidence = ['ledger', 'series', 'readings', 'files', ...viewTables] as const

/** Every column of every table that says something, from the file itself. */
function columnsOfEvidence(): [table: string, column: string][] {
  const temporary = temporaryFolder()
  const open = openSite(temporary.folder)
  const columns = evidence.flatMap((table) =>
    (open.record.read.sqlite.pragma(`table_info(${table})`) as { name: string }[]).map(
      (one): [string, string] => [table, one.name],
    ),
  )
  open.close()
  temporary.forget()
  return columns
}

describe('verification', () => {
  it('VER-1: a sound record agrees, and names entries, series and the head of each chain', async () => {
    const seen: number[] = []
    const record = openRecord(sound, { now: morning, readOnly: true })
    const report = await verify(record.read, (done, of) => seen.push(done / of))
    const head = record.read.sqlite
      .prepare('select hash, device, deviceSeq from ledger order by seq desc limit 1')
      .get()
    closeRecord(record)
    expect(report).toMatchObject({ ok: true, firstDifference: null, series: 2 })
    expect(report.chains).toEqual([
      {
        device: (head as { device: string }).device,
        entries: (head as { deviceSeq: number }).deviceSeq,
        head: (head as { hash: string }).hash,
      },
    ])
    expect(report.entries).toBe(report.chains[0]!.entries)
    expect(seen.at(-1)).toBe(1)
    expect(seen).toEqual([...seen].sort((a, b) => a - b))
  })

  it.each(columnsOfEvidence())(
    'VER-2: a changed value in %s.%s is found and told in words',
    async (table, column) => {
      const file = tampered((raw) => {
        const type = raw
          .prepare(`select typeof(${column}) from ${table} where ${column} is not null limit 1`)
          .pluck()
          .get()
        const other =
          type === 'integer' || type === 'real'
            ? `${column} + 1000000`
            : type === 'blob'
              ? `cast(x'789c030000000001' as blob)`
              : `'x' || substr(${column}, 2)`
        const key = (raw.pragma(`table_info(${table})`) as { name: string; pk: number }[]).findLast(
          (one) => one.pk > 0,
        )!.name
        const chosen = `select max(${key}) from ${table} where ${column} is not null`
        const value =
          type === undefined ? "'x'" : column === 'answers' || column === 'body' ? replacing(column) : other
        const which = type === undefined ? `select max(${key}) from ${table}` : chosen
        const { changes } = raw
          .prepare(`update ${table} set ${column} = ${value} where ${key} = (${which})`)
          .run()
        expect(changes).toBeGreaterThan(0)
      })
      const report = await verifyFile(file)
      expect(report.ok).toBe(false)
      expect(report.firstDifference).toMatch(/^[A-Z].+\.$/s)
      if (viewTables.some((view) => view === table)) expect(report.firstDifference).toContain(`"${table}"`)
    },
  )

  const removals: [string, string, RegExp][] = [
    ['an entry of the middle', 'delete from ledger where seq = 20', /missing or moved/],
    ['the last entry alone', 'delete from ledger where seq = (select max(seq) from ledger)', /series|view/i],
    ['a reading', 'delete from readings where rowid_ = 1', /readings/],
    ['a file', 'delete from files', /is not kept/],
    ['a series', 'delete from series where series = 2', /series/],
    ['a fact', 'delete from facts where seq = 12', /"facts" lacks|"facts" has/],
    ['a bay', 'delete from bays', /"bays" lacks/],
  ]
  it.each(removals)('VER-3: %s that is gone is found', async (_, sql, words) => {
    const file = tampered((raw) =>
      raw.exec(sql.replace('rowid_ = 1', 'at = (select min(at) from readings) and series = 1')),
    )
    expect((await verifyFile(file)).firstDifference).toMatch(words)
  })

  const additions: [string, string, RegExp][] = [
    ['a bay nobody planned', "insert into bays values ('x', 'y', 'z', 'w', 0)", /"bays"/],
    [
      'a reading nobody took',
      'insert into readings select series, max(at) + 1, 20 from readings where series = 1',
      /readings/,
    ],
    [
      'an entry with an invented hash',
      `insert into ledger select seq + 1, 'x', device, deviceSeq + 1, project, subject, kind, kindVersion, happenedAt, zone,
         recordedAt, person, source, body, answers, corrects, reason, hash, prevHash from ledger order by seq desc limit 1`,
      /does not have the hash/,
    ],
  ]
  it.each(additions)('VER-4: %s is found', async (_, sql, words) => {
    const file = tampered((raw) => raw.exec(sql))
    expect((await verifyFile(file)).firstDifference).toMatch(words)
  })

  it('VER-9: an entry rewritten with a hash of its own is told by the entry that follows it', async () => {
    const file = tampered((raw) => {
      const row = raw.prepare('select * from ledger where seq = 20').get() as LedgerRow
      const { seq: _, hash: _old, ...said } = entryFromRow({ ...row, recordedAt: row.recordedAt + 1 })
      raw
        .prepare('update ledger set recordedAt = recordedAt + 1, hash = ? where seq = 20')
        .run(entryHash(said))
    })
    expect((await verifyFile(file)).firstDifference).toMatch(
      /^Entry 21 .* does not follow the entry that its device wrote before it/,
    )
  })

  it('VER-5: one changed reading among all is found, with the series it is in', async () => {
    const file = tampered((raw) => {
      raw.exec(
        'update readings set value = value + 0.001 where series = 2 and at = (select max(at) from readings)',
      )
    })
    expect((await verifyFile(file)).firstDifference).toMatch(/^Series 2: a reading was changed/)
  })

  it('VER-10: readings are hashed as pairs of little-endian doubles, also beyond one chunk (against node:crypto)', () => {
    const at = Array.from({ length: 70_000 }, (_, i) => morning + i * 60_000)
    const value = at.map((_, i) => 20 + (i % 977) / 100)
    const bytes = Buffer.from(new Float64Array(at.flatMap((time, i) => [time, value[i]!])).buffer)
    expect(endianness()).toBe('LE')
    expect(readingsHash(at, value)).toBe(createHash('sha256').update(bytes).digest('hex'))
  })

  it('VER-6: no byte of a kept file can change unnoticed', async () => {
    const size = new BetterSqlite(sound, { readonly: true })
      .prepare('select length(packed) from files')
      .pluck()
      .get()
    let checked = 0
    for (let at = 0; at < Number(size); at += 97) {
      const file = tampered((raw) => {
        const packed = raw.prepare('select packed from files').pluck().get() as Buffer
        packed[at] = packed[at]! ^ 0x10
        raw.prepare('update files set packed = ?').run(packed)
      })
      expect((await verifyFile(file)).firstDifference, `byte ${at}`).toMatch(/kept file/)
      checked += 1
    }
    expect(checked).toBeGreaterThan(10)
  })

  it('VER-7: a byte changed anywhere in the file is refused, found, or changes nothing that is said', async () => {
    const said = dumpOf(sound)
    const bytes = readFileSync(sound)
    const outcomes = { refused: 0, found: 0, harmless: 0 }
    let state = 12345
    for (let n = 0; n < 120; n++) {
      state = (state * 1103515245 + 12345) % 2147483648
      const at = 100 + (state % (bytes.length - 100))
      const file = path.join(folder, 'flipped')
      const flipped = Buffer.from(bytes)
      flipped[at] = flipped[at]! ^ (1 << (state % 8))
      writeFileSync(file, flipped)
      outcomes[await outcomeOf(file, said, at)] += 1
    }
    expect(outcomes.refused + outcomes.found).toBeGreaterThan(20)
    expect(outcomes.refused + outcomes.found + outcomes.harmless).toBe(120)
  })

  it('VER-8: what the chain cannot prove: entries cut off the end, with their views, leave no trace', async () => {
    const file = tampered((raw) => {
      raw.exec(`
        delete from readings; delete from series; delete from files; delete from imports;
        create temp table cut as select max(seq) as seq, project from ledger;
        delete from factVersions where seq = (select seq from cut);
        delete from facts where seq = (select seq from cut);
        delete from ledger where seq = (select seq from cut);
        update projects set entries = entries - 1,
          lastRecordedAt = (select max(recordedAt) from ledger)`)
    })
    const report = await verifyFile(file)
    expect(report.ok).toBe(true)
    // Only the head that somebody noted elsewhere tells: it is no longer the head of this chain.
    expect(report.chains[0]!.head).not.toBe((await verifyFile(sound)).chains[0]!.head)
  })
})

function replacing(column: string): string {
  return column === 'body' ? `replace(body, '"', ' "')` : `replace(answers, '[', '[ ')`
}

async function outcomeOf(file: string, said: string, at: number): Promise<'refused' | 'found' | 'harmless'> {
  let report: VerifyReport
  try {
    report = await verifyFile(file)
  } catch (refused) {
    expect(refused, `byte ${at}`).toBeInstanceOf(RecordError)
    return 'refused'
  }
  if (!report.ok) return 'found'
  expect(dumpOf(file), `byte ${at} changed what the record says and nobody noticed`).toBe(said)
  return 'harmless'
}

/** Everything the record says. The name and home of a device are not evidence and are left out. */
function dumpOf(file: string): string {
  const raw = new BetterSqlite(file, { readonly: true })
  const said = evidence.map((table) => raw.prepare(`select * from ${table} order by 1, 2`).all())
  raw.close()
  return JSON.stringify(said)
}
