import { keepsLimit } from '#model/rules/index.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'
import { shows } from '#model/watch/rule.ts'
import { beforeLaying } from '../completeness/requirement.ts'
import { massOfBay } from '../mass.ts'
import type { Question } from './question.ts'

/**
 * Asks when the mass that was laid differs from the mass that the volume takes by more than the tolerance.
 * @source mass = area · thickness · density; tolerance of the rules in force (12 %)
 * @provenance our judgement
 */
export function massQuestion(facts: BayFacts): Question[] {
  if (beforeLaying(facts) !== null) return []
  const mass = massOfBay(facts)
  if ('missing' in mass) return []
  const limit = facts.rules.limits['mix.massDifferencePercent']
  if (keepsLimit(Math.abs(mass.differencePercent), limit)) return []
  const short = mass.differencePercent < 0
  const { id } = facts.story.bay
  return [
    {
      id: `mass:${id}`,
      rule: 'mass',
      asks: short
        ? 'The batches and loads written down do not fill this bay. Are some missing, or is it thinner than it was measured?'
        : 'More was written down than fits into this bay. Did a load serve two bays, or is it thicker than it was measured?',
      innocent: short
        ? 'A load was written to the neighbouring bay, or the mean of few points is not the mean of the bay.'
        : 'What was left over went into the next bay or to waste.',
      bays: [id],
      evidence: [
        shows(mass.entries[0] ?? null, 'Mixed and delivered', Math.round(mass.deliveredKg), 'kg'),
        shows(null, 'Expected', Math.round(mass.expectedKg), 'kg'),
        shows(null, 'Difference', mass.differencePercent, '%'),
        shows(null, 'Area', mass.areaM2, 'm²'),
        shows(facts.thickness[0]?.entry ?? null, `Mean thickness, ${mass.thicknessFrom}`, mass.meanMm, 'mm'),
        shows(null, 'Density taken', mass.densityKgM3, 'kg/m³'),
      ],
      source: limit.source,
      provenance: limit.provenance,
    },
  ]
}
