import { createHash } from 'node:crypto'
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { build as bundle } from 'esbuild'
import { root } from '../root.ts'

export interface Verifier {
  'verify.mjs': string
  'verify.html': string
}

/** Builds the verifier from its one source: a program of one file for Node, and a page of one file for a browser. */
export async function buildVerifier(): Promise<Verifier> {
  const [program, script] = await Promise.all([
    oneFile('scripts/verifier/cli.ts', 'node', 'esm'),
    oneFile('scripts/verifier/page.ts', 'browser', 'iife'),
  ])
  return { 'verify.mjs': program, 'verify.html': pageWith(script) }
}

/** Writes the verifier where the pages of the app find it, and as files. */
export async function writeVerifier(): Promise<void> {
  const verifier = await buildVerifier()
  mkdirSync(`${root}dist/verifier`, { recursive: true })
  for (const [name, text] of Object.entries(verifier)) writeFileSync(`${root}dist/verifier/${name}`, text)
  mkdirSync(`${root}dist/renderer`, { recursive: true })
  writeFileSync(`${root}dist/renderer/verifier.json`, JSON.stringify(verifier))
}

async function oneFile(entry: string, platform: 'node' | 'browser', format: 'esm' | 'iife'): Promise<string> {
  const { outputFiles } = await bundle({
    absWorkingDir: root,
    entryPoints: [entry],
    bundle: true,
    write: false,
    platform,
    format,
    target: platform === 'node' ? 'node20' : 'es2022',
    charset: 'utf8',
    legalComments: 'none',
    logLevel: 'warning',
  })
  return outputFiles[0]!.text
}

/** The page with its script inside, and a policy that lets it do nothing else: load nothing, send nothing. */
function pageWith(script: string): string {
  const page = readFileSync(`${root}scripts/verifier/page.html`, 'utf8')
  const style = /<style>([\s\S]*)<\/style>/.exec(page)![1]!
  // In a script of a page, the one thing that must not appear is its own end.
  const safe = script.replaceAll('</script', '<\\/script')
  const policy = `default-src 'none'; script-src ${sourceOf(safe)}; style-src ${sourceOf(style)}; base-uri 'none'; form-action 'none'`
  return page.replace('POLICY', policy).replace('SCRIPT', () => safe)
}

function sourceOf(text: string): string {
  return `'sha256-${createHash('sha256').update(text).digest('base64')}'`
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await writeVerifier()
