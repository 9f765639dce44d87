import { spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { root } from '#scripts/root.ts'

/** Import direction: model ← db ← electron; renderer imports model only. Each line is planted and must be refused. */
const violations: [file: string, imported: string][] = [
  ['model/watch/planted-1.ts', '#db/index.ts'],
  ['model/watch/planted-2.ts', '#electron/log.ts'],
  ['model/watch/planted-3.ts', '#renderer/app/client.ts'],
  ['model/planted-4.ts', 'node:fs'],
  ['model/planted-5.ts', 'react'],
  ['model/planted-6.ts', 'better-sqlite3'],
  ['model/planted-7.ts', '../db/index.ts'],
  ['model/record/planted-8.ts', '../../electron/log.ts'],
  ['db/planted-1.ts', '#electron/log.ts'],
  ['db/queries/planted-2.ts', '#renderer/app/client.ts'],
  ['db/planted-3.ts', 'electron'],
  ['db/queries/planted-4.ts', '../../electron/log.ts'],
  ['electron/planted-1.ts', '#renderer/app/client.ts'],
  ['electron/api/planted-2.ts', 'react'],
  ['electron/api/planted-3.ts', '../../renderer/app/client.ts'],
  ['electron/api/planted-4.ts', '#scripts/root.ts'],
  ['renderer/planted-1.tsx', '#db/index.ts'],
  ['renderer/app/planted-2.tsx', '#electron/log.ts'],
  ['renderer/app/planted-3.tsx', 'node:fs'],
  ['renderer/app/planted-4.tsx', 'electron'],
  ['renderer/screens/planted-5.tsx', '../../db/index.ts'],
]

const allowed: [file: string, imported: string][] = [
  ['model/watch/allowed-1.ts', '#model/errors.ts'],
  ['model/watch/allowed-2.ts', 'zod'],
  ['db/allowed-3.ts', '#model/errors.ts'],
  ['db/allowed-4.ts', 'better-sqlite3'],
  ['electron/allowed-5.ts', '#db/index.ts'],
  ['electron/allowed-6.ts', '#model/errors.ts'],
  ['renderer/allowed-7.tsx', '#model/errors.ts'],
  ['renderer/screens/allowed-8.tsx', '../app/client.ts'],
]

function lint(folder: string, words: readonly string[]): string {
  const biome = join(root, 'node_modules', '@biomejs', 'biome', 'bin', 'biome')
  const { stdout, stderr } = spawnSync(
    process.execPath,
    [biome, 'lint', '--max-diagnostics=none', ...words],
    {
      cwd: folder,
      encoding: 'utf8',
    },
  )
  return stdout + stderr
}

function filesChecked(report: string): number {
  return Number(/Checked (\d+) files?/.exec(report)?.[1] ?? 0)
}

let planted: string
let report: string
beforeAll(() => {
  planted = mkdtempSync(join(tmpdir(), 'bayledger-rooms-'))
  const rules = JSON.parse(readFileSync(join(root, 'scripts', 'config', 'lint.json'), 'utf8'))
  writeFileSync(join(planted, 'biome.json'), JSON.stringify({ ...rules, vcs: { enabled: false } }))
  for (const [file, imported] of [...violations, ...allowed]) {
    mkdirSync(dirname(join(planted, file)), { recursive: true })
    writeFileSync(join(planted, file), `import * as other from '${imported}'\n\nexport const kept = other\n`)
  }
  report = lint(planted, ['.'])
})
afterAll(() => rmSync(planted, { recursive: true }))

const refusedIn = (file: string) => report.includes(`${file}:1:`)

describe('the rooms of the house', () => {
  it('ROOM-1: every planted file was looked at', () => {
    expect(filesChecked(report)).toBeGreaterThanOrEqual(violations.length + allowed.length)
  })

  it.each(violations)('ROOM-2: %s may not import %s', (file) => {
    expect(refusedIn(file)).toBe(true)
  })

  it.each(allowed)('ROOM-3: control: %s may import %s', (file) => {
    expect(refusedIn(file)).toBe(false)
  })

  it.each(['model', 'db', 'electron', 'renderer', 'tests', 'scripts'])(
    'ROOM-4: the rule sees the files of %s',
    (room) => {
      const seen = lint(root, ['--config-path=scripts/config/lint.json', room])
      expect(filesChecked(seen)).toBeGreaterThan(3)
      expect(seen).not.toContain('noRestrictedImports')
    },
  )
})
