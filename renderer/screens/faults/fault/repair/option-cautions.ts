import type { RepairOptionId } from '#model/faults/words.ts'
import type { CautionId } from '../../../../app/words/cautions.ts'

/** The dangers of each repair, said before it is begun. */
export const optionCautions: Readonly<Record<RepairOptionId, readonly CautionId[]>> = {
  leave: [],
  'remove skin': ['silica', 'resin'],
  fill: ['silica', 'resin'],
  consolidate: ['silica', 'resin'],
  patch: ['silica', 'breakOut', 'wetCement'],
  replace: ['silica', 'breakOut', 'wetCement'],
  'turn into joint': ['silica', 'pipes'],
}
