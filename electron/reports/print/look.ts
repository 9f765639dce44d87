import type { CustomTableLayout, StyleDictionary } from 'pdfmake/interfaces.js'

/** A4 in points, with the room that header and footer take. */
export const sheet = { width: 595.28, height: 841.89, left: 42, right: 42, top: 58, bottom: 46 } as const
export const textWidth = sheet.width - sheet.left - sheet.right

/** Ink for paper: every mark is told apart by its shape and word too, so that a grey copy says the same. */
export const ink = {
  text: '#1b1d1f',
  soft: '#4a4e52',
  faint: '#847f72',
  line: '#cfcabd',
  wash: '#f3f0e8',
  paper: '#ffffff',
  accent: '#0b5d66',
  accentWash: '#dcebe9',
  good: '#1a5a30',
  stop: '#8f1d14',
  stopWash: '#f8e3df',
  act: '#734600',
  watch: '#34477a',
  unproven: '#574e44',
} as const

export const styles: StyleDictionary = {
  title: { fontSize: 30, bold: true, lineHeight: 1.05 },
  chapter: { fontSize: 18, bold: true, margin: [0, 0, 0, 4] },
  part: { fontSize: 11, bold: true, margin: [0, 10, 0, 3] },
  small: { fontSize: 7.6, color: ink.soft },
  lead: { fontSize: 9.4, color: ink.soft, margin: [0, 0, 0, 6] },
  label: { fontSize: 7.6, color: ink.soft },
  cell: { fontSize: 7.8 },
  head: { fontSize: 7.4, bold: true, color: ink.soft },
  figure: { fontSize: 20, bold: true },
}

/** Rows parted by hairlines, a firm line under the heads, no upright lines. */
export const rowsLayout: CustomTableLayout = {
  hLineWidth: (i, node) => {
    const heads = typeof node.table.headerRows === 'number' ? node.table.headerRows : 0
    if (i === heads) return 0.9
    return i < heads || i === node.table.body.length ? 0 : 0.4
  },
  hLineColor: (i, node) => (i === node.table.headerRows ? ink.soft : ink.line),
  vLineWidth: () => 0,
  paddingLeft: (i) => (i === 0 ? 0 : 4),
  paddingRight: () => 4,
  paddingTop: () => 2,
  paddingBottom: () => 2,
}

/** Names left, facts right, nothing drawn. */
export const factsLayout: CustomTableLayout = {
  hLineWidth: () => 0,
  vLineWidth: () => 0,
  paddingLeft: (i) => (i === 0 ? 0 : 6),
  paddingRight: () => 0,
  paddingTop: () => 1.2,
  paddingBottom: () => 1.2,
}
