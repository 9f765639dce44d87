import { mkdirSync } from 'node:fs'
import path from 'node:path'
import { type BundleAsked, type BundleMade, makeBundle } from '#db/bundle/make-bundle.ts'
import { checkBundle, type Joined, takeIn } from '#db/bundle/take-in.ts'
import { createRecord, type RecordFile } from '#db/index.ts'
import { keepPhoto } from '#db/photos.ts'
import type { PersonId, ProjectId } from '#model/record/ids.ts'
import { everyKind } from '../every-kind.ts'
import { importLogger } from '../logger.ts'
import { day, entry, morning, type OpenSite, openSite, samplePhoto } from '../site.ts'

export const madeAt = morning + 5 * day

/** A record with an entry of every kind, a logger file, a photo, an odd value with its answer. */
export function fullSite(folder: string): OpenSite {
  mkdirSync(folder, { recursive: true })
  const open = openSite(folder)
  keepPhoto(open.file, samplePhoto, 'image/jpeg')
  open.append(everyKind(open.site), morning + 2 * day)
  const body = { airC: 41 }
  const answers = [{ field: 'airC', value: 41, answer: 'beside the heater, “measured twice”' }]
  open.append(entry(open.site, 'air-read', { body, answers }))
  importLogger(open)
  return open
}

/** The bundle of a site; of the whole project unless said. */
export function bundleOf(open: OpenSite, asked: Partial<BundleAsked> = {}, now = madeAt): BundleMade {
  const folder = path.dirname(open.file)
  return makeBundle(
    open.record,
    {
      project: open.site.project as ProjectId,
      person: open.site.person as PersonId,
      scope: { kind: 'project' },
      asOf: null,
      reason: null,
      ...asked,
    },
    {
      bundles: path.join(folder, 'bundles'),
      keys: path.join(folder, 'keys'),
      program: 'Bayledger test',
      now,
    },
  )
}

/** An empty record in a folder of its own. */
export function emptyRecord(folder: string): RecordFile {
  mkdirSync(folder, { recursive: true })
  return createRecord(path.join(folder, 'record.bayledger'), { now: madeAt, deviceName: 'Other' })
}

export async function takenInto(record: RecordFile, file: string): Promise<Joined> {
  const { report, places } = await checkBundle(file)
  if (report.verdict !== 'good') throw new Error(report.firstDifference ?? report.verdict)
  return takeIn(record, file, places, { forGood: true, now: madeAt })
}
