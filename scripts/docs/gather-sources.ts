import { readdirSync, readFileSync } from 'node:fs'
import { heatingPlans } from '#model/checks/index.ts'
import { READING_SD } from '#model/drying/forecast/readings.ts'
import { materials } from '#model/drying/index.ts'
import { commonRules, type Limit, limitText } from '#model/rules/index.ts'
import { ruleSets } from '#model/rules/sets/index.ts'
import * as origins from '#model/rules/sources.ts'
import { root } from '#scripts/root.ts'
import { loadTables } from '#tests/published/load.ts'

/** One thing taken from a source, and the place that uses it. */
export interface Use {
  source: string
  edition: string
  provenance: string
  taken: string
  where: string
}

/** Everything in the code that says where it comes from: limits, constants of materials, check values, formulas. */
export async function gatherUses(): Promise<Use[]> {
  return [...namedOrigins(), ...limits(), ...plans(), ...constants(), ...(await checkValues()), ...formulas()]
}

/** Names that stand ready for limits; a row without anything taken says that nothing is taken at present. */
export function namedOrigins(): Use[] {
  return Object.values(origins)
    .filter((value): value is origins.Origin => typeof value === 'object' && 'provenance' in value)
    .map(({ source, edition = '', provenance }) => ({ source, edition, provenance, taken: '', where: '' }))
}

function limits(): Use[] {
  const uses: Use[] = []
  const add = (id: string, limit: Limit, where: string) => {
    const { source, edition = '', clause, provenance } = limit
    const taken = `${id} ${limitText(limit)}${clause === undefined ? '' : ` (${clause})`}`
    uses.push({ source, edition, provenance, taken, where })
  }
  for (const [id, { limit }] of Object.entries(commonRules)) add(id, limit, 'every rule set')
  for (const { name, limits: own, moisture, choices } of Object.values(ruleSets)) {
    const where = `${name} rules`
    for (const [id, limit] of Object.entries(own)) add(id, limit, where)
    for (const { id, limit } of moisture) add(id, limit, where)
    for (const { id: choice, options } of choices)
      for (const option of options)
        for (const [id, limit] of Object.entries<Limit>(option.limits as Record<string, Limit>))
          add(id, limit, `${where}, choice ${choice}: ${option.id}`)
  }
  return uses
}

function plans(): Use[] {
  return Object.values(heatingPlans).map(({ name, origin: { source, edition = '', provenance } }) => ({
    source,
    edition,
    provenance,
    taken: `heating plan: ${name}`,
    where: 'check of the heating log',
  }))
}

function constants(): Use[] {
  const readings = Object.entries(READING_SD).map(([method, { value, unit, source, provenance }]) => ({
    source,
    edition: '',
    provenance,
    taken: `one standard deviation of a reading, ${method}: ${value} ${unit}`,
    where: 'forecast',
  }))
  return [...readings, ...materialConstants()]
}

function materialConstants(): Use[] {
  const { cementSandScreed, denseConcrete, calciumSulfateScreed } = materials
  return [cementSandScreed, denseConcrete, calciumSulfateScreed].flatMap(({ name, constants: own }) =>
    Object.entries(own).map(([id, { value, unit, source, provenance }]) => ({
      source,
      edition: '',
      provenance,
      taken: `${id} ${Number(value.toPrecision(3))} ${unit === '-' ? '' : unit}`.trim(),
      where: `drying of ${name.charAt(0).toLowerCase()}${name.slice(1)}`,
    })),
  )
}

async function checkValues(): Promise<Use[]> {
  const tables = await loadTables()
  return tables.flatMap(({ title, rows }) => {
    const counts = new Map<string, Use & { count: number }>()
    for (const { source, edition = '', provenance } of rows) {
      const key = [source, edition, provenance].join('|')
      const use = counts.get(key)
      if (use === undefined)
        counts.set(key, { source, edition, provenance, taken: '', where: 'npm run accuracy', count: 1 })
      else use.count += 1
    }
    return [...counts.values()].map(({ count, ...use }) => ({
      ...use,
      taken: `${count} check value${count === 1 ? '' : 's'}: ${title}`,
    }))
  })
}

const rooms = ['model', 'db', 'electron', 'renderer']
const docBlock =
  /\/\*\*([\s\S]*?)\*\/\s*(?:export\s+)?(?:async\s+)?(?:function\*?|const|interface|type|class)?\s*(\w+)?/g

/** The docstrings that name a source: formulas, formats, methods. */
function formulas(): Use[] {
  return rooms.flatMap((room) =>
    readdirSync(`${root}${room}`, { recursive: true, encoding: 'utf8' })
      .filter((file) => /\.tsx?$/.test(file))
      .sort()
      .flatMap((file) => formulasIn(`${room}/${file.replaceAll('\\', '/')}`)),
  )
}

function formulasIn(file: string): Use[] {
  return [...readFileSync(`${root}${file}`, 'utf8').matchAll(docBlock)].flatMap(
    ([, block = '', name = '']) => {
      const source = tagOf(block, 'source')
      if (source === null) return []
      const provenance = tagOf(block, 'provenance') ?? 'as its parts say'
      return [{ source, edition: '', provenance, taken: name === '' ? 'the method' : name, where: file }]
    },
  )
}

/** The text of a tag, its next lines included, up to the next tag. */
function tagOf(block: string, tag: string): string | null {
  const text = block
    .split('\n')
    .map((line) => line.replace(/^\s*\*? ?/, ''))
    .join(' ')
  const found = new RegExp(`@${tag}\\s+(.*?)(?=\\s@\\w+|$)`).exec(text)?.[1]
  return found === undefined ? null : found.replaceAll(/\s+/g, ' ').trim().replace(/\.$/, '')
}
