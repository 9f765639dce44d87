import type { Provenance } from '#model/rules/index.ts'

/** One expected value from outside the project, with where it was read and how near the calculation must come. */
export interface PublishedRow<Input = unknown> {
  name: string
  input: Input
  expected: number
  /** Largest allowed |calculated − expected|, in the unit of the table. */
  tolerance: number
  /** Why the tolerance is what it is. */
  reason: string
  source: string
  edition?: string
  clause?: string
  provenance: Provenance
}

/** A table of expected values and the calculation that must meet them. Each module in this folder that ends in `.table.ts` exports one by default. */
export interface PublishedTable<Input = unknown> {
  title: string
  unit: string
  calculate: (input: Input) => number
  rows: readonly PublishedRow<Input>[]
}

/** Checks the types of a table and forgets its input type, so that tables of different inputs can stand in one list. */
export function publishedTable<Input>(table: PublishedTable<Input>): PublishedTable {
  return table as unknown as PublishedTable
}
