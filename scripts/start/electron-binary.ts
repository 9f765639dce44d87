import { spawnSync } from 'node:child_process'
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { root } from '../root.ts'

const home = `${root}node_modules/electron`
const triedStamp = `${root}node_modules/.electron-tried`
const patienceMs = 60_000

export type Found = { binary: string } | { whyNot: string }

/** Returns the desktop shell's program, fetching it once when it is missing, or in one sentence why it cannot be used. */
export function findShell(platform: NodeJS.Platform, environment: NodeJS.ProcessEnv, isRoot: boolean): Found {
  if (isRoot && platform === 'linux') {
    return { whyNot: 'The desktop shell is not run as root, because it would have to give up its sandbox.' }
  }
  if (platform === 'linux' && !environment.DISPLAY && !environment.WAYLAND_DISPLAY) {
    return { whyNot: 'There is no screen here for the desktop shell.' }
  }
  const there = binaryPath()
  if (there !== null) return { binary: there }
  if (alreadyTried()) return { whyNot: missing('an earlier start could not fetch it') }
  process.stderr.write('Fetching the desktop shell (once, at most a minute) …\n')
  const done = spawnSync(process.execPath, ['install.js'], {
    cwd: home,
    stdio: 'ignore',
    timeout: patienceMs,
  })
  const fetched = binaryPath()
  if (fetched !== null) return { binary: fetched }
  writeFileSync(triedStamp, version())
  return { whyNot: missing(done.signal === null ? 'it could not be fetched' : 'fetching it took too long') }
}

/** The path is written down by the package; importing the package would start a download. */
function binaryPath(): string | null {
  const note = `${home}/path.txt`
  if (!existsSync(note)) return null
  const binary = `${home}/dist/${readFileSync(note, 'utf8').trim()}`
  return existsSync(binary) ? binary : null
}

function alreadyTried(): boolean {
  return existsSync(triedStamp) && readFileSync(triedStamp, 'utf8') === version()
}

function version(): string {
  const { version } = JSON.parse(readFileSync(`${home}/package.json`, 'utf8')) as { version: string }
  return version
}

function missing(why: string): string {
  return `The desktop shell is not installed: ${why}. To try again, delete node_modules/.electron-tried.`
}
