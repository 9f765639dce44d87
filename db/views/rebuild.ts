import { onDisk } from '../errors.ts'
import { type RecordFile, writing } from '../open.ts'
import { replayLedger } from './project-entry.ts'

/** Throws the views away and fills them again from the ledger, in one transaction. */
export function rebuildViews(record: RecordFile): void {
  const { write } = writing(record)
  onDisk(record.file, () => write.sqlite.transaction(() => replayLedger(write.sqlite)).immediate())
}
