import { InputError } from '#model/errors.ts'
import { answerTo, type Nonconformance, nonconformancesOf } from '../nonconformances.ts'
import { type Release, releaseOf } from '../release.ts'
import { agreed } from './agreed.ts'
import { care } from './care.ts'
import { closing } from './closing.ts'
import { heatingLogged } from './heating.ts'
import { laying } from './laying.ts'
import {
  type AuditFacts,
  type Finding,
  notKnown,
  type Requirement,
  type RequirementId,
} from './requirement.ts'
import { tests } from './tests.ts'

/** What the record of a bay must hold, in the order of the job. */
export const requirements: readonly Requirement[] = [
  agreed,
  ...laying,
  ...care,
  heatingLogged,
  ...tests,
  ...closing,
]

/** One requirement on one bay: what was found, and what answers it when it is not met. */
export interface Answer extends Finding {
  id: RequirementId
  /** A non-conformance that names this requirement and was closed by somebody else. */
  answered: Nonconformance | null
}

export interface Completeness {
  answers: Answer[]
  met: number
  /** All but those that do not apply. */
  applicable: number
  /** Not met first, then not known, then what waits for its time. */
  failing: RequirementId[]
  /** All met, or each gap answered with a reason by two people, or a waiver by name; else not. */
  release: 'complete' | 'complete with reasons' | 'waived' | 'not complete'
  released: Release | null
}

/**
 * Returns what the record of a bay holds of what it must hold. The share of what is met only sorts; a bay is complete when
 * every requirement that applies is met, or answered with a reason.
 * @provenance our judgement; each requirement names its own source
 */
export function completenessOf(audit: AuditFacts): Completeness {
  const { story } = audit.facts
  const nonconformances = nonconformancesOf(story)
  const answers = requirements.map((requirement): Answer => {
    const found = settled(audit, judged(requirement, audit))
    const open = found.state === 'not met' || found.state === 'not known'
    const answered = open && requirement.mayBeAnswered ? answerTo(requirement.id, nonconformances) : null
    return { id: requirement.id, ...found, answered }
  })
  const applicable = answers.filter(({ state }) => state !== 'does not apply')
  const open = applicable.filter(({ state }) => state !== 'met')
  const released = releaseOf(story)
  return {
    answers,
    met: applicable.length - open.length,
    applicable: applicable.length,
    failing: open.toSorted((a, b) => weight(a) - weight(b)).map(({ id }) => id),
    release: releaseState(open, released),
    released,
  }
}

function releaseState(open: readonly Answer[], released: Release | null): Completeness['release'] {
  if (open.length === 0) return 'complete'
  if (open.every(({ answered }) => answered !== null)) return 'complete with reasons'
  return released?.how === 'waived' ? 'waived' : 'not complete'
}

function weight({ state, notYet, answered }: Answer): number {
  const base = state === 'not met' ? 0 : notYet ? 2 : 1
  return answered === null ? base : 3
}

/** A fact that no check can use leaves the requirement unknown, and says which fact. */
function judged(requirement: Requirement, audit: AuditFacts): Finding {
  try {
    return requirement.find(audit)
  } catch (cause) {
    if (cause instanceof InputError) return notKnown(`It could not be judged: ${cause.message}`)
    throw cause
  }
}

/** Two corrections that stand side by side leave open which one is true; nothing that rests on them is met. */
function settled({ facts }: AuditFacts, found: Finding): Finding {
  if (found.state !== 'met') return found
  const torn = facts.story.entries.filter(({ id, conflict }) => conflict && found.entries.includes(id))
  return torn.length === 0
    ? found
    : notKnown(
        `Two corrections of the same fact stand side by side: settle first which one holds. ${found.because}`,
        torn.map(({ id }) => id),
      )
}

export * from './requirement.ts'
