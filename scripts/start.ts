import { readFileSync } from 'node:fs'
import { isFresh } from './build-stamp.ts'
import { root } from './root.ts'
import { findShell } from './start/electron-binary.ts'
import { BadOption, readOptions, type StartOptions, usage } from './start/options.ts'

/** `npm start`: builds what changed, opens the record, and shows it in the shell or in the browser. */
async function start(words: readonly string[]): Promise<number> {
  const options = readOptions(words)
  if (options.help) {
    process.stdout.write(usage)
    return 0
  }
  const binary = shellFor(options)
  await buildWhatChanged(binary !== null)
  const { chooseData } = await import('./start/data.ts')
  const data = await chooseData(options, Date.now())
  try {
    if (binary !== null) {
      const { runInShell } = await import('./start/in-shell.ts')
      return await runInShell(binary, options, data)
    }
    const { runInBrowser } = await import('./start/in-browser.ts')
    await runInBrowser(options, data, version())
    return 0
  } finally {
    data.clear()
  }
}

/** The shell's program, or null for the browser; why it is the browser is said when nobody asked for it. */
function shellFor({ browser, open }: StartOptions): string | null {
  if (browser || !open) return null
  const found = findShell(process.platform, process.env, process.getuid?.() === 0)
  if ('binary' in found) return found.binary
  process.stderr.write(`${found.whyNot} Using the browser.\n`)
  return null
}

async function buildWhatChanged(withShell: boolean): Promise<void> {
  const pages = !isFresh('renderer')
  const shell = withShell && !isFresh('shell')
  if (!pages && !shell) return
  process.stderr.write('Building (the sources changed) …\n')
  const { buildRenderer, buildShell } = await import('./build.ts')
  if (pages) await buildRenderer()
  if (shell) await buildShell()
}

function version(): string {
  return (JSON.parse(readFileSync(`${root}package.json`, 'utf8')) as { version: string }).version
}

/** Errors that tell a person what to do need no stack. */
function sentenceOf(cause: unknown): string {
  if (cause instanceof BadOption) return cause.message
  if (!(cause instanceof Error)) return String(cause)
  if (cause.name === 'FolderInUse') return cause.message
  const code = 'code' in cause ? cause.code : null
  if (code === 'EADDRINUSE')
    return 'That port is taken by another program. Choose another, or leave out --port.'
  if (code === 'EACCES') return `This user may not do that here: ${cause.message}`
  return cause.stack ?? cause.message
}

try {
  process.exitCode = await start(process.argv.slice(2))
} catch (cause) {
  process.stderr.write(`${sentenceOf(cause)}\n`)
  process.exitCode = cause instanceof BadOption ? 2 : 1
}
