import type { Content } from 'pdfmake/interfaces.js'
import { entriesOf } from '#model/record/story.ts'
import type { PrintedPhoto } from '../handover/photos.ts'
import type { Printing } from './bay-tables.ts'
import { ink, textWidth } from './look.ts'
import { nothing } from './parts.ts'

const columnGap = 14
const width = (textWidth - columnGap) / 2

/** The photos two in a row, each with what it shows, when, and the hash by which the kept photo is known. */
export function photoPages({ bay, when }: Printing, photos: readonly PrintedPhoto[]): Content[] {
  const kept = entriesOf(bay.story, 'photo-added').length
  if (kept === 0) return [nothing('Photos', 'No photo is kept of this bay.')]
  const rows = Array.from({ length: Math.ceil(photos.length / 2) }, (_, i) => photos.slice(2 * i, 2 * i + 2))
  const more = kept > photos.length ? ` The first ${photos.length} of ${kept}; all stand in the record.` : ''
  return rows.map(
    (row, i): Content => ({
      unbreakable: true,
      stack: [
        ...(i === 0
          ? [
              {
                text: [
                  { text: 'Photos', bold: true, fontSize: 11.5 },
                  { text: more, style: 'small' },
                ],
                margin: [0, 10, 0, 3] as [number, number, number, number],
              },
            ]
          : []),
        {
          columnGap,
          margin: [0, 0, 0, 8],
          columns: row.map((photo) => ({
            width,
            stack: [
              photo.picture === null
                ? { text: 'The kept file of this photo is missing or cannot be read.', color: ink.stop }
                : { image: photo.picture, fit: [width, 190] as [number, number] },
              {
                text: `${photo.caption}, ${when(photo.at)}`,
                fontSize: 8,
                margin: [0, 2, 0, 0] as [number, number, number, number],
              },
              { text: `SHA-256 ${photo.sha256}`, fontSize: 5.6, color: ink.faint },
            ],
          })),
        },
      ],
    }),
  )
}
