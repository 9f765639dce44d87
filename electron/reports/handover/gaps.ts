import { completenessOf, requirements } from '#model/audit/completeness/index.ts'
import { standsAgainstRelease } from '#model/hold/index.ts'
import { holdPoints } from '#model/record/people.ts'
import { photoTags } from '#model/record/photos.ts'
import type { BayFile } from './bay-file.ts'
import { circuitPlansOf } from './shown-photos.ts'

/** Something that the record of a bay does not hold, or that stands open. */
export interface Gap {
  what: string
  state: 'not met' | 'not known' | 'open' | 'not yet'
  because: string
  /** Set when a non-conformance or a waiver answers it. */
  answered: string | null
}

/** Returns what is missing of a bay, what is not met first: requirements on the record, the plan of the heating, then hold points nobody let go. */
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
  return [...missing, ...circuitPlanGap(facts), ...held]
}

/** Whoever drills, cuts or looks for a leak later needs to know where the pipes lie. */
function circuitPlanGap({ story, life }: BayFile['facts']): Gap[] {
  if (!story.zone.body.heated || circuitPlansOf(story).length > 0) return []
  const gap = { what: 'Circuit plan of the heating', answered: null }
  return life.startedAt === null
    ? [{ ...gap, state: 'not yet', because: 'No drawing or photo is kept as the circuit plan yet.' }]
    : [
        {
          ...gap,
          state: 'not known',
          because: `Not in the record: where the pipes lie is not known. Add a drawing or photo to the bay or to the pressure test of its pipes, kept for “${photoTags['circuit plan']}”.`,
        },
      ]
}
