import { readFileSync, writeSync } from 'node:fs'
import { appendEntries, openRecord } from '#db/index.ts'
import type { CheckedEntry } from '#model/record/entry.ts'

/**
 * A program that writes entries as fast as it can and says on its output which ones it has been told are kept. It is
 * meant to be killed. As "control" it says so before the transaction ends: then a kill must lose something.
 */
const [file = '', mode = '', asked = ''] = process.argv.slice(2)
const record = openRecord(file, { now: Date.now() })
const entries = JSON.parse(readFileSync(asked, 'utf8')) as CheckedEntry[]
const recordedAt = Date.parse(entries[0]!.happenedAt) + 3_600_000

if (mode === 'control') {
  record.write!.sqlite.exec('begin immediate')
  for (const entry of entries) {
    record
      .write!.sqlite.prepare(
        `insert into ledger select (select max(seq) + 1 from ledger), ?, device, (select max(deviceSeq) + 1 from ledger),
          project, subject, kind, kindVersion, happenedAt, zone, recordedAt, person, source, body, answers, corrects,
          reason, prevHash, hash from ledger where seq = 1`,
      )
      .run(entry.id)
    writeSync(1, `${entry.id}\n`)
  }
  // The transaction is still open: everything said so far was said too early.
} else {
  for (let i = 0; i < entries.length; i += 2) {
    const written = appendEntries(record, entries.slice(i, i + 2), { recordedAt })
    for (const one of written) writeSync(1, `${one.id}\n`)
  }
}
setInterval(() => undefined, 1000)
