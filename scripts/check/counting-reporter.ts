import { mkdirSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import type { Reporter, SerializedError, TestModule } from 'vitest/node'
import { root } from '../root.ts'
import type { Report } from './report.ts'

/**
 * Writes down what became of every unit test, for the last lines of `npm test`. Stricter than a count of what failed: a
 * file that did not load, a test that never ended because its process died, and an error outside any test are failures.
 */
export default class CountingReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], errors: readonly SerializedError[]): void {
    const report = reportOf(modules, errors)
    const file = process.env.BAYLEDGER_TEST_REPORT ?? path.join(root, 'test-results', 'unit.json')
    mkdirSync(path.dirname(file), { recursive: true })
    writeFileSync(file, JSON.stringify(report, null, 2))
  }
}

/** What a test came to that did not pass. */
const endings = { failed: 'failed', pending: 'never ended', skipped: 'was not run' }

function reportOf(modules: readonly TestModule[], errors: readonly SerializedError[]): Report {
  const report: Report = { passed: 0, failed: 0, skipped: 0, troubles: [] }
  const trouble = (text: string) => {
    report.failed += 1
    report.troubles.push(text)
  }
  for (const module of modules) {
    const failedBefore = report.failed
    for (const test of module.children.allTests()) {
      const { state } = test.result()
      if (state === 'passed') report.passed += 1
      else if (state === 'skipped' && test.options.mode === 'skip') report.skipped += 1
      else trouble(`${module.relativeModuleId} › ${test.fullName}: ${endings[state]}`)
    }
    const ended = module.state() === 'passed' || module.state() === 'skipped'
    if (!ended && report.failed === failedBefore)
      trouble(`${module.relativeModuleId}: failed outside its tests`)
  }
  for (const { name, message } of errors) trouble(`Outside any test: ${name ?? 'Error'}: ${message}`)
  return report
}
