import { type ChartTable, csvOf, fileNameFrom } from './table.ts'

/** Saves a chart's table as a CSV file that spreadsheets open as UTF-8. */
export function saveCsv(table: ChartTable): void {
  const bytes = new Blob(['\uFEFF', csvOf(table)], { type: 'text/csv;charset=utf-8' })
  hand(bytes, fileNameFrom(table.title, 'csv'))
}

/**
 * Saves what stands drawn inside an element as one PNG, at twice its size on screen: every svg in its place, on paper, with
 * a title.
 * @throws Error when the browser cannot draw it.
 */
export async function savePng(stage: HTMLElement, title: string): Promise<void> {
  const drawing = oneDrawing(stage, title)
  const url = URL.createObjectURL(new Blob([drawing.text], { type: 'image/svg+xml;charset=utf-8' }))
  try {
    const picture = new Image()
    picture.src = url
    await picture.decode()
    const canvas = document.createElement('canvas')
    canvas.width = drawing.width * 2
    canvas.height = drawing.height * 2
    const pen = canvas.getContext('2d')
    if (pen === null) throw new Error('This browser gives no canvas to draw the picture on.')
    pen.scale(2, 2)
    pen.drawImage(picture, 0, 0, drawing.width, drawing.height)
    const png = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'))
    if (png === null) throw new Error('This browser could not make the picture.')
    hand(png, fileNameFrom(title, 'png'))
  } finally {
    URL.revokeObjectURL(url)
  }
}

function hand(file: Blob, name: string): void {
  const link = document.createElement('a')
  link.href = URL.createObjectURL(file)
  link.download = name
  link.click()
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000)
}

const headPx = 40
const marginPx = 16

function oneDrawing(stage: HTMLElement, title: string): { text: string; width: number; height: number } {
  const frame = stage.getBoundingClientRect()
  const look = getComputedStyle(stage)
  const width = Math.ceil(frame.width) + 2 * marginPx
  const height = Math.ceil(frame.height) + headPx + 2 * marginPx
  const all = document.createElementNS(svgSpace, 'svg')
  setAll(all, { xmlns: svgSpace, width, height, viewBox: `0 0 ${width} ${height}` })
  const paper = document.createElementNS(svgSpace, 'rect')
  setAll(paper, { width, height, fill: getComputedStyle(document.body).backgroundColor })
  const heading = document.createElementNS(svgSpace, 'text')
  setAll(heading, { x: marginPx, y: marginPx + 18, 'font-family': look.fontFamily, 'font-size': 18 })
  setAll(heading, { 'font-weight': 650, fill: look.color })
  heading.textContent = title
  all.append(paper, heading)
  for (const svg of stage.querySelectorAll('svg')) {
    if (svg.parentElement?.closest('svg') !== null || svg.dataset.unsaved !== undefined) continue
    const place = svg.getBoundingClientRect()
    if (place.width === 0 || place.height === 0) continue
    const copy = withLook(svg)
    setAll(copy, { x: place.left - frame.left + marginPx, y: place.top - frame.top + headPx + marginPx })
    setAll(copy, { width: place.width, height: place.height })
    all.append(copy)
  }
  return { text: new XMLSerializer().serializeToString(all), width, height }
}

const svgSpace = 'http://www.w3.org/2000/svg'
/** What makes up the look of a shape; written as attributes, because a picture knows no style sheet. */
const lookedUp = [
  'fill',
  'fill-opacity',
  'stroke',
  'stroke-width',
  'stroke-dasharray',
  'stroke-opacity',
  'stroke-linecap',
  'stroke-linejoin',
  'opacity',
  'font-family',
  'font-size',
  'font-weight',
  'text-anchor',
  'dominant-baseline',
  'visibility',
] as const

function withLook(svg: SVGSVGElement): SVGSVGElement {
  const copy = svg.cloneNode(true) as SVGSVGElement
  const copies = copy.querySelectorAll('*')
  for (const [i, original] of svg.querySelectorAll('*').entries()) {
    const look = getComputedStyle(original)
    const twin = copies[i]!
    for (const name of lookedUp) {
      const value = look.getPropertyValue(name)
      if (value !== '') twin.setAttribute(name, value)
    }
    twin.removeAttribute('class')
    twin.removeAttribute('style')
  }
  copy.removeAttribute('class')
  copy.removeAttribute('style')
  return copy
}

function setAll(element: Element, attributes: Record<string, string | number>): void {
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, String(value))
}
