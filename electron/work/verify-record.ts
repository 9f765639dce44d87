import { closeRecord, openRecord, verify } from '#db/index.ts'
import type { VerifyReport } from '#model/contract/shapes.ts'
import type { Report } from './jobs.ts'

/** Checks the whole record through a reading connection of this thread; see `verify`. @throws RecordError */
export async function verifyRecord(
  { recordFile, now }: { recordFile: string; now: number },
  onProgress: Report,
): Promise<VerifyReport> {
  const record = openRecord(recordFile, { now, readOnly: true, skipLook: true })
  try {
    return await verify(record.read, onProgress)
  } finally {
    closeRecord(record)
  }
}
