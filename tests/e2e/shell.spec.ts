import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { _electron, expect, test } from '@playwright/test'
import { buildShell } from '#scripts/build.ts'
import { isFresh } from '#scripts/build-stamp.ts'
import { root } from '#scripts/root.ts'

/** Found by its path: importing the package would start a download. */
function electronBinary(): string | null {
  const note = `${root}node_modules/electron/path.txt`
  if (!existsSync(note)) return null
  const binary = `${root}node_modules/electron/dist/${readFileSync(note, 'utf8').trim()}`
  return existsSync(binary) ? binary : null
}

const binary = electronBinary()
const whyNot =
  binary === null
    ? 'the binary of Electron is not on this machine'
    : process.getuid?.() === 0
      ? 'Electron would have to give up its sandbox to run as root'
      : null

test.describe('the desktop shell', () => {
  test.skip(whyNot !== null, `Skipped: ${whyNot}.`)

  test('SHELL-30: it opens its one page, sandboxed, and the page reaches the record through the port', async () => {
    if (!isFresh('shell')) await buildShell()
    const data = mkdtempSync(join(tmpdir(), 'bayledger-shell-'))
    const app = await _electron.launch({
      executablePath: binary ?? '',
      args: [root],
      env: { ...process.env, BAYLEDGER_DATA: data } as Record<string, string>,
    })
    const page = await app.firstWindow()
    await expect(page.getByRole('heading').first()).toBeVisible()
    expect(page.url()).toMatch(/^app:\/\/bayledger\//)
    const seen = await page.evaluate(() => ({
      require: 'require' in window,
      process: 'process' in window,
      bridge: Object.keys((window as unknown as { bayledgerShell: object }).bayledgerShell),
    }))
    expect(seen).toEqual({ require: false, process: false, bridge: ['connect'] })
    await app.close()
    expect(existsSync(join(data, 'in-use.json'))).toBe(false)
    rmSync(data, { recursive: true })
  })
})
