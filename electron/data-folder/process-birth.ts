import { readFileSync } from 'node:fs'

/**
 * Returns a text that tells a process from a later one of the same number, or null where the system does not say.
 * On Linux it is the start time in clock ticks since boot, with the boot's own id.
 * @source proc(5), /proc/pid/stat field 22, counted after the closing bracket of the command. @provenance from memory
 */
export function processBirth(pid: number): string | null {
  if (process.platform !== 'linux') return null
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, 'utf8')
    const ticks = stat.slice(stat.lastIndexOf(')') + 2).split(' ')[19]
    const boot = readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim()
    return ticks === undefined ? null : `${boot}:${ticks}`
  } catch (cause) {
    // The process is gone, or /proc is not mounted: it has no birth that we could compare.
    if (cause instanceof Error && 'code' in cause) return null
    throw cause
  }
}

/** True when a process of that number runs, and it is the one that was born then. */
export function isAlive(pid: number, birth: string | null): boolean {
  try {
    process.kill(pid, 0)
  } catch (cause) {
    // EPERM: it runs, under another user.
    if (!(cause instanceof Error && 'code' in cause && cause.code === 'EPERM')) return false
  }
  const now = processBirth(pid)
  return birth === null || now === null || now === birth
}
