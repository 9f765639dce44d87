import { ledgerAndViews } from './0001-ledger-and-views.ts'
import { parts } from './0002-parts.ts'
import type { Migration } from './migration.ts'

export type { Migration } from './migration.ts'

/** All migrations in order; the version of a file is the number of the last one it has. */
export const migrations: readonly Migration[] = [ledgerAndViews, parts]
