import { closeRecord, openRecord, projectOutline, UnknownId } from '#db/index.ts'
import type { ReportKind } from '#model/contract/reports.ts'
import type { ReadyForecast } from '#model/drying/forecast-shape.ts'
import type { BayId, ProjectId } from '#model/record/ids.ts'
import type { Covering } from '#model/record/words.ts'
import { documentOf } from '../print/documents.ts'
import { makePdf } from '../print/make-pdf.ts'
import { csvText } from '../tables/csv.ts'
import { tablesOf } from '../tables/tables-of.ts'
import { workbookOf } from '../tables/workbook.ts'
import { zipOf } from '../tables/zip.ts'
import { type BayFile, readBayFile, storyText } from './bay-file.ts'
import { namesIn } from './names.ts'
import { type BayPhotos, faultPhotosToPrint, noPhotos, photosOf } from './photos.ts'

export interface FileQuestion {
  recordFile: string
  project: ProjectId
  kind: ReportKind
  /** In the order in which they are to stand. */
  bays: readonly BayId[]
  /** That of each bay's contract when left out. */
  covering?: Covering | undefined
  /** [epoch ms] */
  asOf: number
  /** Estimates that were worked out before. */
  forecasts: readonly { bay: BayId; forecast: ReadyForecast }[]
}

type Report = (done: number, of: number) => void

/** Of a hundred steps, how many are the reading of the bays; the rest is the making of the file. */
const readingSteps = 35

/**
 * Makes a file from the record as it stood at an instant, through a reading connection of this thread. The same record
 * and instant give the same bytes.
 * @throws UnknownId for a bay or project that is not there; RecordError
 */
export async function makeReportFile(question: FileQuestion, onProgress: Report): Promise<Uint8Array> {
  const { recordFile, project, kind, asOf, covering } = question
  const record = openRecord(recordFile, { now: asOf, readOnly: true, skipLook: true })
  try {
    const outline = projectOutline(record.read, project)
    const known = new Set<string>(outline.bays.map(({ id }) => id))
    const bays = question.bays.map((bay, i): BayFile => {
      if (!known.has(bay)) throw new UnknownId('bay', bay)
      const forecast = question.forecasts.find((one) => one.bay === bay)?.forecast ?? null
      onProgress(Math.round((readingSteps * i) / question.bays.length), 100)
      return readBayFile(record.read, { bay, covering, asOf, forecast })
    })
    onProgress(readingSteps, 100)
    const names = namesIn(outline)
    const zone = outline.project.body.timeZone
    switch (kind) {
      case 'release':
      case 'bay':
      case 'project':
        return await makePdf(
          documentOf(kind, { outline, bays, asOf, photos: await photosFor(kind, bays, recordFile) }),
          (done, of) => onProgress(readingSteps + Math.round(((100 - readingSteps) * done) / of), 100),
        )
      case 'workbook':
        return await workbookOf(tablesOf({ bays, names, zone }), asOf)
      case 'tables': {
        const tables = tablesOf({ bays, names, zone })
        const files = tables.map((table) => ({
          name: `${table.name}.csv`,
          bytes: Buffer.from(csvText(table)),
        }))
        return zipOf(files, asOf)
      }
      case 'story':
        return storyFile(bays, asOf)
    }
  } finally {
    closeRecord(record)
  }
}

/** The page to decide on has photos of what was found wrong only. */
async function photosFor(kind: ReportKind, bays: readonly BayFile[], recordFile: string) {
  const photos = new Map<string, BayPhotos>()
  for (const bay of bays) {
    const of =
      kind === 'release'
        ? { ...noPhotos, faults: await faultPhotosToPrint(bay, recordFile) }
        : await photosOf(bay, recordFile)
    photos.set(bay.id, of)
  }
  return photos
}

/** One bay is a JSON file; several are JSON files in one archive, named by their SHA-256 as the printed page shows it. */
function storyFile(bays: readonly BayFile[], asOf: number): Uint8Array {
  const [first] = bays
  if (first !== undefined && bays.length === 1) return Buffer.from(storyText(first.story, asOf))
  const files = bays.map(({ story, hash, id }) => ({
    name: `${id}-${hash.slice(0, 16)}.json`,
    bytes: Buffer.from(storyText(story, asOf)),
  }))
  return zipOf(files, asOf)
}
