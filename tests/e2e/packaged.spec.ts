import { execFileSync } from 'node:child_process'
import {
  chmodSync,
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { extractAll, extractFile, listPackage } from '@electron/asar'
import { expect, test } from '@playwright/test'
import { build, Platform } from 'electron-builder'
import { buildShell } from '#scripts/build.ts'
import { isFresh } from '#scripts/build-stamp.ts'
import { builder } from '#scripts/config/builder.ts'
import { root } from '#scripts/root.ts'

let folder: string
test.beforeAll(async () => {
  test.setTimeout(180_000)
  test.skip(process.platform !== 'linux', 'Skipped: packs for Linux only.')
  if (!isFresh('shell')) await buildShell()
  folder = mkdtempSync(join(tmpdir(), 'bayledger-packed-'))
  await packWithStub(join(folder, 'electron'), join(folder, 'release'))
})
test.afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** Packs around a file that only stands for Electron: what goes into the archive is the same. */
async function packWithStub(stub: string, output: string): Promise<void> {
  const { version } = JSON.parse(readFileSync(`${root}node_modules/electron/package.json`, 'utf8'))
  mkdirSync(join(stub, 'resources'), { recursive: true })
  writeFileSync(join(stub, 'version'), version)
  writeFileSync(join(stub, 'electron'), 'stands for Electron')
  chmodSync(join(stub, 'electron'), 0o755)
  // A stub has no fuses to blow; that they are asked for is checked with the rest of the security list.
  const { electronFuses: _fuses, ...config } = builder
  await build({
    projectDir: root,
    targets: Platform.LINUX.createTarget('dir'),
    publish: 'never',
    config: { ...config, electronDist: stub, directories: { output } },
  })
}

const resources = () => join(folder, 'release', 'linux-unpacked', 'resources')
const inArchive = () =>
  listPackage(join(resources(), 'app.asar'), { isPack: false }).map((file) => file.replaceAll('\\', '/'))

test('PACK-1: the archive holds the built program and the native packages, and nothing of sources, tests or records', () => {
  const files = inArchive().filter((file) => /\.\w+$/.test(file))
  expect(files).toEqual(
    expect.arrayContaining([
      '/package.json',
      '/dist/shell/main.js',
      '/dist/shell/preload.cjs',
      '/dist/shell/worker.js',
      '/dist/renderer/index.html',
    ]),
  )
  const strange = files.filter(
    (file) =>
      !/^\/(?:package\.json$|dist\/(?:shell|renderer)\/|node_modules\/(?:better-sqlite3|sharp|@img|detect-libc|semver)\/)/.test(
        file,
      ),
  )
  expect(strange).toEqual([])
  expect(files.filter((file) => /\.(?:ts|tsx|map|sqlite|stamp)$/.test(file))).toEqual([])
})

test('PACK-2: what the system loads lies unpacked beside the archive, for this platform only: SQLite and the library of pictures', () => {
  const unpacked = readdirSync(join(resources(), 'app.asar.unpacked'), {
    recursive: true,
    withFileTypes: true,
  })
  const files = unpacked.filter((entry) => entry.isFile()).map(({ name }) => name)
  const libraries = files.filter((name) => /\.(?:node|so|dylib|dll)(?:\.|$)/.test(name)).sort()
  expect(libraries).toHaveLength(3)
  expect(libraries).toEqual([
    expect.stringMatching(/^libvips-cpp\.so\./),
    `linux-${process.arch}.node`,
    expect.stringMatching(new RegExp(`^sharp-linux-${process.arch}-.*\\.node$`)),
  ])
  expect(inArchive().filter((file) => file.endsWith('.node'))).toHaveLength(2)
  const platforms = new Set(
    inArchive().flatMap((file) => /@img\/sharp-(?:libvips-)?(\w+-\w+)\//.exec(file)?.[1] ?? []),
  )
  expect([...platforms]).toEqual([`linux-${process.arch}`])
})

test('PACK-3: what the archive starts with is there, and the main process imports only Electron and SQLite', () => {
  const archive = join(resources(), 'app.asar')
  const { main, type } = JSON.parse(extractFile(archive, 'package.json').toString('utf8'))
  expect([main, type]).toEqual(['dist/shell/main.js', 'module'])
  const code = extractFile(archive, main).toString('utf8')
  const imported = [...code.matchAll(/^import [^"]*?"([^"]+)";$/gm)].map(([, name]) => name ?? '')
  const packages = new Set(imported.filter((name) => !name.startsWith('node:')))
  for (const name of ['http', 'fs', 'path', 'events', 'stream', 'crypto', 'util', 'worker_threads'])
    packages.delete(name)
  expect([...packages].sort()).toEqual(['better-sqlite3', 'electron'])
})

test('PACK-4: the packed library of pictures loads from where it lies and reads one', async () => {
  const packed = join(folder, 'taken-out')
  extractAll(join(resources(), 'app.asar'), packed)
  cpSync(join(resources(), 'app.asar.unpacked'), packed, { recursive: true })
  const script = `
    import sharp from 'sharp'
    const made = await sharp({ create: { width: 8, height: 6, channels: 3, background: '#a33' } }).webp().toBuffer()
    const { width, height } = await sharp(made).metadata()
    process.stdout.write(width + 'x' + height)`
  writeFileSync(join(packed, 'look.mjs'), script)
  const said = execFileSync(process.execPath, ['look.mjs'], { cwd: packed, encoding: 'utf8' })
  expect(said).toBe('8x6')
})
