import { readdir } from 'node:fs/promises'
import type { PublishedTable } from './table.ts'

const here = new URL('.', import.meta.url)

/** Returns every `*.table.ts` of this folder, in order of name. */
export async function loadTables(): Promise<PublishedTable[]> {
  const names = (await readdir(here)).filter((name) => name.endsWith('.table.ts')).sort()
  if (names.length === 0) throw new Error('No published tables were found, so nothing was checked.')
  return Promise.all(
    names.map(async (name) => {
      const module = (await import(new URL(name, here).href)) as { default?: PublishedTable }
      if (module.default === undefined) throw new Error(`${name} has no default export.`)
      return module.default
    }),
  )
}
