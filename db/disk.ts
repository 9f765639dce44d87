import { closeSync, existsSync, fsyncSync, openSync, renameSync, rmSync } from 'node:fs'

/** What SQLite may keep beside a file; the first holds entries that are not in the file yet. */
export const sideEnds = ['-wal', '-shm', '-journal'] as const

/** Makes sure that a file, or the names in a folder, survive a power cut. */
export function syncToDisk(target: string): void {
  const handle = openSync(target, 'r')
  try {
    fsyncSync(handle)
  } finally {
    closeSync(handle)
  }
}

/** Renames a database with everything that belongs to it; its log goes first, so that it is never without it. */
export function renameDatabase(from: string, to: string): void {
  for (const end of [...sideEnds, '']) if (existsSync(from + end)) renameSync(from + end, to + end)
}

/** Removes a database that was being built and never stood under its own name. */
export function removeUnfinished(building: string): void {
  for (const end of ['', ...sideEnds]) rmSync(building + end, { force: true })
}

/** 2026-11-25T07:10:00.123Z → 20261125T071000123Z, for names of files. */
export function stampOf(at: number): string {
  return new Date(at).toISOString().replace(/[-:.]/g, '')
}
