import { existsSync, readFileSync } from 'node:fs'
import { z } from 'zod'

/** What became of the tests of one step: how many, and in words what went wrong. */
export interface Report {
  passed: number
  failed: number
  skipped: number
  troubles: string[]
}

export function sum(all: readonly Report[]): Report {
  return all.reduce(
    (so, one) => ({
      passed: so.passed + one.passed,
      failed: so.failed + one.failed,
      skipped: so.skipped + one.skipped,
      troubles: [...so.troubles, ...one.troubles],
    }),
    { passed: 0, failed: 0, skipped: 0, troubles: [] },
  )
}

const unitReport = z.object({
  passed: z.number(),
  failed: z.number(),
  skipped: z.number(),
  troubles: z.array(z.string()),
})

/** Returns the report of the unit tests; null when none was written. */
export function unitReportIn(file: string): Report | null {
  return existsSync(file) ? unitReport.parse(JSON.parse(readFileSync(file, 'utf8'))) : null
}

interface Suite {
  title: string
  specs?: { title: string; tests: { status: string }[] }[] | undefined
  suites?: Suite[] | undefined
}
const suite: z.ZodType<Suite> = z.lazy(() =>
  z.object({
    title: z.string(),
    specs: z
      .array(
        z.object({
          title: z.string(),
          tests: z.array(z.object({ status: z.string() })),
        }),
      )
      .optional(),
    suites: z.array(suite).optional(),
  }),
)
const browserReport = z.object({
  suites: z.array(suite),
  stats: z.object({ expected: z.number(), unexpected: z.number(), flaky: z.number(), skipped: z.number() }),
  errors: z.array(z.object({ message: z.string().optional() })),
})

/** Returns the report of the browser tests; null when none was written. What passed only at a second try has failed. */
export function browserReportIn(file: string): Report | null {
  if (!existsSync(file)) return null
  const { suites, stats, errors } = browserReport.parse(JSON.parse(readFileSync(file, 'utf8')))
  return {
    passed: stats.expected,
    failed: stats.unexpected + stats.flaky + errors.length,
    skipped: stats.skipped,
    troubles: [
      ...suites.flatMap((one) => troublesIn(one, [])),
      ...errors.map(({ message }) => `Outside any test: ${message ?? 'an error without words'}`),
    ],
  }
}

function troublesIn({ title, specs = [], suites = [] }: Suite, above: readonly string[]): string[] {
  const path = title === '' ? above : [...above, title]
  const bad = (status: string) => status === 'unexpected' || status === 'flaky'
  return [
    ...specs
      .filter(({ tests }) => tests.some(({ status }) => bad(status)))
      .map((spec) => [...path, spec.title].join(' › ')),
    ...suites.flatMap((one) => troublesIn(one, path)),
  ]
}
