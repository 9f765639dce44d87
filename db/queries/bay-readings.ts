import type { SeriesQuantity } from '#model/record/climate.ts'
import type { BayId, ProjectId } from '#model/record/ids.ts'
import { UnknownId } from '../errors.ts'
import { plucked, prepared, type ReadHandle } from '../handles.ts'

/** Where a bay belongs: what an import has to know of it. */
export interface PlaceOfBay {
  project: ProjectId
  timeZone: string
}

/** All readings of one standing series. */
export interface BayReadings {
  entry: string
  fileName: string
  /** When the file was read [epoch ms]. */
  recordedAt: number
  quantity: SeriesQuantity
  at: Float64Array
  value: Float64Array
}

/** The project of a standing bay and the time zone of its site. @throws UnknownId when there is no such bay */
export function placeOfBay(read: ReadHandle, bay: BayId): PlaceOfBay {
  const place = prepared<PlaceOfBay>(
    read.sqlite,
    `select b.project, p.timeZone from bays b join projects p on p.id = b.project
     where b.id = ? and b.withdrawn = 0`,
  ).get(bay)
  if (place === undefined) throw new UnknownId('bay', bay)
  return place
}

/** The readings of a bay from all logger files that stand, whole, oldest file first. */
export function bayReadings(read: ReadHandle, bay: BayId): BayReadings[] {
  const timesIn = plucked<number>(read.sqlite, 'select at from readings where series = ? order by at')
  const valuesIn = plucked<number>(read.sqlite, 'select value from readings where series = ? order by at')
  return prepared<Omit<BayReadings, 'at' | 'value'> & { series: number }>(
    read.sqlite,
    `select s.series, s.entry, s.quantity, l.recordedAt, l.body ->> '$.fileName' as fileName
     from series s join imports i on i.entry = s.entry join ledger l on l.id = s.entry
     where s.subject = ? and i.withdrawn = 0 order by l.seq, s.position`,
  )
    .all(bay)
    .map(({ series, ...known }) => ({
      ...known,
      at: Float64Array.from(timesIn.all(series)),
      value: Float64Array.from(valuesIn.all(series)),
    }))
}
