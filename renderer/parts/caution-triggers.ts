import type { KindName } from '#model/record/kinds.ts'
import type { CautionId } from '../app/words/cautions.ts'
import type { DraftValues } from './entry-form/draft.ts'

const always: { [K in KindName]?: readonly CautionId[] } = {
  'batch-mixed': ['wetCement', 'dust'],
  'lift-laid': ['wetCement', 'kneeling'],
  'bay-finished': ['wetCement'],
  'material-delivered': ['loads'],
  'sheet-on': ['slips'],
  'sheet-off': ['slips'],
}

/** The cautions that the work behind this entry calls for, given what has been answered so far. */
export function cautionsFor(kind: KindName, values: DraftValues): readonly CautionId[] {
  switch (kind) {
    case 'joint-formed':
      return ['silica', 'pipes']
    case 'moisture-read':
      return values.method === 'probe' || values.method === 'carbide' || values.method === 'oven dry'
        ? ['pipes', 'silica']
        : []
    case 'surface-tested':
      return values.method === 'pull-off' ? ['silica', 'resin'] : []
    case 'defect-closed':
      return values.how === 'repaired' ? ['resin', 'silica'] : []
    case 'pipes-pressure-tested':
      return values.medium === 'air' ? ['airPressure'] : []
    case 'protection-on': {
      if (values.what === 'flued heater' || values.what === 'unflued heater') return ['carbonMonoxide']
      return values.what === 'electric heater' || values.what === 'dehumidifier' ? ['electric'] : []
    }
    default:
      return always[kind] ?? []
  }
}
