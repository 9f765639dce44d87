import { fileURLToPath } from 'node:url'
import { build } from 'electron-builder'
import { buildRenderer, buildShell } from './build.ts'
import { builder } from './config/builder.ts'
import { root } from './root.ts'

/** Builds everything and packs it for this system into release/. */
async function pack(): Promise<void> {
  await buildRenderer()
  await buildShell()
  const made = await build({ projectDir: root, config: builder, publish: 'never' })
  process.stdout.write(`Packed:\n${made.map((file) => `  ${file}`).join('\n')}\n`)
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await pack()
