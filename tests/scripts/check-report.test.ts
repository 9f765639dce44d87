import { spawnSync } from 'node:child_process'
import { readFileSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, it } from 'vitest'
import { browserReportIn, unitReportIn } from '#scripts/check/report.ts'
import { root } from '#scripts/root.ts'
import { tempFolder } from '../electron/temp-folder.ts'

const fileIn = (name: string, text: string) => {
  const file = path.join(tempFolder(), name)
  writeFileSync(file, text)
  return file
}

/** Runs planted test files with the reporter of `npm test`. */
function unitReportOf(files: Record<string, string>) {
  const folder = tempFolder()
  const report = path.join(folder, 'report.json')
  for (const [name, text] of Object.entries(files)) writeFileSync(path.join(folder, name), text)
  const words = [
    'run',
    '--root',
    folder,
    '--globals',
    '--reporter',
    `${root}scripts/check/counting-reporter.ts`,
  ]
  const env = { ...process.env, BAYLEDGER_TEST_REPORT: report, VITEST: undefined, VITEST_POOL_ID: undefined }
  const { status } = spawnSync(process.execPath, [`${root}node_modules/vitest/vitest.mjs`, ...words], { env })
  return { status, report: unitReportIn(report), text: readFileSync(report, 'utf8') }
}

describe('what the last lines of the checks say', () => {
  it('REPORT-1: what passed, what was skipped by hand and what failed are counted, the failed by name', () => {
    const { status, report } = unitReportOf({
      'sums.test.js': `it('adds', () => {}); it.skip('left out', () => {}); it('fails', () => { throw new Error('no') })`,
    })
    expect(status).toBe(1)
    expect(report).toEqual({ passed: 1, failed: 1, skipped: 1, troubles: ['sums.test.js › fails: failed'] })
  })

  it('REPORT-2: a process that dies, a hook that fails, a file that does not load and a stray error are failures', () => {
    const { report } = unitReportOf({
      'dies.test.js': `it('dies', async () => { process.kill(process.pid, 'SIGKILL'); await new Promise(() => {}) })`,
      'hook.test.js': `describe('of', () => { beforeAll(() => { throw new Error('no') }); it('waits', () => {}) })`,
      'broken.test.js': `import './nothing-here.js'`,
      'stray.test.js': `it('strays', async () => { setTimeout(() => { throw new Error('late') }, 1); await new Promise((end) => setTimeout(end, 60)) })`,
    })
    const told = report?.troubles.join('\n')
    expect(told).toContain('dies.test.js › dies: never ended')
    expect(told).toContain('hook.test.js › of > waits: was not run')
    expect(told).toContain('broken.test.js: failed outside its tests')
    expect(told).toContain('Outside any test: Error: late')
    expect(report?.skipped).toBe(0)
    expect(report?.failed).toBe(report?.troubles.length)
  })

  it('REPORT-3: a browser test that passed only at a second try is named and has failed', () => {
    const spec = (title: string, status: string) => ({ title, tests: [{ status }] })
    const file = fileIn(
      'browser.json',
      JSON.stringify({
        suites: [
          {
            title: 'a.spec.ts',
            specs: [spec('A', 'expected')],
            suites: [{ title: 'in', specs: [spec('B', 'flaky')] }],
          },
        ],
        stats: { expected: 1, unexpected: 0, flaky: 1, skipped: 0 },
        errors: [{ message: 'no browser' }],
      }),
    )
    expect(browserReportIn(file)).toEqual({
      passed: 1,
      failed: 2,
      skipped: 0,
      troubles: ['a.spec.ts › in › B', 'Outside any test: no browser'],
    })
  })

  it('REPORT-4: a step that left no report has none', () => {
    expect(unitReportIn(path.join(tempFolder(), 'none.json'))).toBeNull()
    expect(browserReportIn(path.join(tempFolder(), 'none.json'))).toBeNull()
  })
})
