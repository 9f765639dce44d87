/** Prints how near every calculation comes to the values published for it. Exit code 1 when a row is outside its tolerance. */
import { loadTables } from '#tests/published/load.ts'
import { measureTable } from '#tests/published/measure.ts'

const tables = (await loadTables()).map(measureTable)
const number = (value: number) => (value === 0 ? '0' : value.toPrecision(3))

console.log(`${'table'.padEnd(58)} rows      mean       90 %       max  unit`)
for (const { title, unit, rows, mean, p90, max, failed } of tables) {
  const numbers = [mean, p90, max].map((value) => number(value).padStart(10)).join(' ')
  const mark = failed === 0 ? '' : `   ${failed} outside tolerance`
  console.log(`${title.slice(0, 58).padEnd(58)} ${String(rows.length).padStart(4)}${numbers}  ${unit}${mark}`)
}
const failed = tables.reduce((sum, table) => sum + table.failed, 0)
const rows = tables.reduce((sum, table) => sum + table.rows.length, 0)
console.log(`\n${rows} rows in ${tables.length} tables; ${failed} outside their tolerance.`)
process.exitCode = failed === 0 ? 0 : 1
