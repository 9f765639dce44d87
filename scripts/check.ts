import { spawnSync } from 'node:child_process'
import { rmSync } from 'node:fs'
import { type Counts, sum } from './check/counts.ts'
import { type Step, steps } from './check/steps.ts'
import { root } from './root.ts'

/** `npm test`: every check, one after the other; the last line counts the tests of all of them. */
const say = (line: string) => process.stdout.write(`${line}\n`)

interface Outcome {
  heading: string
  failed: boolean
  counts: Counts | null
}

function run({ heading, program, words, report }: Step): Outcome {
  say(`\n━━ ${heading} ━━`)
  if (report !== null) rmSync(report.file, { force: true })
  const startedAt = performance.now()
  const { status } = spawnSync(process.execPath, [program, ...words], {
    cwd: root,
    stdio: ['ignore', 'inherit', 'inherit'],
  })
  const seconds = ((performance.now() - startedAt) / 1000).toFixed(1)
  const counts = report?.counts(report.file) ?? null
  const failed = status !== 0 || (counts !== null && (counts.failed > 0 || counts.passed === 0))
  say(`${heading}: ${failed ? 'FAILED' : 'passed'} in ${seconds} s`)
  return { heading, failed, counts }
}

const outcomes: Outcome[] = []
for (const step of steps) {
  const broken = outcomes.some(({ heading, failed }) => failed && heading === step.needs)
  if (broken) {
    say(`\n━━ ${step.heading} ━━\n${step.heading}: FAILED, because ${step.needs} failed`)
    outcomes.push({ heading: step.heading, failed: true, counts: null })
  } else outcomes.push(run(step))
}

const failures = outcomes.filter(({ failed }) => failed).map(({ heading }) => heading)
say(failures.length === 0 ? '\nAll steps passed.' : `\nFailed: ${failures.join(', ')}.`)
const { passed, failed, skipped } = sum(outcomes.flatMap(({ counts }) => counts ?? []))
say(`${passed} passed, ${failed} failed, ${skipped} skipped`)
process.exitCode = failures.length === 0 ? 0 : 1
