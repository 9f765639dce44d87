import { randomBytes } from 'node:crypto'
import { appendFileSync, mkdirSync, renameSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { inspect } from 'node:util'

export interface Log {
  /** Keeps an unexpected error with its whole chain of causes and returns the id that a person is told. */
  keep: (where: string, cause: unknown) => string
}

const mostBytes = 5 * 1024 * 1024

/** Opens the log of a data folder: one file of lines of JSON, and the one before it. */
export function openLog(folder: string, clock: () => number): Log {
  const file = join(folder, 'bayledger.log')
  return {
    keep: (where, cause) => {
      const id = randomBytes(5).toString('hex')
      const at = new Date(clock()).toISOString()
      const error = inspect(cause, { depth: 4, breakLength: Number.POSITIVE_INFINITY })
      try {
        mkdirSync(folder, { recursive: true, mode: 0o700 })
        if ((statSync(file, { throwIfNoEntry: false })?.size ?? 0) > mostBytes)
          renameSync(file, `${file}.before`)
        appendFileSync(file, `${JSON.stringify({ at, id, where, error })}\n`, { mode: 0o600 })
      } catch (logTrouble) {
        // A full disk must not hide the error it caused: the terminal still gets both.
        process.stderr.write(
          `${at} ${id} ${where}: ${error}\nThe log could not be written: ${inspect(logTrouble)}\n`,
        )
      }
      return id
    },
  }
}
