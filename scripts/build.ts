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

/**
 * What packages written for CommonJS look for and a module does not have; those that make PDFs and workbooks do. Every
 * built file begins with it.
 */
export const forCommonJs = [
  "import { createRequire as makeRequire } from 'node:module';",
  "import { dirname as folderOf } from 'node:path';",
  "import { fileURLToPath as pathOf } from 'node:url';",
  'const require = makeRequire(import.meta.url);',
  'const __filename = pathOf(import.meta.url);',
  'const __dirname = folderOf(__filename);',
].join('\n')

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
    banner: { js: forCommonJs },
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
