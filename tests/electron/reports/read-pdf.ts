import { inflateSync } from 'node:zlib'

/** What a PDF of ours says, read out of its bytes by the rules of the format and not by the library that made it. */
export interface ReadPdf {
  pages: number
  /** Every word in the order of drawing, parted by blanks. */
  text: string
  /** True when a letter was drawn that its font does not have: the empty box. */
  hasBoxes: boolean
  /** Every word with its page, from 1, the height of its baseline above the foot of the page and its size [pt]. */
  placed: { page: number; y: number; size: number; text: string }[]
}

/**
 * Reads pages and text of a PDF whose objects stand plainly in the file, as our engine writes them: text by glyph numbers
 * in hexadecimal, each font with its ToUnicode map.
 * @source ISO 32000-1 7.3.8 (streams), 9.4.2 (text positioning), 9.4.3 (text showing), 9.10.3 (ToUnicode) @provenance from memory
 */
export function readPdf(bytes: Uint8Array): ReadPdf {
  const file = Buffer.from(bytes).toString('latin1')
  const objects = new Map<string, string>()
  for (const [, number, body] of file.matchAll(/(\d+) 0 obj\n([\s\S]*?)\nendobj/g))
    objects.set(number!, body!)
  const fonts = new Map<string, Map<string, string>>()
  for (const body of objects.values()) {
    for (const [, name, font] of body.matchAll(/\/(F\d+) (\d+) 0 R/g)) {
      const map = /\/ToUnicode (\d+) 0 R/.exec(objects.get(font!) ?? '')?.[1]
      if (map !== undefined) fonts.set(name!, lettersOf(streamOf(objects.get(map) ?? '')))
    }
  }
  const pages = [...objects.values()].filter((body) => /\/Type \/Page\b/.test(body))
  const words: string[] = []
  const placed: ReadPdf['placed'] = []
  let hasBoxes = false
  for (const [i, page] of pages.entries()) {
    const contents = /\/Contents (\d+) 0 R/.exec(page)?.[1]
    let letters = new Map<string, string>()
    let [size, y] = [0, 0]
    for (const [, height, font, points, shown] of streamOf(objects.get(contents ?? '') ?? '').matchAll(
      /[-\d.]+ ([-\d.]+) Tm|\/(F\d+) ([\d.]+) Tf|\[([^\]]*)\] TJ/g,
    )) {
      if (height !== undefined) y = Number(height)
      else if (font !== undefined) {
        letters = fonts.get(font) ?? new Map()
        size = Number(points)
      } else {
        const glyphs = [...shown!.matchAll(/<([0-9a-f]+)>/gi)].flatMap(([, hex]) => hex!.match(/.{4}/g) ?? [])
        if (glyphs.includes('0000')) hasBoxes = true
        const text = glyphs.map((glyph) => letters.get(glyph) ?? '').join('')
        words.push(text)
        placed.push({ page: i + 1, y, size, text })
      }
    }
  }
  const text = words.join(' ').replaceAll(/\s+/g, ' ')
  return { pages: pages.length, text, hasBoxes, placed }
}

function streamOf(body: string): string {
  const found = /stream\n([\s\S]*)\nendstream/.exec(body)?.[1]
  if (found === undefined) return ''
  const raw = Buffer.from(found, 'latin1')
  return body.includes('/FlateDecode') ? inflateSync(raw).toString('latin1') : found
}

/** Glyph number → letters, from ranges that list their letters one by one. */
function lettersOf(map: string): Map<string, string> {
  const letters = new Map<string, string>()
  for (const [, first, , list] of map.matchAll(/<([0-9a-f]+)> <([0-9a-f]+)> \[([^\]]*)\]/gi)) {
    let glyph = Number.parseInt(first!, 16)
    for (const [, hex] of list!.matchAll(/<([0-9a-f ]*)>/gi)) {
      const units = (hex!.replaceAll(' ', '').match(/.{4}/g) ?? []).map((unit) => Number.parseInt(unit, 16))
      letters.set(glyph.toString(16).padStart(4, '0'), String.fromCharCode(...units))
      glyph += 1
    }
  }
  return letters
}
