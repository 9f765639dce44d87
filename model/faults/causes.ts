import type { SymptomCode } from '../record/words.ts'

/** What can make a screed weak, cracked or dusty. Code → words. */
export const causes = {
  LEAN: 'Too little cement (lean batch)',
  MIXING: 'Uneven mixing (streaks, balls)',
  WET: 'Too much water',
  DRY: 'Mix too dry to compact/hydrate',
  FINES: 'Sand too fine / silty / dirty',
  COMPACT: 'Under-compacted lower part',
  OLD: 'Laid or re-wetted after set began',
  FROST: 'Frozen before frost-safe strength',
  CURE: 'Curing missing/late/short',
  FASTDRY: 'Wind/sun/heat drying in first hours',
  LAITANCE: 'Over-trowelled / weak skin',
  CARBON: 'Unflued heater fumes (carbonated skin)',
  THIN: 'Too thin / low cover over pipe',
  BAY: 'Bay size, shape or missing inducer',
  BASEJT: 'Base joint/crack coming through',
  EDGE: 'Edge strip missing/bridged',
  HEAT: 'Heating too early/fast or uneven zones',
  BOND: 'Poor base preparation (bonded)',
  SUPPORT: 'Soft/uneven insulation or void below',
  LOAD: 'Early or point/wheel loading',
  REWET: 'Leak / re-wetting / rising moisture',
  ALIEN: 'Foreign matter in mix',
} as const
export type CauseCode = keyof typeof causes
export const causeCodes = Object.keys(causes) as CauseCode[]

/** How strongly a symptom points at a cause, 0 (not at all) to 5 (typical). */
export type Points = 0 | 1 | 2 | 3 | 4 | 5

/**
 * Symptom × cause: our judgement, not statistics; a firm should tune it after twenty or thirty proven cases.
 * What is not listed is 0.
 */
export const symptomPoints: Record<CauseCode, Partial<Record<SymptomCode, Points>>> = {
  LEAN: { S01: 2, S02: 5, S03: 1, S04: 1, S10: 1, S12: 3, S15: 1, S16: 1, S17: 5 },
  MIXING: { S01: 1, S02: 4, S03: 2, S12: 2, S13: 4, S17: 5 },
  WET: { S01: 3, S02: 2, S04: 3, S05: 2, S06: 3, S07: 1, S08: 2, S09: 2, S10: 3, S11: 2, S14: 3, S17: 3 },
  DRY: { S01: 1, S02: 4, S03: 4, S12: 2, S16: 1, S17: 3 },
  FINES: { S01: 3, S02: 3, S04: 3, S05: 2, S06: 2, S09: 1, S10: 2, S13: 3, S14: 1, S17: 1 },
  COMPACT: { S02: 3, S03: 5, S08: 2, S12: 3, S13: 1, S15: 2, S16: 3 },
  OLD: { S01: 1, S02: 4, S03: 2, S11: 2, S12: 1, S17: 3 },
  FROST: { S01: 3, S02: 4, S03: 1, S11: 1, S12: 2, S13: 2 },
  CURE: { S01: 5, S02: 2, S04: 4, S05: 4, S06: 3, S07: 1, S08: 2, S09: 2, S10: 4, S11: 3, S12: 3, S14: 1 },
  FASTDRY: { S01: 4, S04: 4, S05: 5, S06: 1, S10: 3, S11: 2 },
  LAITANCE: { S01: 4, S04: 4 },
  CARBON: { S01: 3 },
  THIN: { S05: 1, S06: 2, S07: 2, S08: 5, S09: 1, S10: 3, S11: 2, S12: 2, S15: 4, S16: 2 },
  BAY: { S06: 5, S07: 5, S08: 1, S09: 5, S10: 2 },
  BASEJT: { S06: 4, S07: 2 },
  EDGE: { S06: 2, S07: 2, S09: 4, S15: 1 },
  HEAT: { S04: 2, S06: 3, S07: 4, S08: 4, S09: 3, S10: 3, S11: 2 },
  BOND: { S10: 1, S11: 5 },
  SUPPORT: { S03: 2, S06: 2, S08: 1, S10: 2, S12: 1, S15: 5, S16: 3 },
  LOAD: { S06: 1, S07: 1, S12: 5, S13: 1, S15: 4, S16: 5 },
  REWET: { S01: 1, S11: 1, S14: 5 },
  ALIEN: { S02: 1, S13: 5, S14: 1 },
}
