import { type ChartTable, csvOf, fileNameFrom } from './table.ts'

/** Saves a chart's table as a CSV file that spreadsheets open as UTF-8. */
export function saveCsv(table: ChartTable): void {
  const bytes = new Blob(['\uFEFF', csvOf(table)], { type: 'text/csv;charset=utf-8' })
  handOut(bytes, fileNameFrom(table.title, 'csv'))
}

/**
 * Saves what stands drawn inside an element as one PNG, at twice its size on screen: every svg in its place, on paper, with
 * a title. Words are written with the page's own fonts, which a picture of shapes alone would not know.
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
    for (const line of drawing.lines) write(pen, line)
    const png = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'))
    if (png === null) throw new Error('This browser could not make the picture.')
    handOut(png, fileNameFrom(title, 'png'))
  } finally {
    URL.revokeObjectURL(url)
  }
}

/** Hands a file to the person, as a download under this name. */
export function handOut(file: Blob, name: string): void {
  const link = document.createElement('a')
  link.href = URL.createObjectURL(file)
  link.download = name
  link.click()
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000)
}

const headPx = 40
const marginPx = 16

/** Words and where they begin, in pixels of the saved picture. */
interface Line {
  text: string
  x: number
  y: number
  font: string
  fill: string
  /** A rim of paper around the letters, so that they are read above lines. */
  rim: { colour: string; width: number } | null
  opacity: number
}

function write(pen: CanvasRenderingContext2D, { text, x, y, font, fill, rim, opacity }: Line): void {
  pen.font = font
  pen.globalAlpha = opacity
  if (rim !== null) {
    pen.lineJoin = 'round'
    pen.lineWidth = rim.width
    pen.strokeStyle = rim.colour
    pen.strokeText(text, x, y)
  }
  pen.fillStyle = fill
  pen.fillText(text, x, y)
  pen.globalAlpha = 1
}

interface Drawing {
  /** All shapes, without words. */
  text: string
  lines: Line[]
  width: number
  height: number
}

function oneDrawing(stage: HTMLElement, title: string): Drawing {
  const frame = stage.getBoundingClientRect()
  const look = getComputedStyle(stage)
  const width = Math.ceil(frame.width) + 2 * marginPx
  const height = Math.ceil(frame.height) + headPx + 2 * marginPx
  const all = document.createElementNS(svgSpace, 'svg')
  setAll(all, { xmlns: svgSpace, width, height, viewBox: `0 0 ${width} ${height}` })
  const paper = document.createElementNS(svgSpace, 'rect')
  setAll(paper, { width, height, fill: getComputedStyle(document.body).backgroundColor })
  all.append(paper)
  const heading = {
    text: title,
    x: marginPx,
    y: marginPx + 18,
    font: `650 18px ${look.fontFamily}`,
    fill: look.color,
    rim: null,
    opacity: 1,
  }
  const lines: Line[] = [heading]
  const shift = { x: marginPx - frame.left, y: headPx + marginPx - frame.top }
  for (const svg of stage.querySelectorAll('svg')) {
    if (svg.parentElement?.closest('svg') !== null) continue
    const place = svg.getBoundingClientRect()
    if (place.width === 0 || place.height === 0) continue
    const copy = withLook(svg)
    setAll(copy, {
      x: place.left + shift.x,
      y: place.top + shift.y,
      width: place.width,
      height: place.height,
    })
    all.append(copy)
    lines.push(...[...svg.querySelectorAll('text')].flatMap((text) => lineOf(text, shift)))
  }
  return { text: new XMLSerializer().serializeToString(all), lines, width, height }
}

function lineOf(text: SVGTextElement, shift: { x: number; y: number }): Line[] {
  const matrix = text.getScreenCTM()
  const words = text.textContent
  if (matrix === null || words === '' || text.getNumberOfChars() === 0) return []
  const start = text.getStartPositionOfChar(0).matrixTransform(matrix)
  const look = getComputedStyle(text)
  const rim = look.paintOrder.startsWith('stroke') && look.stroke !== 'none'
  return [
    {
      text: words,
      x: start.x + shift.x,
      y: start.y + shift.y,
      font: `${look.fontWeight} ${look.fontSize} ${look.fontFamily}`,
      fill: look.fill,
      rim: rim ? { colour: look.stroke, width: Number.parseFloat(look.strokeWidth) } : null,
      opacity: Number(look.opacity),
    },
  ]
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
  for (const text of copy.querySelectorAll('text')) text.remove()
  copy.removeAttribute('class')
  copy.removeAttribute('style')
  return copy
}

function setAll(element: Element, attributes: Record<string, string | number>): void {
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, String(value))
}
