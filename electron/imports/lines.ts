import { createReadStream } from 'node:fs'
import type { Encoding } from './encoding.ts'

/** Consecutive lines of a file. */
export interface LineBlock {
  /** Number of the first line; the first line of a file is 1. */
  firstLine: number
  lines: string[]
  /** Places in `lines` of lines longer than `longestLine`; only their beginning is kept. */
  cut: Set<number>
  /** Bytes of the file read so far. */
  bytesRead: number
}

/** No logger writes a longer line. A longer one is cut and refused, so that it cannot fill the memory. */
export const longestLine = 65_536
const keptOfCutLine = 400

interface Reading {
  signal?: AbortSignal | undefined
  /** Byte to start at, on a whole character. */
  start?: number
}

/**
 * Yields the lines of a text file block by block, without their ends (LF, CRLF or CR). Memory use does not grow
 * with the file or with its longest line.
 */
export async function* linesOf(
  path: string,
  encoding: Encoding,
  { signal, start = 0 }: Reading = {},
): AsyncGenerator<LineBlock> {
  const decoder = new TextDecoder(encoding)
  const stream = createReadStream(path, { highWaterMark: 1 << 18, start, signal })
  let firstLine = 1
  let bytesRead = start
  let rest = ''
  let restWasCut = false

  const block = (text: string, ended: boolean): LineBlock => {
    const lines = text.includes('\r') ? text.split(/\r\n|\n|\r/) : text.split('\n')
    const cut = new Set<number>()
    if (restWasCut) cut.add(0)
    rest = ended ? '' : lines.pop()!
    restWasCut = !ended && restWasCut && lines.length === 0
    if (ended && lines.at(-1) === '') lines.pop()
    for (let i = 0; i < lines.length; i++) {
      if (lines[i]!.length <= longestLine) continue
      cut.add(i)
      lines[i] = lines[i]!.slice(0, keptOfCutLine)
    }
    if (rest.length > longestLine) {
      rest = rest.slice(0, keptOfCutLine)
      restWasCut = true
    }
    const made = { firstLine, lines, cut, bytesRead }
    firstLine += lines.length
    return made
  }

  for await (const chunk of stream as AsyncIterable<Buffer>) {
    bytesRead += chunk.length
    let text = rest + decoder.decode(chunk, { stream: true })
    // A line end that is split between two chunks must not count twice.
    const heldBack = text.endsWith('\r')
    if (heldBack) text = text.slice(0, -1)
    const made = block(text, false)
    if (heldBack) rest += '\r'
    if (made.lines.length > 0) yield made
  }
  const last = block(rest + decoder.decode(), true)
  if (last.lines.length > 0) yield last
}

/** Returns the text of some lines of a file, by line number. */
export async function textOfLines(
  path: string,
  encoding: Encoding,
  wanted: ReadonlySet<number>,
): Promise<Map<number, string>> {
  const found = new Map<number, string>()
  if (wanted.size === 0) return found
  for await (const { firstLine, lines } of linesOf(path, encoding)) {
    for (const line of wanted) {
      const text = lines[line - firstLine]
      if (text !== undefined) found.set(line, text)
    }
    if (found.size === wanted.size) break
  }
  return found
}

/** A line as it can be shown: control characters made visible, at most 200 characters. */
export function shownLine(text: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
  const visible = text.replace(/[\u0000-\u0008\u000b-\u001f\u007f]/g, '�')
  return visible.length > 200 ? `${visible.slice(0, 199)}…` : visible
}
