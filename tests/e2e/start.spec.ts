import { execFileSync, spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { delimiter, join } from 'node:path'
import { root } from '#scripts/root.ts'
import { expect, test } from './fixture.ts'
import { startBayledger } from './started.ts'

let data: string
test.beforeEach(() => {
  data = mkdtempSync(join(tmpdir(), 'bayledger-start-'))
})
test.afterEach(() => rmSync(data, { recursive: true, force: true }))

function run(...words: string[]) {
  return spawnSync(process.execPath, ['scripts/start.ts', ...words], { cwd: root, encoding: 'utf8' })
}

test('START-1: one line with the address, Ctrl-C ends it with code 0, folds the log in and gives the folder back', async () => {
  const started = await startBayledger({ data })
  expect(started.printed().out).toBe(`Bayledger at ${started.url}\n`)
  expect(existsSync(join(data, 'in-use.json'))).toBe(true)
  expect(await started.stop()).toBe(0)
  expect(readdirSync(data).sort()).toEqual(['record.sqlite', 'uploads'])
})

test('START-2: a second start in the same folder is told so in a sentence, and the first goes on', async () => {
  const started = await startBayledger({ data })
  const second = run('--browser', '--no-open', '--data', data)
  expect(second.status).toBe(1)
  expect(second.stdout).toBe('')
  expect(second.stderr).toMatch(
    /^The data folder .* is in use by another Bayledger \(process \d+, .*Close that one first.*\n$/,
  )
  expect((await fetch(started.origin)).status).toBe(200)
  expect(await started.stop()).toBe(0)
})

test('START-3: after a crash the folder opens again', async () => {
  const crashed = await startBayledger({ data })
  await crashed.kill()
  expect(existsSync(join(data, 'in-use.json'))).toBe(true)
  const next = await startBayledger({ data })
  expect(await next.stop()).toBe(0)
})

test('START-4: a bad option is told in one sentence, with code 2', () => {
  const cases: [string[], RegExp][] = [
    [['--port', 'many'], /^--port needs a number from 0 to 65535, not “many”\.\n$/],
    [['--port=70000'], /^--port needs a number/],
    [['--colour'], /^“--colour” is not an option; --help lists them\.\n$/],
    [['file.sqlite'], /^“file\.sqlite” is not an option/],
    [['--data'], /^--data needs a folder/],
    [['--demo', '--data', data], /^--demo has its own temporary folder/],
    [['--no-open=yes'], /^--no-open takes no value/],
  ]
  for (const [words, sentence] of cases) {
    const { status, stdout, stderr } = run(...words)
    expect({ words, status, stdout }).toEqual({ words, status: 2, stdout: '' })
    expect(stderr).toMatch(sentence)
  }
  const help = run('--help')
  expect(help.status).toBe(0)
  for (const option of ['--browser', '--no-open', '--port', '--data', '--demo'])
    expect(help.stdout).toContain(option)
})

test('START-5: a port that is taken is told in one sentence, and the folder is given back', async () => {
  const started = await startBayledger({ data })
  const other = mkdtempSync(join(tmpdir(), 'bayledger-start-'))
  const { status, stderr } = run(
    '--browser',
    '--no-open',
    '--port',
    new URL(started.url).port,
    '--data',
    other,
  )
  expect(status).toBe(1)
  expect(stderr).toBe('That port is taken by another program. Choose another, or leave out --port.\n')
  expect(existsSync(join(other, 'in-use.json'))).toBe(false)
  rmSync(other, { recursive: true })
  await started.stop()
})

/** Otherwise `npm start` would install packages anew, under the feet of this very test. */
function packagesAreEnsured(): boolean {
  const stamp = `${root}node_modules/.ensured`
  const lockfile = createHash('sha256')
    .update(readFileSync(`${root}package-lock.json`))
    .digest('hex')
  return existsSync(stamp) && readFileSync(stamp, 'utf8') === lockfile
}

test('START-6: npm start works where the system’s own Node is older, because the packages bring theirs', async () => {
  test.skip(!packagesAreEnsured(), 'Skipped: run “node scripts/ensure.mjs” first.')
  const elsewhere = (process.env.PATH ?? '')
    .split(delimiter)
    .filter((folder) => !folder.includes('node_modules'))
    .join(delimiter)
  const environment = { ...process.env, PATH: elsewhere }
  const system = execFileSync('node', ['--version'], { env: environment, encoding: 'utf8' })
  test.info().annotations.push({ type: 'system Node', description: system.trim() })
  const started = await startBayledger({
    data,
    environment,
    command: ['npm', 'start', '--'],
    words: ['--no-open'],
    asGroup: true,
  })
  expect((await fetch(started.origin)).status).toBe(200)
  // npm itself ends by the signal; what counts is that the record was closed and the folder given back.
  await started.stop()
  await expect.poll(() => readdirSync(data).sort()).toEqual(['record.sqlite', 'uploads'])
})

test('START-7: a demonstration leaves nothing behind', async () => {
  const before = readdirSync(tmpdir()).filter((name) => name.startsWith('bayledger-demo-'))
  const started = await startBayledger({ words: ['--browser', '--no-open', '--demo'] })
  expect(await started.stop()).toBe(0)
  expect(readdirSync(tmpdir()).filter((name) => name.startsWith('bayledger-demo-'))).toEqual(before)
})
