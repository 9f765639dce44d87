import type { FaultPage } from '#model/contract/faults.ts'
import { type CauseCode, causes } from '#model/faults/causes.ts'
import type { BodyOf } from '#model/record/kinds.ts'
import { faultsWords } from '../../../app/words/faults.ts'

const words = faultsWords.name

/** What stands in the boxes while a cause is named. */
export interface NameDraft {
  cause: CauseCode | 'unknown' | ''
  further: readonly string[]
  treatedAs: string
  reason: string
  removed: 'yes' | 'no' | 'not known' | ''
}

export const emptyName: NameDraft = { cause: '', further: [], treatedAs: '', reason: '', removed: '' }

export type NameReading =
  | { kind: 'body'; body: BodyOf<'cause-named'> }
  | { kind: 'missing'; field: 'cause' | 'reason' | 'treatedAs'; sentence: string }

/** The entry as it will be written, with the ranking that was shown; or what is still missing for it. */
export function readName(draft: NameDraft, { fault, diagnosis }: FaultPage): NameReading {
  const [reason, treatedAs] = [draft.reason.trim(), draft.treatedAs.trim()]
  if (draft.cause === '') return { kind: 'missing', field: 'cause', sentence: words.needed }
  if (draft.cause === 'unknown' && treatedAs === '')
    return { kind: 'missing', field: 'treatedAs', sentence: words.treatedNeeded }
  if (reason === '') return { kind: 'missing', field: 'reason', sentence: words.reasonNeeded }
  const further = draft.further.filter((cause) => isCause(cause) && cause !== draft.cause) as CauseCode[]
  return {
    kind: 'body',
    body: {
      defects: fault.defects.map((defect) => ({ defect })),
      cause: draft.cause,
      ...(further.length === 0 ? {} : { furtherCauses: further.map((cause) => ({ cause })) }),
      ...(treatedAs === '' || draft.cause !== 'unknown' ? {} : { treatedAs }),
      reason,
      ...(draft.removed === '' ? {} : { causeRemoved: draft.removed }),
      weightsVersion: diagnosis.weightsVersion,
      recordStrengthPercent: diagnosis.recordStrengthPercent,
      shown: diagnosis.causes.map(({ id, probability, logOdds, hollow }) => ({
        cause: id,
        ...(probability === null ? {} : { probability }),
        logOdds,
        examined: !hollow,
      })),
    },
  }
}

const isCause = (code: string): code is CauseCode => Object.hasOwn(causes, code)
