import { open } from 'node:fs/promises'
import type { Encoding } from './encoding.ts'
import { linesOf, longestLine } from './lines.ts'

/** Enough of a file to see how it is laid out, without reading hundreds of megabytes. */
export interface Sample {
  /** The first lines, from line 1. */
  head: string[]
  /** Some of the last lines, for the dates there; empty when `head` is the whole file. */
  tail: string[]
}

const headLines = 3000
const headCharacters = 1 << 20
const tailBytes = 65_536

/** Returns the first bytes of a file. */
export async function headOf(path: string, bytes = 65_536): Promise<Buffer> {
  const file = await open(path, 'r')
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(bytes), 0, bytes, 0)
    return buffer.subarray(0, bytesRead)
  } finally {
    await file.close()
  }
}

/** Returns the beginning and the end of a text file. */
export async function sampleOf(path: string, encoding: Encoding, bytes: number): Promise<Sample> {
  const head: string[] = []
  let characters = 0
  let whole = true
  for await (const { lines, cut } of linesOf(path, encoding)) {
    for (let i = 0; i < lines.length && whole; i++) {
      // A line that was cut says nothing of the layout.
      head.push(cut.has(i) ? '' : lines[i]!)
      characters += lines[i]!.length
      whole = head.length < headLines && characters < headCharacters
    }
    if (!whole) break
  }
  if (whole) return { head, tail: [] }
  const tail: string[] = []
  // An even distance from the start keeps UTF-16 whole; the first line is cut by the seek and left out.
  const start = Math.max(0, Math.floor((bytes - tailBytes) / 2) * 2)
  for await (const { lines } of linesOf(path, encoding, { start })) tail.push(...lines)
  return { head, tail: tail.slice(1).filter((line) => line.length < longestLine) }
}
