import { causeWords } from './faults-causes.ts'
import { freezeWords } from './faults-freeze.ts'
import { pageWords } from './faults-page.ts'
import { repairWords } from './faults-repair.ts'
import { reportWords } from './faults-report.ts'
import { bands, movements, states, verdicts } from './faults-states.ts'
import { whyWords } from './faults-why.ts'

/** Words of faults: what is wrong, why, what to do about it. */
export const faultsWords = {
  title: 'Faults',
  lead: 'What is wrong, what the record says about why, and what can be done.',
  states,
  movements,
  bands,
  notPointedAt: 'Not pointed at',
  verdicts,
  ...reportWords,
  ...pageWords,
  ...causeWords,
  ...repairWords,
  ...freezeWords,
  ...whyWords,
} as const
