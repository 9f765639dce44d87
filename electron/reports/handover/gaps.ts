import { completenessOf, requirements } from '#model/audit/completeness/index.ts'
import { standsAgainstRelease } from '#model/hold/index.ts'
import { holdPoints } from '#model/record/people.ts'
import type { BayFile } from './bay-file.ts'

/** Something that the record of a bay does not hold, or that stands open. */
export interface Gap {
  what: string
  state: 'not met' | 'not known' | 'open' | 'not yet'
  because: string
  /** Set when a non-conformance or a waiver answers it. */
  answered: string | null
}

/** Returns what is missing of a bay, what is not met first: requirements on the record, then hold points nobody let go. */
export function gapsOf({ facts, alerts, chain }: Pick<BayFile, 'facts' | 'alerts' | 'chain'>): Gap[] {
  const { answers, failing } = completenessOf({ facts, alerts })
  const missing = failing.flatMap((id): Gap[] => {
    const answer = answers.find((one) => one.id === id)
    const requirement = requirements.find((one) => one.id === id)
    if (answer === undefined || requirement === undefined) return []
    const state = answer.notYet ? 'not yet' : answer.state === 'not met' ? 'not met' : 'not known'
    const answered = answer.answered === null ? null : 'answered by a closed non-conformance'
    return [{ what: `${id} ${requirement.title}`, state, because: answer.because, answered }]
  })
  const held = standsAgainstRelease(chain).map(
    ({ point, state, because }): Gap => ({
      what: `Hold point: ${holdPoints[point].toLowerCase()}`,
      state: state === 'not yet due' ? 'not yet' : 'open',
      because,
      answered: null,
    }),
  )
  return [...missing, ...held]
}
