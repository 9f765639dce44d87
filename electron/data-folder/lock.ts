import { linkSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { dirname } from 'node:path'
import { z } from 'zod'
import { isAlive, processBirth } from './process-birth.ts'

const holder = z.object({ pid: z.number().int().positive(), birth: z.string().nullable(), since: z.string() })
type Holder = z.infer<typeof holder>

/** Another Bayledger works in this data folder. The message is a sentence for a person. */
export class FolderInUse extends Error {
  readonly pid: number | null
  constructor(file: string, by: Holder | null) {
    const who = by === null ? 'another program' : `process ${by.pid}, started ${by.since}`
    super(
      `The data folder ${dirname(file)} is in use by another Bayledger (${who}). ` +
        'Close that one first, or choose another folder with --data.',
    )
    this.name = 'FolderInUse'
    this.pid = by?.pid ?? null
  }
}

/**
 * Takes a data folder for this process and returns the function that gives it back. A lock that a crash left behind is
 * recognised by its process: gone, or a later one that happens to have the same number.
 * @param now epoch milliseconds, for the sentence that the next one reads.
 * @throws FolderInUse when another process holds it.
 */
export function takeFolder(file: string, now: number): () => void {
  mkdirSync(dirname(file), { recursive: true })
  const mine: Holder = {
    pid: process.pid,
    birth: processBirth(process.pid),
    since: new Date(now).toISOString(),
  }
  const text = JSON.stringify(mine)
  // Two rounds: the second finds the place that a stale lock has left. More would be a fight with a living process.
  for (let round = 0; round < 2; round++) {
    if (wrote(file, text)) return () => giveBack(file, text)
    const before = read(file)
    if (before !== null && stands(before)) throw new FolderInUse(file, parsed(before))
    if (before !== null) putAside(file, before)
  }
  throw new FolderInUse(file, parsed(read(file) ?? ''))
}

function wrote(file: string, text: string): boolean {
  try {
    writeFileSync(file, text, { flag: 'wx', mode: 0o600 })
    return true
  } catch (cause) {
    if (hasCode(cause, 'EEXIST')) return false
    throw cause
  }
}

/** Moves a stale lock out of the way; should it be a fresh one by now, it is put back. */
function putAside(file: string, stale: string): void {
  const aside = `${file}.${process.pid}.stale`
  try {
    renameSync(file, aside)
  } catch (cause) {
    if (hasCode(cause, 'ENOENT')) return
    throw cause
  }
  if (readFileSync(aside, 'utf8') !== stale) linkSync(aside, file)
  rmSync(aside)
}

function stands(text: string): boolean {
  const by = parsed(text)
  return by !== null && by.pid !== process.pid && isAlive(by.pid, by.birth)
}

function giveBack(file: string, text: string): void {
  if (read(file) === text) rmSync(file)
}

function read(file: string): string | null {
  try {
    return readFileSync(file, 'utf8')
  } catch (cause) {
    if (hasCode(cause, 'ENOENT')) return null
    throw cause
  }
}

/** Null for a lock that was never completely written: its process died in that moment. */
function parsed(text: string): Holder | null {
  try {
    return holder.safeParse(JSON.parse(text)).data ?? null
  } catch (cause) {
    if (cause instanceof SyntaxError) return null
    throw cause
  }
}

function hasCode(cause: unknown, code: string): boolean {
  return cause instanceof Error && 'code' in cause && cause.code === code
}
