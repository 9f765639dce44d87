import pdfmake from 'pdfmake'
import roboto from 'pdfmake/build/fonts/Roboto.js'
import type { Content, ContextPageSize, TDocumentDefinitions } from 'pdfmake/interfaces.js'
import { lostText, printableText } from './letters.ts'
import { ink, sheet, styles } from './look.ts'
import { hatches } from './patterns.ts'

/** A document to be printed: what is on it, and what identifies it. */
export interface Printed {
  title: string
  subject: string
  content: Content[]
  /** What the header of a page says at its right; asked once all pages are laid out. */
  about: (page: number) => string
  /** What the header says at its left. */
  project: string
  /** What the footer says at its left. */
  foot: string
  /** The instant that the document stands on: also the date that the file carries [epoch ms]. */
  asOf: number
}

type Report = (done: number, of: number) => void

for (const [name, { data, encoding }] of Object.entries(roboto.vfs)) {
  pdfmake.virtualfs.writeFileSync(name, Buffer.from(data, encoding))
}
pdfmake.setFonts(roboto.fonts)
// A document of ours asks for nothing from the disk or the net.
pdfmake.setLocalAccessPolicy(() => false)
pdfmake.setUrlAccessPolicy(() => false)

/**
 * Returns the bytes of a PDF (1.7) with embedded fonts and text that can be selected and searched. The same document gives
 * the same bytes: the date in the file is that of the record, and its identifier follows from it.
 * The engine writes no structure tree, so a screen reader meets the text in the order of the page without headings and tables.
 * @param onProgress is told how much of the rendering is done, after the laying out, which cannot be watched.
 */
export async function makePdf(printed: Printed, onProgress?: Report): Promise<Buffer> {
  pdfmake.setProgressCallback((share) => onProgress?.(Math.round(share * 100), 100))
  return pdfmake.createPdf(definitionOf(printed)).getBuffer()
}

function definitionOf({
  title,
  subject,
  content,
  about,
  project,
  foot,
  asOf,
}: Printed): TDocumentDefinitions {
  const date = new Date(asOf)
  const lost = new Set<number>()
  const printed = readable(content, lost)
  return {
    version: '1.7',
    language: 'en-GB',
    displayTitle: true,
    info: {
      title: printableText(title),
      subject: printableText(subject),
      creator: 'Bayledger',
      producer: 'Bayledger',
      creationDate: date,
      modDate: date,
    },
    pageSize: 'A4',
    pageMargins: [sheet.left, sheet.top, sheet.right, sheet.bottom],
    defaultStyle: { font: 'Roboto', fontSize: 9, lineHeight: 1.15, color: ink.text },
    styles,
    patterns: hatches,
    content: printed,
    header: (page) => readable(headerOf(project, about(page)), lost),
    footer: (page, pages, size) => readable(footerOf([foot, lostText(lost)], page, pages, size), lost),
  }
}

function headerOf(left: string, right: string): Content[] {
  const words = { fontSize: 7.6, color: ink.soft }
  return [
    {
      margin: [sheet.left, 26, sheet.right, 0],
      columns: [
        { text: left, ...words, width: '*' },
        { text: right, ...words, bold: true, width: 'auto', alignment: 'right' },
      ],
      columnGap: 12,
    },
    {
      margin: [sheet.left, 4, 0, 0],
      canvas: [
        {
          type: 'line',
          x1: 0,
          y1: 0,
          x2: sheet.width - sheet.left - sheet.right,
          y2: 0,
          lineWidth: 0.6,
          lineColor: ink.line,
        },
      ],
    },
  ]
}

function footerOf(
  left: readonly (string | null)[],
  page: number,
  pages: number,
  { width }: ContextPageSize,
): Content {
  const words = { fontSize: 7.2, color: ink.soft }
  return {
    margin: [sheet.left, 14, width - (sheet.width - sheet.right), 0],
    columns: [
      {
        stack: left.filter((line) => line !== null).map((text) => ({ text, ...words })),
        width: '*',
      },
      { text: `Page ${page} of ${pages}`, ...words, width: 'auto', alignment: 'right' },
    ],
  }
}

/** Puts every text of a piece of content into letters that the font has; see `printableText`. */
function readable<T>(content: T, lost: Set<number>): T {
  if (Array.isArray(content)) {
    for (const [i, one] of content.entries()) content[i] = readable(one, lost)
    return content
  }
  if (typeof content === 'string') return printableText(content, lost) as T
  if (typeof content !== 'object' || content === null) return content
  const node = content as Record<string, unknown>
  for (const key of ['text', 'stack', 'columns', 'ul', 'ol'] as const) {
    if (key in node) node[key] = readable(node[key], lost)
  }
  if (isTable(node.table)) readable(node.table.body, lost)
  return content
}

function isTable(table: unknown): table is { body: unknown[] } {
  return typeof table === 'object' && table !== null && 'body' in table
}
