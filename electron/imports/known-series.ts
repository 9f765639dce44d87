import { closeRecord, openRecord } from '#db/index.ts'
import { bayReadings, type PlaceOfBay, placeOfBay } from '#db/queries/bay-readings.ts'
import type { BayId } from '#model/record/ids.ts'
import type { KnownSeries } from './overlap.ts'

/** What the record says of a bay before a file is read for it. */
export interface BayInRecord extends PlaceOfBay {
  known: (KnownSeries & { entry: string })[]
}

/** Looks a bay up through a reading connection of this thread. @throws UnknownId, RecordError */
export function recordOfBay(recordFile: string, bay: BayId, now: number): BayInRecord {
  const record = openRecord(recordFile, { now, readOnly: true, skipLook: true })
  try {
    const place = placeOfBay(record.read, bay)
    const known = bayReadings(record.read, bay).map(
      ({ entry, fileName, recordedAt, quantity, at, value }) => ({
        entry,
        quantity,
        at,
        value,
        from: `${fileName}, read on ${dayText(recordedAt, place.timeZone)}`,
      }),
    )
    return { ...place, known }
  } finally {
    closeRecord(record)
  }
}

function dayText(at: number, timeZone: string): string {
  const parts = { day: 'numeric', month: 'long', year: 'numeric', timeZone } as const
  return new Date(at).toLocaleDateString('en-GB', parts)
}
