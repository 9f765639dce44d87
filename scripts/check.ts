import { spawnSync } from 'node:child_process'
import { rmSync } from 'node:fs'
import { type Report, sum } from './check/report.ts'
import { type Step, steps } from './check/steps.ts'
import { root } from './root.ts'

/** `npm test`: every check, one after the other; the last line counts the tests of all of them. */
const say = (line: string) => process.stdout.write(`${line}\n`)

interface Outcome {
  heading: string
  failed: boolean
  report: Report | null
}

function run({ heading, program, words, report }: Step): Outcome {
  say(`\n━━ ${heading} ━━`)
  if (report !== null) rmSync(report.file, { force: true })
  const startedAt = performance.now()
  const { status } = spawnSync(process.execPath, [program, ...words], {
    cwd: root,
    stdio: ['ignore', 'inherit', 'inherit'],
    env: { ...process.env, BAYLEDGER_TEST_REPORT: report?.file },
  })
  const seconds = ((performance.now() - startedAt) / 1000).toFixed(1)
  const found = report?.read(report.file) ?? null
  const nothingRan = report !== null && (found === null || found.passed === 0)
  const failed = status !== 0 || nothingRan || (found?.failed ?? 0) > 0
  say(`${heading}: ${failed ? 'FAILED' : 'passed'} in ${seconds} s`)
  return { heading, failed, report: found }
}

const outcomes: Outcome[] = []
for (const step of steps) {
  const broken = outcomes.some(({ heading, failed }) => failed && heading === step.needs)
  if (broken) {
    say(`\n━━ ${step.heading} ━━\n${step.heading}: FAILED, because ${step.needs} failed`)
    outcomes.push({ heading: step.heading, failed: true, report: null })
  } else outcomes.push(run(step))
}

const failures = outcomes.filter(({ failed }) => failed).map(({ heading }) => heading)
const { passed, failed, skipped, troubles } = sum(outcomes.flatMap(({ report }) => report ?? []))
say(failures.length === 0 ? '\nAll steps passed.' : `\nFailed: ${failures.join(', ')}.`)
for (const trouble of troubles) say(`  ${trouble}`)
say(`${passed} passed, ${failed} failed, ${skipped} skipped`)
process.exitCode = failures.length === 0 ? 0 : 1
