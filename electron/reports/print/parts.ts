import type { Content, ContentTable, TableCell } from 'pdfmake/interfaces.js'
import { factsLayout, ink, rowsLayout, textWidth } from './look.ts'

export type Cell = string | number | null | Content

export interface Column {
  head: string
  /** [pt], or a share of what is left. */
  width: number | '*' | 'auto'
  right?: boolean
}

export interface Rows {
  title: string
  /** Stands beside the title: what the table shows and does not show. */
  note?: string
  columns: readonly Column[]
  rows: readonly (readonly Cell[])[]
  /** What is said instead of an empty table. */
  none: string
}

/**
 * A table with its title as a head row: the title can never stand alone at the foot of a page, and comes again with the
 * heads on the next. No row is torn in two.
 */
export function rowsTable({ title, note, columns, rows, none }: Rows): Content {
  if (rows.length === 0) return nothing(title, none)
  const heading: TableCell = {
    colSpan: columns.length,
    margin: [0, 9, 0, 1],
    text: titleText(title, note),
  }
  const table: ContentTable = {
    layout: rowsLayout,
    table: {
      headerRows: 2,
      keepWithHeaderRows: 1,
      dontBreakRows: true,
      widths: columns.map(({ width }) => width),
      body: [
        [heading, ...columns.slice(1).map(() => '')],
        columns.map(({ head, right }) => ({ text: head, style: 'head', ...sided(right) })),
        ...rows.map((row) => row.map((cell, i) => cellOf(cell, columns[i]?.right))),
      ],
    },
  }
  return table
}

function cellOf(cell: Cell, right: boolean | undefined): TableCell {
  if (cell === null) return { text: '–', style: 'cell', color: ink.faint, ...sided(right) }
  if (typeof cell === 'string' || typeof cell === 'number')
    return { text: String(cell), style: 'cell', ...sided(right) }
  return cell as TableCell
}

const sided = (right: boolean | undefined) => (right === true ? { alignment: 'right' as const } : {})

/** A title with a sentence beside it, as the note of a table stands: a part that says little takes one line. */
export function nothing(title: string, sentence: string): Content {
  return { margin: [0, 9, 0, 1], text: titleText(title, sentence) }
}

const titleText = (title: string, note: string | undefined) => [
  { text: title, fontSize: 11, bold: true },
  ...(note === undefined ? [] : [{ text: `   ${note}`, style: 'small' }]),
]

export type FactRow = readonly [name: string, value: Content | null]

/** Names and facts in two columns; a fact that is null is said to be not known, and never left out. */
export function factsTable(rows: readonly FactRow[], nameWidth = 84): Content {
  return {
    layout: factsLayout,
    table: {
      widths: [nameWidth, '*'],
      body: rows.map(([name, value]): TableCell[] => [
        { text: name, style: 'label', margin: [0, 0.8, 0, 0] },
        value === null
          ? { text: 'not known', fontSize: 8.6, italics: true, color: ink.unproven }
          : typeof value === 'string'
            ? { text: value, fontSize: 8.6 }
            : (value as TableCell),
      ]),
    },
  }
}

/** A titled block that stays together: the title is never left behind at the foot of a page. */
export function block(title: string, ...content: Content[]): Content {
  return { unbreakable: true, stack: [{ text: title, style: 'part' }, ...content] }
}

/** Sentences with a dot before each. */
export function sentences(texts: readonly string[]): Content {
  return {
    ul: texts.map((text) => ({ text, margin: [0, 0, 0, 1.5] })),
    fontSize: 8.4,
    markerColor: ink.faint,
  }
}

/** Blanks to be filled in by hand, side by side over the width of the page. */
export function signatureLines(labels: readonly string[]): Content {
  const gap = 12
  const width = (textWidth - gap * (labels.length - 1)) / labels.length
  return {
    columnGap: gap,
    columns: labels.map((label) => ({
      width,
      stack: [
        { text: ' ', fontSize: 20 },
        { canvas: [{ type: 'line', x1: 0, y1: 0, x2: width, y2: 0, lineWidth: 0.6, lineColor: ink.faint }] },
        { text: label, style: 'label', margin: [0, 1.5, 0, 0] },
      ],
    })),
  }
}

interface ChapterOptions {
  id: string
  lead?: string
  /** A chapter begins a page unless this is false. */
  newPage?: boolean
  under?: string
  /** In the contents and the outline only: the first page of the chapter has no room for a heading. */
  unseen?: boolean
}

const unseenText = {
  fontSize: 0.1,
  lineHeight: 0.1,
  margin: [0, 0, 0, 0] as [number, number, number, number],
}

/** The heading of a chapter: in the contents, and in the outline that a reader shows beside the pages. */
export function chapter(
  title: string,
  { id, lead, newPage = true, under, unseen = false }: ChapterOptions,
): Content[] {
  return [
    {
      text: title,
      style: 'chapter',
      tocItem: true,
      tocStyle: { fontSize: 9, lineHeight: 1.15, ...(under === undefined ? { bold: true } : {}) },
      tocMargin: [under === undefined ? 0 : 12, 1, 0, 0],
      outline: true,
      outlineExpanded: under === undefined,
      id,
      ...(under === undefined ? {} : { outlineParentId: under }),
      ...(newPage ? { pageBreak: 'before' as const } : {}),
      ...(unseen ? unseenText : {}),
    },
    ...(lead === undefined ? [] : [{ text: lead, style: 'lead' }]),
  ]
}
