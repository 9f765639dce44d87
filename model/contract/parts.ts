import type { BayId } from '../record/ids.ts'

/** How much of a project a record holds that got it in bundles of some bays. What is not held is not known here. */
export interface ProjectPart {
  held: { id: BayId; name: string }[]
  /** Bays of which only the plan is here, because others are judged beside them; what was recorded of them is not. */
  named: { id: BayId; name: string }[]
  /** How many bays the project had where the part was made; null when the part does not say. */
  ofBays: number | null
  /** Entries that are left out, of this project and of others in the record that the part comes from. */
  missingEntries: number
  /** What the part shows is as of then [ISO 8601]. */
  asOf: string
}
