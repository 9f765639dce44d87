import { getTableColumns, getTableName, is } from 'drizzle-orm'
import { SQLiteTable } from 'drizzle-orm/sqlite-core'
import { describe, expect, it } from 'vitest'
import * as schema from '#db/schema.ts'
import { openSite, temporaryFolder } from './site.ts'

describe('the typed tables', () => {
  it('SCH-1: they have the columns, types and needs that the migrations made', () => {
    const { folder, forget } = temporaryFolder()
    const open = openSite(folder)
    const tables = Object.values(schema).filter((one) => is(one, SQLiteTable))
    expect(tables.length).toBeGreaterThan(9)
    for (const table of tables) {
      const made = open.record.read.sqlite.pragma(`table_info(${getTableName(table)})`) as {
        name: string
        type: string
        notnull: number
        pk: number
      }[]
      const typed = Object.values(getTableColumns(table)).map((column) => ({
        name: column.name,
        type: column.getSQLType().toUpperCase(),
        needed: column.notNull,
      }))
      const onDisk = made.map(({ name, type, notnull, pk }) => ({
        name,
        type,
        needed: notnull === 1 || pk > 0,
      }))
      expect(typed, getTableName(table)).toEqual(onDisk)
    }
    open.close()
    forget()
  })

  it('SCH-2: every table is strict, so that a text never stands where a number is meant', () => {
    const { folder, forget } = temporaryFolder()
    const open = openSite(folder)
    const tables = open.record.read.sqlite.pragma('table_list') as {
      name: string
      strict: number
      schema: string
    }[]
    const ours = tables.filter((one) => one.schema === 'main' && !one.name.startsWith('sqlite_'))
    expect(ours.length).toBeGreaterThan(12)
    expect(ours.filter((one) => one.strict !== 1)).toEqual([])
    open.close()
    forget()
  })
})
