import type { Provenance } from './rules/limit.ts'

/** The answer to "why?" of one number shown to a person. */
export interface Why {
  what: string
  value: number | string | null
  unit: string
  inputs: { name: string; value: number | string | null; unit: string }[]
  /** In words or in the symbols of the source. */
  formula: string
  source: string
  provenance: Provenance
}
