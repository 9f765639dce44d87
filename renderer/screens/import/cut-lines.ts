import type { LoggerReading } from '#model/contract/index.ts'

const firstBytes = 64_000
const firstLines = 14

/** The first lines of a file with this encoding and separator, for looking at; the host reads the file itself. */
export async function cutLines(
  file: Blob,
  encoding: LoggerReading['encoding'],
  separator: LoggerReading['separator'],
): Promise<string[][]> {
  const bytes = await file.slice(0, firstBytes).arrayBuffer()
  const text = new TextDecoder(encoding).decode(bytes)
  return text
    .split(/\r\n|\n|\r/)
    .filter((line) => line.trim() !== '')
    .slice(0, firstLines)
    .map((line) => cutLine(line, separator))
}

/** Cuts one line; a separator inside quotes does not cut. */
export function cutLine(line: string, separator: string): string[] {
  const cells: string[] = []
  let cell = ''
  let quoted = false
  for (const sign of line) {
    if (sign === '"') quoted = !quoted
    else if (sign === separator && !quoted) {
      cells.push(cell)
      cell = ''
    } else cell += sign
  }
  return [...cells, cell]
}
