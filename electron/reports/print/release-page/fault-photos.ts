import type { Column, Content } from 'pdfmake/interfaces.js'
import type { BayFile } from '../../handover/bay-file.ts'
import { mostFaultPhotos, type PrintedPhoto } from '../../handover/photos.ts'
import { faultPhotosOf } from '../../handover/shown-photos.ts'
import { dayText, shortened } from '../../site-text.ts'
import { textWidth } from '../look.ts'
import { pictureOf } from '../photo-pages.ts'

const gap = 12
const width = (textWidth - gap * (mostFaultPhotos - 1)) / mostFaultPhotos
const pictureWidth = 88
const captionGap = 6
/** So many lines of conditions the photos take the room of. */
export const linesOfPhotos = 7

/** What was found wrong, or mended, side by side in one row; how many more there are stands beside the title. */
export function faultPhotos({ story, facts }: BayFile, photos: readonly PrintedPhoto[]): Content[] {
  if (photos.length === 0) return []
  const more = faultPhotosOf(story).length - photos.length
  return [
    {
      margin: [0, 6, 0, 2],
      text: [
        { text: 'Photos of defects and repairs', fontSize: 10, bold: true },
        ...(more > 0 ? [{ text: `   ${more} more in the file of the bay.`, style: 'small' }] : []),
      ],
    },
    {
      columnGap: gap,
      columns: photos.map(
        (photo): Column => ({
          width,
          columnGap: captionGap,
          columns: [
            { width: pictureWidth, stack: [pictureOf(photo, [pictureWidth, 62])] },
            {
              width: width - pictureWidth - captionGap,
              stack: [
                { text: shortened(photo.caption, 70), fontSize: 7.8 },
                { text: dayText(photo.at, story.timeZone, facts.asOf), style: 'small' },
              ],
            },
          ],
        }),
      ),
    },
  ]
}
