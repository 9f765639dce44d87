import { existsSync, readFileSync } from 'node:fs'
import { z } from 'zod'

export interface Counts {
  passed: number
  failed: number
  skipped: number
}

export const none: Counts = { passed: 0, failed: 0, skipped: 0 }

export function sum(all: readonly Counts[]): Counts {
  return all.reduce(
    (so, one) => ({
      passed: so.passed + one.passed,
      failed: so.failed + one.failed,
      skipped: so.skipped + one.skipped,
    }),
    none,
  )
}

const vitestReport = z.object({
  numPassedTests: z.number(),
  numFailedTests: z.number(),
  numPendingTests: z.number(),
  numTodoTests: z.number(),
  testResults: z.array(z.object({ status: z.string(), assertionResults: z.array(z.unknown()) })),
})

const playwrightReport = z.object({
  stats: z.object({ expected: z.number(), unexpected: z.number(), flaky: z.number(), skipped: z.number() }),
  errors: z.array(z.unknown()),
})

/** Returns the counts of a Vitest report. A file that could not even be loaded counts as one failed test. */
export function vitestCounts(file: string): Counts {
  if (!existsSync(file)) return none
  const report = vitestReport.parse(JSON.parse(readFileSync(file, 'utf8')))
  const unloaded = report.testResults.filter(
    ({ status, assertionResults }) => status === 'failed' && assertionResults.length === 0,
  ).length
  return {
    passed: report.numPassedTests,
    failed: report.numFailedTests + unloaded,
    skipped: report.numPendingTests + report.numTodoTests,
  }
}

/** Returns the counts of a Playwright report. A test that passed only at a second try has failed. */
export function playwrightCounts(file: string): Counts {
  if (!existsSync(file)) return none
  const { stats, errors } = playwrightReport.parse(JSON.parse(readFileSync(file, 'utf8')))
  return {
    passed: stats.expected,
    failed: stats.unexpected + stats.flaky + errors.length,
    skipped: stats.skipped,
  }
}
