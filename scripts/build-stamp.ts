import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { root } from './root.ts'

const madeFrom = {
  renderer: [
    'renderer',
    'model',
    'db/bundle',
    'scripts/verifier',
    'scripts/config/vite.config.ts',
    'package-lock.json',
  ],
  shell: ['electron', 'db', 'model', 'scripts/build.ts', 'package-lock.json'],
} as const
type Built = keyof typeof madeFrom

/** True when what was built is of the sources as they are now, by their bytes. */
export function isFresh(what: Built): boolean {
  const stamp = stampOf(what)
  return (
    existsSync(stamp) && existsSync(`${root}dist/${what}`) && readFileSync(stamp, 'utf8') === digestOf(what)
  )
}

/** Remembers that `what` has just been built. */
export function markFresh(what: Built): void {
  mkdirSync(`${root}dist`, { recursive: true })
  writeFileSync(stampOf(what), digestOf(what))
}

function stampOf(what: Built): string {
  return `${root}dist/${what}.stamp`
}

function digestOf(what: Built): string {
  const hash = createHash('sha256')
  for (const file of madeFrom[what].flatMap(filesUnder))
    hash.update(`${file}\n`).update(readFileSync(root + file))
  return hash.digest('hex')
}

function filesUnder(path: string): string[] {
  if (/\.[a-z]+$/.test(path)) return [path]
  return readdirSync(root + path, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(root.length))
    .sort()
}
