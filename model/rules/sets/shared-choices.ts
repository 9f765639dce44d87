import type { Choice } from '../rule-set.ts'
import {
  above,
  at,
  atLeast,
  atMost,
  britishGuidance,
  bs5385part3,
  bs8204part1,
  concreteGuidance,
  en1264,
  judgement,
  type Origin,
  rememberedEn13670,
  tilingBody,
  tradePractice,
  warrantyBody,
  wearingScreedSpec,
} from '../sources.ts'

export const frostOnset: Choice = {
  id: 'frostOnset',
  question: 'At what temperature does a young screed freeze?',
  default: 'zero',
  options: [
    { id: 'zero', label: '0 °C: the careful reading', limits: { 'frost.onsetC': above(0, '°C', judgement) } },
    {
      id: 'minusOne',
      label: '−1 °C: salts in the mixing water lower the freezing point',
      limits: {
        'frost.onsetC': above(-1, '°C', {
          source: 'Cold-weather concreting texts',
          provenance: 'from memory',
        }),
      },
    },
  ],
}

const olderTexts: Origin = { source: 'Older British cold-weather guidance', provenance: 'quoted second-hand' }

export const frostStrength: Choice = {
  id: 'frostStrength',
  question: 'From what strength does one frost do no harm?',
  default: 'five',
  options: [
    { id: 'five', label: '5 N/mm²', limits: { 'frost.strengthMPa': atLeast(5, 'N/mm²', rememberedEn13670) } },
    {
      id: 'threeAndAHalf',
      label: '3.5 N/mm², one cycle only',
      limits: { 'frost.strengthMPa': atLeast(3.5, 'N/mm²', at(concreteGuidance, 'one freezing cycle')) },
    },
    {
      id: 'two',
      label: '2 N/mm²: older texts, not advised',
      limits: { 'frost.strengthMPa': atLeast(2, 'N/mm²', olderTexts) },
    },
  ],
}

export const dryingBreak: Choice = {
  id: 'dryingBreak',
  question: 'Up to what thickness does a cement screed dry at one day per millimetre?',
  default: 'fifty',
  options: [
    {
      id: 'fifty',
      label: '50 mm, then two days per mm',
      limits: { 'drying.breakCementMm': atMost(50, 'mm', bs8204part1) },
    },
    {
      id: 'forty',
      label: '40 mm, then two days per mm',
      limits: { 'drying.breakCementMm': atMost(40, 'mm', bs5385part3) },
    },
  ],
}

const bandPractice: Origin = {
  source: 'BRE IP 11/84, random tests',
  edition: '1984',
  provenance: 'quoted second-hand',
}
const gridPractice: Origin = {
  source: 'BRE IP 11/84, grid tests',
  edition: '1984',
  provenance: 'quoted second-hand',
}
const table4 = at(bs8204part1, 'Table 4')

function soundnessOfBre(origin: Origin, a: number, b: number, c: number) {
  return {
    'soundness.A': atMost(a, 'mm', origin),
    'soundness.B': atMost(b, 'mm', origin),
    'soundness.C': atMost(c, 'mm', origin),
    'soundness.overAllowedMm': atMost(1, 'mm', origin),
    'soundness.overAllowedPercent': atMost(10, '%', origin),
  }
}

export const soundnessScheme: Choice = {
  id: 'soundnessScheme',
  question: 'Which limits hold for the drop-weight test?',
  default: 'table4',
  options: [
    {
      id: 'table4',
      label: 'BS 8204-1 Table 4: 3, 4, 5 mm; no reading may exceed',
      limits: {
        'soundness.A': atMost(3, 'mm', table4),
        'soundness.B': atMost(4, 'mm', table4),
        'soundness.C': atMost(5, 'mm', table4),
      },
    },
    {
      id: 'breRandom',
      label: 'The 1984 scheme, random tests: 2, 3, 4 mm',
      limits: soundnessOfBre(bandPractice, 2, 3, 4),
    },
    {
      id: 'breGrid',
      label: 'The 1984 scheme, grid tests: 3, 4, 5 mm',
      limits: soundnessOfBre(gridPractice, 3, 4, 5),
    },
  ],
}

export const soundnessSpacing: Choice = {
  id: 'soundnessSpacing',
  question: 'For what area are three soundness points needed?',
  default: 'twenty',
  options: [
    {
      id: 'twenty',
      label: 'each 20 m²',
      limits: { 'soundness.areaPerPointsM2': atMost(20, 'm²', at(bs8204part1, 'Annex D')) },
    },
    {
      id: 'twentyFive',
      label: 'each 25 m²',
      limits: { 'soundness.areaPerPointsM2': atMost(25, 'm²', at(bs8204part1, 'Annex D')) },
    },
  ],
}

export function footTraffic(
  options: readonly (readonly [id: string, label: string, days: number, origin: Origin])[],
  first: string,
): Choice {
  return {
    id: 'footTraffic',
    question: 'From which day may people walk on the screed?',
    default: first,
    options: options.map(([id, label, days, origin]) => ({
      id,
      label,
      limits: { 'traffic.footDays': atLeast(days, 'days', origin) },
    })),
  }
}

export const tradeFoot: readonly [string, string, number, Origin] = [
  'two',
  '2 days: trade practice, light foot traffic with protection',
  2,
  tradePractice,
]

export const tileSide: Choice = {
  id: 'tileSide',
  question: 'How long may a side be under tiles on an unheated screed?',
  default: 'ten',
  options: [
    {
      id: 'ten',
      label: '10 m between joints',
      limits: { 'bay.tileUnheatedSideM': atMost(10, 'm', tilingBody) },
    },
    {
      id: 'eight',
      label: '8 m, as for a heated screed',
      limits: { 'bay.tileUnheatedSideM': atMost(8, 'm', at(tilingBody, 'tiled field')) },
    },
  ],
}

export const inducerDepth: Choice = {
  id: 'inducerDepth',
  question: 'How deep must a crack inducer be cut?',
  default: 'quarter',
  options: [
    {
      id: 'quarter',
      label: 'a quarter of the thickness',
      limits: { 'bay.inducerDepthPercent': atLeast(25, '% of thickness', judgement) },
    },
    {
      id: 'half',
      label: 'half the thickness: a specification of wearing screeds',
      limits: { 'bay.inducerDepthPercent': atLeast(50, '% of thickness', wearingScreedSpec) },
    },
  ],
}

export const levelGrid: Choice = {
  id: 'levelGrid',
  question: 'How far apart are levels taken?',
  default: 'three',
  options: [
    {
      id: 'three',
      label: '3 m: learned-society guidance',
      limits: { 'level.gridM': atMost(3, 'm', britishGuidance) },
    },
    { id: 'two', label: '2 m: trade practice', limits: { 'level.gridM': atMost(2, 'm', tradePractice) } },
  ],
}

export const surfaceInUse: Choice = {
  id: 'surfaceInUse',
  question: 'How warm may a heated floor be in use?',
  default: 'en1264',
  options: [
    {
      id: 'en1264',
      label: '29 °C: EN 1264',
      limits: { 'heat.surfaceMostC': atMost(29, '°C', en1264) },
    },
    {
      id: 'tiled',
      label: '27 °C where tiled: a warranty body',
      limits: { 'heat.surfaceMostC': atMost(27, '°C', warrantyBody) },
    },
  ],
}
