import { rmSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { build as bundle } from 'esbuild'
import { build as buildPages } from 'vite'
import { markFresh } from './build-stamp.ts'
import { root } from './root.ts'
import { writeVerifier } from './verifier/build.ts'

/** Builds the pages into dist/renderer, with the verifier that they hand out. */
export async function buildRenderer(): Promise<void> {
  await buildPages({ configFile: `${root}scripts/config/vite.config.ts` })
  await writeVerifier()
  markFresh('renderer')
}

/** Builds main process, preload script and worker thread into dist/shell; the native packages stay outside. */
export async function buildShell(): Promise<void> {
  const shared = {
    absWorkingDir: root,
    bundle: true,
    platform: 'node',
    target: 'node24',
    outdir: 'dist/shell',
    logLevel: 'warning',
    legalComments: 'linked',
  } as const
  rmSync(`${root}dist/shell`, { recursive: true, force: true })
  await bundle({
    ...shared,
    entryPoints: { main: 'electron/main.ts', worker: 'electron/work/worker.ts' },
    format: 'esm',
    external: ['electron', 'better-sqlite3', 'sharp'],
  })
  // A sandboxed preload script can be neither a module nor made of several files.
  await bundle({
    ...shared,
    entryPoints: { preload: 'electron/preload.ts' },
    format: 'cjs',
    outExtension: { '.js': '.cjs' },
    external: ['electron'],
  })
  markFresh('shell')
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  await buildRenderer()
  await buildShell()
  process.stdout.write('Built dist/renderer and dist/shell.\n')
}
