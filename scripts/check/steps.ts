import { root } from '../root.ts'
import { browserReportIn, type Report, unitReportIn } from './report.ts'

export interface Step {
  heading: string
  /** Path under node_modules of the program, or a file of ours, and its words. */
  program: string
  words: readonly string[]
  /** Where its own report of tests lies; removed before the step runs. */
  report: { file: string; read: (file: string) => Report | null } | null
  /** Useless when an earlier step of this heading failed. */
  needs?: string
}

const results = `${root}test-results`
const vitest = 'node_modules/vitest/vitest.mjs'

function unitStep(heading: string, name: string, words: readonly string[]): Step {
  const reporters = ['--reporter=default', '--reporter=./scripts/check/counting-reporter.ts']
  return {
    heading,
    program: vitest,
    words: ['run', '--config', 'scripts/config/vitest.config.ts', ...reporters, ...words],
    report: { file: `${results}/${name}.json`, read: unitReportIn },
  }
}

/** What `npm test` runs, in order: what fails fastest and tells most comes first. */
export const steps: readonly Step[] = [
  {
    heading: 'Lint',
    program: 'node_modules/@biomejs/biome/bin/biome',
    words: ['check', '--config-path=scripts/config/lint.json', '.'],
    report: null,
  },
  unitStep('Boundaries', 'boundaries', ['tests/boundaries.test.ts']),
  { heading: 'Types', program: 'node_modules/typescript/bin/tsc', words: ['--noEmit'], report: null },
  unitStep('Unit', 'unit', ['--exclude', 'tests/boundaries.test.ts']),
  { heading: 'Build', program: 'scripts/build.ts', words: [], report: null },
  {
    heading: 'End to end',
    program: 'node_modules/@playwright/test/cli.js',
    words: ['test', '--config', 'scripts/config/playwright.config.ts'],
    report: { file: `${results}/e2e.json`, read: browserReportIn },
    needs: 'Build',
  },
]
