import { appendEntries, appendLoggerImport, closeRecord, createRecord, type RecordFile } from '#db/index.ts'
import { type CheckedEntry, newEntry } from '#model/record/entry.ts'
import type { ProjectId } from '#model/record/ids.ts'
import type { LoggerDownload, Page } from './book.ts'
import type { Chance } from './chance.ts'
import { hourMs, iso, siteZone } from './site-clock.ts'

interface Writing {
  now: number
  project: ProjectId
  chance: Chance
}

/** Appends the pages through the ledger's own door, in the order in which people would have written them. */
export function writePages(file: string, pages: Page[], writing: Writing): void {
  const record = createRecord(file, { now: writing.now, deviceName: 'Demonstration' })
  let waiting: CheckedEntry[] = []
  let lastAt = 0
  const flush = () => {
    if (waiting.length > 0) appendEntries(record, waiting, { recordedAt: lastAt })
    waiting = []
  }
  try {
    for (const page of pages) {
      if ('download' in page || page.recordedAt - lastAt > hourMs || waiting.length >= 200) flush()
      if ('download' in page) importDownload(record, page.download, writing)
      else {
        waiting.push(newEntry.parse(page.entry))
        lastAt = page.recordedAt
      }
    }
    flush()
  } finally {
    closeRecord(record)
  }
}

/** Keeps a download as the logger file that it would have been: one CSV with a time column and its quantities. */
function importDownload(record: RecordFile, download: LoggerDownload, { project, chance }: Writing): void {
  const { columns } = download
  const times = columns[0]!.at
  const lines = times.map((at, i) => [iso(at), ...columns.map((column) => column.value[i])].join(','))
  const original = Buffer.from(
    [['time', ...columns.map((column) => column.heading)].join(','), ...lines, ''].join('\n'),
  )
  const entry = newEntry.parse({
    id: chance.id<'entry'>(download.recordedAt),
    project,
    subject: download.subject,
    kind: 'logger-imported',
    happenedAt: iso(times[0]!),
    zone: siteZone,
    person: download.person,
    source: 'logger',
    body: {
      fileName: download.fileName,
      refused: 0,
      readAs: 'UTF-8, comma, decimal point, ISO times in UTC',
      columns: columns.map(({ heading, quantity }) => ({ column: heading, quantity })),
      madeBy: 'Made by the demonstration script: invented weather, not measured.',
    },
  })
  appendLoggerImport(record, entry, columns, original, { recordedAt: download.recordedAt })
}
