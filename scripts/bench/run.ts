import { readdirSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import type { Bench, Measured } from './measure.ts'

/** `npm run bench [name …]`: runs the benchmarks of this folder and prints one table. */
const folder = fileURLToPath(new URL('.', import.meta.url))
const notBenches = new Set(['run.ts', 'measure.ts'])

function isBench(value: unknown): value is Bench {
  return typeof value === 'function'
}

const wanted = process.argv.slice(2)
const files = readdirSync(folder)
  .filter((file) => file.endsWith('.ts') && !notBenches.has(file))
  .filter((file) => wanted.length === 0 || wanted.some((name) => file.startsWith(name)))
  .sort()

const rows: Measured[] = []
let broken = 0
for (const file of files) {
  process.stderr.write(`${file} …\n`)
  try {
    const { default: bench } = (await import(`./${file}`)) as { default: unknown }
    if (!isBench(bench)) throw new Error(`${file} has no function as its default export.`)
    rows.push(...(await bench()))
  } catch (cause) {
    broken += 1
    process.stderr.write(`${file} failed: ${cause instanceof Error ? cause.stack : String(cause)}\n`)
  }
}

const rounded = (value: number | null) => (value === null ? '–' : Number(value.toPrecision(3)).toString())
const words = { true: 'met', false: 'NOT MET', null: '–' }
const table = [
  ['what', 'measured', 'unit', 'yardstick', 'ratio', 'goal', 'goal met'],
  ...rows.map(({ name, measured, unit, yardstick, ratio, goal, met }) => [
    name,
    rounded(measured),
    unit,
    rounded(yardstick),
    rounded(ratio),
    goal,
    words[`${met}`],
  ]),
]
const widths = table[0]!.map((_, column) => Math.max(...table.map((row) => row[column]!.length)))
for (const row of table) {
  process.stdout.write(
    `${row
      .map((cell, column) => cell.padEnd(widths[column]!))
      .join('  ')
      .trimEnd()}\n`,
  )
}
if (broken > 0 || rows.some(({ met }) => met === false)) process.exitCode = 1
