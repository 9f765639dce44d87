import type { LoggerReading } from '#model/contract/logger-file.ts'

export type Encoding = LoggerReading['encoding']
export type EncodingGuess = { encoding: Encoding; trouble: null } | { encoding: null; trouble: string }

/** First bytes of files that people take for text. */
const otherFiles: { starts: number[]; what: string }[] = [
  { starts: [0x50, 0x4b, 0x03, 0x04], what: 'a ZIP archive or a workbook' },
  { starts: [0xd0, 0xcf, 0x11, 0xe0], what: 'an old workbook or document' },
  { starts: [0x25, 0x50, 0x44, 0x46], what: 'a PDF' },
  { starts: [0x1f, 0x8b], what: 'a compressed file' },
  { starts: [0xff, 0xd8, 0xff], what: 'a photo' },
  { starts: [0x89, 0x50, 0x4e, 0x47], what: 'a picture' },
  { starts: [0x53, 0x51, 0x4c, 0x69, 0x74, 0x65], what: 'a database' },
]

const saveAsText = 'Save the readings as CSV or plain text and choose that file.'

/**
 * Returns how the bytes of a file spell text, or why they cannot be text.
 * A byte order mark decides; without one, zero bytes at every second place mean UTF-16; else valid UTF-8; else
 * windows-1252, which fits any byte and so comes last.
 *
 * @param head the first bytes of the file, 64 KiB are plenty; a character cut at the end does no harm.
 */
export function encodingOf(head: Uint8Array): EncodingGuess {
  const no = (trouble: string): EncodingGuess => ({ encoding: null, trouble })
  const yes = (encoding: Encoding): EncodingGuess => ({ encoding, trouble: null })
  const starts = (...bytes: number[]) => bytes.every((byte, i) => head[i] === byte)

  if (head.length === 0) return no('The file is empty (0 bytes). Read the logger out again.')
  const other = otherFiles.find((file) => starts(...file.starts))
  if (other !== undefined) return no(`The file is ${other.what}, not text. ${saveAsText}`)
  if (starts(0xff, 0xfe, 0, 0)) return no(`The file is UTF-32 text, which is not read. ${saveAsText}`)
  if (starts(0xef, 0xbb, 0xbf)) return yes('utf-8')
  if (starts(0xff, 0xfe)) return yes('utf-16le')
  if (starts(0xfe, 0xff)) return yes('utf-16be')

  const zeros = [0, 0]
  let controls = 0
  for (let i = 0; i < head.length; i++) {
    const byte = head[i]!
    if (byte === 0) zeros[i % 2]!++
    else if (byte < 0x20 && byte !== 0x09 && byte !== 0x0a && byte !== 0x0d) controls++
  }
  const pairs = head.length / 2
  if (zeros[1]! > 0.4 * pairs && zeros[0]! < 0.05 * pairs) return yes('utf-16le')
  if (zeros[0]! > 0.4 * pairs && zeros[1]! < 0.05 * pairs) return yes('utf-16be')
  if (zeros[0]! + zeros[1]! + controls > 0.1 * head.length) {
    return no(`The file holds bytes that are not text (first at byte ${firstControl(head)}). ${saveAsText}`)
  }
  return yes(isUtf8(head) ? 'utf-8' : 'windows-1252')
}

function firstControl(head: Uint8Array): number {
  return head.findIndex((byte) => byte < 0x20 && byte !== 0x09 && byte !== 0x0a && byte !== 0x0d) + 1
}

function isUtf8(head: Uint8Array): boolean {
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(head, { stream: true })
    return true
  } catch (cause) {
    if (cause instanceof TypeError) return false
    throw cause
  }
}
