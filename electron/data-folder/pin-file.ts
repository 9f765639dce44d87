import { closeSync, fsyncSync, openSync, readFileSync, renameSync, writeSync } from 'node:fs'
import { dirname } from 'node:path'
import { z } from 'zod'
import { syncToDisk } from '#db/disk.ts'
import { onDisk } from '#db/errors.ts'
import { RecordError } from '#db/index.ts'

const hex = z.string().regex(/^(?:[0-9a-f]{2})+$/)

const pinKept = z.strictObject({
  /** scrypt (RFC 7914): what it was made with, so that an older cost still proves. */
  n: z.number().int(),
  r: z.number().int(),
  p: z.number().int(),
  salt: hex,
  hash: hex,
  /** Wrong tries in a row. Only the right PIN, or a new one, sets it back. */
  wrongTries: z.number().int().min(0),
  /** What is left to wait [ms] as of the last writing; it runs down only while the program runs. */
  waitMs: z.number().min(0),
})
export type PinKept = z.output<typeof pinKept>

const shape = z.strictObject({ version: z.literal(1), people: z.record(z.string(), pinKept) })
export type PinsKept = Record<string, PinKept>

/**
 * Returns the PINs of a data folder, by person; none when there is no file yet.
 * @throws RecordError corrupt when the file is there and is not one of ours: it must not pass for "no PINs"
 */
export function readPins(file: string): PinsKept {
  try {
    return shape.parse(JSON.parse(readFileSync(file, 'utf8'))).people
  } catch (cause) {
    if (cause instanceof Error && 'code' in cause && cause.code === 'ENOENT') return {}
    if (!(cause instanceof SyntaxError || cause instanceof z.ZodError)) throw cause
    throw new RecordError(
      'corrupt',
      `${file} cannot be read, so no PIN can be proven. The record itself is whole. Whoever keeps this machine can move that file away; each person then sets a PIN anew, and the record says so.`,
      { cause },
    )
  }
}

/**
 * Writes the PINs for good: beside the old file, onto the disk, then in its place. Readable by its owner alone.
 * @throws RecordError full, read-only
 */
export function writePins(file: string, people: PinsKept): void {
  const text = `${JSON.stringify({ version: 1, people }, null, 2)}\n`
  onDisk(file, () => {
    const handle = openSync(`${file}.new`, 'w', 0o600)
    try {
      writeSync(handle, text)
      fsyncSync(handle)
    } finally {
      closeSync(handle)
    }
    renameSync(`${file}.new`, file)
    syncToDisk(dirname(file))
  })
}
