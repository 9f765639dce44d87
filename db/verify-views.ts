import { canonicalJson } from './canonical.ts'
import type { Sqlite } from './handles.ts'
import { viewTables } from './views/project-entry.ts'

type Row = Record<string, string | number | null>

/** The first row in which a present view differs from the freshly replayed one, in words; null when none does. */
export function firstViewDifference(present: Sqlite, fresh: Sqlite): string | null {
  for (const table of [...viewTables].reverse()) {
    const difference = tableDifference(table, present, fresh)
    if (difference !== null) return difference
  }
  return null
}

function tableDifference(table: string, present: Sqlite, fresh: Sqlite): string | null {
  const key = (fresh.pragma(`table_info(${table})`) as { name: string; pk: number }[]).find(
    (one) => one.pk === 1,
  )!.name
  const sql = `select * from ${table} order by ${key}`
  const found = present.prepare<[], Row>(sql).iterate()
  const meant = fresh.prepare<[], Row>(sql).iterate()
  try {
    for (;;) {
      const a = found.next()
      const b = meant.next()
      if (a.done === true && b.done === true) return null
      if (a.done !== true && b.done !== true) {
        const words = rowDifference(table, key, a.value, b.value)
        if (words !== null) return words
        continue
      }
      const extra = a.done === true ? b.value : a.value
      const which = a.done === true ? 'lacks' : 'holds, without an entry for it,'
      return `The view "${table}" ${which} ${String(extra[key])}.`
    }
  } finally {
    found.return?.()
    meant.return?.()
  }
}

function rowDifference(table: string, key: string, found: Row, meant: Row): string | null {
  if (found[key] !== meant[key]) {
    return `The view "${table}" has ${String(found[key])} where the ledger gives ${String(meant[key])}.`
  }
  const column = Object.keys(meant).find(
    (name) => !(name in found) || canonicalJson(found[name]) !== canonicalJson(meant[name]),
  )
  if (column === undefined) return null
  return `The view "${table}" says ${column} = ${String(found[column])} for ${String(meant[key])}; the ledger gives ${String(meant[column])}.`
}
