import { readFileSync, renameSync, writeFileSync } from 'node:fs'
import { z } from 'zod'

const shape = z.object({ notifications: z.boolean().default(true) })

/** What this machine does with a record, apart from what the record says. */
export type Settings = z.output<typeof shape>

/**
 * Returns the settings of a data folder; the usual ones when nobody set any, or when the file cannot be read as settings:
 * nothing in it is a fact of the record, so nothing is lost.
 */
export function readSettings(file: string): Settings {
  try {
    return shape.parse(JSON.parse(readFileSync(file, 'utf8')))
  } catch (cause) {
    const isAbsent = cause instanceof Error && 'code' in cause && cause.code === 'ENOENT'
    if (isAbsent || cause instanceof SyntaxError || cause instanceof z.ZodError) return shape.parse({})
    throw cause
  }
}

/** Writes the settings beside the old ones and puts them in their place, so that the file is never half-written. */
export function writeSettings(file: string, settings: Settings): void {
  writeFileSync(`${file}.new`, `${JSON.stringify(settings, null, 2)}\n`)
  renameSync(`${file}.new`, file)
}
