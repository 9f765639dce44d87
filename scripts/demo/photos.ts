import sharp from 'sharp'
import { keepPhoto } from '#db/index.ts'
import { readLength } from '#model/photos/scale.ts'
import type { NewEntry } from '#model/record/entry.ts'
import type { EntryId, PersonId } from '#model/record/ids.ts'
import type { PhotoTag } from '#model/record/photos.ts'
import type { Book } from './book.ts'
import { circuitPlanDrawing } from './circuit-plan.ts'
import { hourMs, minuteMs } from './site-clock.ts'

const size = { widthPx: 1200, heightPx: 900 }
const plainly = 'Drawing for the demonstration, not a photo'
/** The rule that is drawn, from 0 to so many millimetres. */
const ruleOf = (lengthMm: number) => ({ fromX: 150, fromY: 800, toX: 1050, toY: 800, lengthMm })
const rule = ruleOf(50)
const longRule = ruleOf(200)
const crackX = 610

/**
 * Draws a "photo" for each edge strip that is complete and for each crack with a width, keeps it beside the record like
 * any photo, and notes it, and the circuit plan of the first zone that was tested: that of the other is missing. Each says
 * in large letters that it is a drawing.
 */
export async function drawPhotos(recordFile: string, book: Book): Promise<void> {
  const noted = book.pages().flatMap((page) => ('entry' in page ? [page.entry] : []))
  const names = new Map(noted.map(({ id, body }) => [String(id), `Bay ${String(body.name)}`]))
  const firstPipes = noted.find(({ kind }) => kind === 'pipes-pressure-tested')
  const nameOf = ({ subject }: NewEntry) => names.get(subject) ?? 'A bay'
  for (const entry of noted) {
    if (entry.corrects !== undefined) continue
    if (entry.kind === 'edge-strip-fitted' && entry.body.complete === true) {
      const what = {
        tag: 'edge strip',
        caption: 'Edge strip, all round and above the finished level',
      } as const
      await addDrawing(
        recordFile,
        book,
        entry,
        sheet(edgeStrip(), longRule, nameOf(entry)),
        what,
        5 * minuteMs,
      )
    }
    if (entry === firstPipes) {
      const what = { tag: 'circuit plan', caption: 'Circuits of this zone' } as const
      await addDrawing(
        recordFile,
        book,
        entry,
        circuitPlanDrawing('groundEast', plainly),
        what,
        20 * minuteMs,
      )
    }
    if (entry.kind === 'defect-found' && typeof entry.body.widthMm === 'number') {
      const what = { tag: 'defect', caption: 'Crack with a rule laid beside it' } as const
      const widthMm = Math.max(entry.body.widthMm, 0.2)
      const photo = await addDrawing(
        recordFile,
        book,
        entry,
        sheet(crack(widthMm), rule, nameOf(entry)),
        what,
        hourMs,
      )
      if (photo !== null) measureCrack(book, entry, photo, widthMm)
    }
  }
}

async function addDrawing(
  recordFile: string,
  book: Book,
  shows: NewEntry,
  drawing: string,
  { tag, caption }: { tag: PhotoTag; caption: string },
  laterMs: number,
) {
  const at = Date.parse(shows.happenedAt) + laterMs
  if (at > book.now) return null
  const jpeg = await sharp(Buffer.from(drawing)).jpeg({ quality: 82 }).toBuffer()
  const { sha256 } = keepPhoto(recordFile, jpeg, 'image/jpeg')
  return book.note('photo-added', {
    subject: shows.subject,
    at,
    person: shows.person as PersonId,
    source: 'photo',
    body: {
      tag,
      caption: `${caption} (drawing for the demonstration)`,
      of: shows.id as EntryId,
      quarterTurns: 0,
      ...(tag === 'circuit plan' ? {} : { scale: [tag === 'defect' ? rule : longRule] }),
      format: 'image/jpeg',
      ...size,
      bytes: jpeg.length,
      sha256,
      originalSha256: sha256,
      gpsKept: false,
    },
  })
}

function measureCrack(book: Book, shows: NewEntry, photo: EntryId, widthMm: number): void {
  const line = { fromX: crackX, fromY: 450, toX: crackX + crackPx(widthMm), toY: 450 }
  const read = readLength(line, [rule])
  if (read === null) return
  book.note('photo-marked', {
    subject: shows.subject,
    at: Date.parse(shows.happenedAt) + hourMs + 10 * minuteMs,
    person: shows.person as PersonId,
    source: 'photo',
    body: {
      photo,
      what: 'Width of the crack in the middle of the drawing',
      lengthMm: Number(read.lengthMm.toPrecision(3)),
      ...line,
    },
    sure: 'A thin crack: read at the largest zoom',
  })
}

/** A crack is drawn at the scale of the rule; under a pixel nothing would be seen. */
function crackPx(widthMm: number): number {
  return Math.max(1, Math.round((widthMm * (rule.toX - rule.fromX)) / rule.lengthMm))
}

function sheet(inside: string, { fromX, fromY, toX, lengthMm }: typeof rule, bay: string): string {
  const ticks = Array.from({ length: 21 }, (_, i) => {
    const x = fromX + (i * (toX - fromX)) / 20
    const number =
      i % 4 === 0
        ? `<text x="${x}" y="872" font-size="26" text-anchor="middle">${(i * lengthMm) / 20}</text>`
        : ''
    return `<path d="M${x} ${fromY}v${i % 4 === 0 ? 40 : 22}" stroke="#222" stroke-width="3"/>${number}`
  })
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${size.widthPx}" height="${size.heightPx}" font-family="sans-serif">
    <rect width="100%" height="100%" fill="#c9c5bb"/>${inside}
    <rect x="130" y="${fromY}" width="940" height="84" fill="#f2e6b8" stroke="#222" stroke-width="3"/>${ticks.join('')}
    <rect width="100%" height="76" fill="#fff"/>
    <text x="600" y="52" font-size="40" font-weight="bold" text-anchor="middle" fill="#8f1d14">${plainly}</text>
    <text x="600" y="130" font-size="34" text-anchor="middle" fill="#333">${bay}, rule in mm</text></svg>`
}

function edgeStrip(): string {
  return `<rect y="76" width="100%" height="300" fill="#dcd7c9"/>
    <rect y="330" width="100%" height="64" fill="#5b8fb0"/>
    <path d="M0 394H1200" stroke="#222" stroke-width="4"/>
    <path d="M300 330v64M780 330v64" stroke="#234" stroke-width="3" stroke-dasharray="10 6"/>
    <text x="600" y="372" font-size="30" text-anchor="middle" fill="#fff">edge strip</text>
    <text x="600" y="220" font-size="30" text-anchor="middle" fill="#444">wall</text>
    <text x="600" y="560" font-size="30" text-anchor="middle" fill="#444">base</text>`
}

function crack(widthMm: number): string {
  const w = crackPx(widthMm)
  const left = `M${crackX - 40} 76L${crackX + 20} 260L${crackX} 450L${crackX + 35} 620L${crackX - 10} 780`
  return `<path d="${left}l${w} 0L${crackX + 35 + w} 620L${crackX + w} 450L${crackX + 20 + w} 260L${crackX - 40 + w} 76Z" fill="#2b2723"/>`
}
