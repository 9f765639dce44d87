import type { Content } from 'pdfmake/interfaces.js'
import { entriesOf } from '#model/record/story.ts'
import type { PrintedPhoto } from '../handover/photos.ts'
import { circuitPlansOf } from '../handover/shown-photos.ts'
import type { Printing } from './bay-tables.ts'
import { ink, textWidth } from './look.ts'
import { block, nothing } from './parts.ts'

const columnGap = 14
const width = (textWidth - columnGap) / 2

/** The photos two in a row, each with what it shows, when, and the hash by which the kept photo is known. */
export function photoPages({ bay, when }: Printing, photos: readonly PrintedPhoto[]): Content[] {
  const plans = circuitPlansOf(bay.story).length
  const kept = entriesOf(bay.story, 'photo-added').length - plans
  if (kept === 0)
    return [nothing('Photos', plans === 0 ? 'No photo is kept of this bay.' : 'None but the circuit plan.')]
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
            stack: [pictureOf(photo, [width, 190]), ...wordsBelow(photo, when)],
          })),
        },
      ],
    }),
  )
}

/** Where the pipes of the heating lie, over the width of the page; said to be missing where a heated floor has none. */
export function circuitPlans({ bay, when }: Printing, plans: readonly PrintedPhoto[]): Content[] {
  const title = 'Circuit plan of the heating'
  if (plans.length === 0) {
    return bay.story.zone.body.heated
      ? [
          nothing(
            title,
            'Not in the record: where the pipes lie is not known. Find them before drilling or cutting.',
          ),
        ]
      : []
  }
  return plans.map((plan, i) =>
    block(
      plans.length === 1 ? title : `${title}, ${i + 1} of ${plans.length}`,
      pictureOf(plan, [textWidth, 300]),
      ...wordsBelow(plan, when),
    ),
  )
}

/** The picture, or that it cannot be shown. */
export function pictureOf({ picture }: PrintedPhoto, fit: [width: number, height: number]): Content {
  return picture === null
    ? { text: 'The kept file of this photo is missing or cannot be read.', color: ink.stop }
    : { image: picture, fit }
}

function wordsBelow({ caption, at, sha256 }: PrintedPhoto, when: Printing['when']): Content[] {
  return [
    { text: `${caption}, ${when(at)}`, fontSize: 8, margin: [0, 2, 0, 0] },
    { text: `SHA-256 ${sha256}`, fontSize: 5.6, color: ink.faint },
  ]
}
