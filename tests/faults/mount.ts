import { execFileSync } from 'node:child_process'
import { mkdirSync } from 'node:fs'
import path from 'node:path'

export interface Mount {
  folder: string
  remount: (how: 'ro' | 'rw') => void
  unmount: () => void
}

/** A small disk in memory under this folder; null where this user may not mount one. */
export function mountOf(parent: string, name: string, size: string): Mount | null {
  if (process.platform !== 'linux' || process.getuid?.() !== 0) return null
  const folder = path.join(parent, name)
  mkdirSync(folder)
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${size}`, 'tmpfs', folder], { stdio: 'pipe' })
  } catch (cause) {
    // A container may forbid mounting even to root.
    if (cause instanceof Error) return null
    throw cause
  }
  return {
    folder,
    remount: (how) => {
      execFileSync('mount', ['-o', `remount,${how}`, folder], { stdio: 'pipe' })
    },
    unmount: () => {
      execFileSync('umount', [folder], { stdio: 'pipe' })
    },
  }
}
