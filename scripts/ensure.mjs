// Makes a fresh clone ready: packages, Node 24, and (with --browser) a Chromium for the end-to-end checks.
// Plain JavaScript without imports from node_modules, so that any Node from 18 on can run it first.

import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { findBrowser } from './browser.mjs'

const root = fileURLToPath(new URL('..', import.meta.url))
const stampFile = `${root}node_modules/.ensured`
const say = (sentence) => process.stderr.write(`${sentence}\n`)
const run = (command, args, options = {}) =>
  spawnSync(command, args, {
    cwd: root,
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32',
    ...options,
  })

const wanted = createHash('sha256')
  .update(readFileSync(`${root}package-lock.json`))
  .digest('hex')
const present = existsSync(stampFile) ? readFileSync(stampFile, 'utf8') : ''
if (present !== wanted) {
  say('Installing packages (first start, or the lockfile changed) …')
  const done = run('npm', ['ci', '--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'])
  if (done.status !== 0) {
    say(
      'The packages could not be installed. Check the network to the npm registry, then run the command again.',
    )
    process.exit(1)
  }
  writeFileSync(stampFile, wanted)
}

if (process.argv.includes('--browser') && findBrowser() === null) {
  const isRootOnDebian = process.getuid?.() === 0 && existsSync('/etc/debian_version')
  if (isRootOnDebian) {
    say('Installing Chromium for the end-to-end checks …')
    run('apt-get', ['update', '-qq'])
    run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium', 'fonts-dejavu-core'])
  } else {
    run('npx', ['playwright', 'install', 'chromium'], { timeout: 600_000 })
  }
}
