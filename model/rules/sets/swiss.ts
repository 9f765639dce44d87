import {
  allCoverings,
  calciumSulfate,
  cement,
  heatedOnly,
  heatedOrNot,
  type MoistureRule,
  type RuleSet,
  tiles,
  timber,
  unheatedOnly,
} from '../rule-set.ts'
import { at, atLeast, atMost, judgement, sia253 } from '../sources.ts'
import type { Covering } from '../words.ts'
import { dryingBreak, frostOnset, frostStrength, inducerDepth } from './shared-choices.ts'

function unheatedCement(
  name: string,
  words: string,
  coverings: readonly Covering[],
  percent: number,
): MoistureRule {
  return {
    id: `moisture.carbide.cement${name}`,
    question: `Wettest cement screed, unheated, under ${words}?`,
    scale: 'carbide',
    coverings,
    screeds: cement,
    heated: unheatedOnly,
    limit: atMost(percent, '% CM', sia253),
  }
}

/** SIA 253: a carbide limit for each covering, and one for each screed when it is heated. */
export const swiss: RuleSet = {
  id: 'swiss',
  name: 'Swiss',
  version: '2026-11',
  limits: {
    'climate.surfaceLeastC': atLeast(16, '°C', at(sia253, 'coverings glued over their full area')),
  },
  moisture: [
    unheatedCement('Linoleum', 'linoleum', ['linoleum'], 2.5),
    unheatedCement('Textile', 'textile', ['textile'], 2.5),
    unheatedCement('Vinyl', 'plastic coverings', ['vinyl'], 2.3),
    unheatedCement('Timber', 'parquet and wood-based coverings', timber, 2.3),
    unheatedCement(
      'Rubber',
      'rubber, or resilient coverings whose kind is not said',
      ['rubber', 'resilient'],
      2,
    ),
    unheatedCement('Cork', 'cork', ['cork'], 2),
    {
      id: 'moisture.carbide.cementTile',
      question: 'Wettest cement screed, unheated, under tiles or resin?',
      scale: 'carbide',
      coverings: [...tiles, 'resin'],
      screeds: cement,
      heated: unheatedOnly,
      limit: atMost(2, '% CM', judgement),
    },
    {
      id: 'moisture.carbide.cementHeated',
      question: 'Wettest cement screed, heated?',
      scale: 'carbide',
      coverings: allCoverings,
      screeds: cement,
      heated: heatedOnly,
      limit: atMost(1.5, '% CM', sia253),
    },
    {
      id: 'moisture.carbide.calciumSulfateUnheated',
      question: 'Wettest calcium sulfate screed, unheated?',
      scale: 'carbide',
      coverings: allCoverings,
      screeds: calciumSulfate,
      heated: heatedOrNot,
      limit: atMost(0.5, '% CM', sia253),
    },
    {
      id: 'moisture.carbide.calciumSulfateHeated',
      question: 'Wettest calcium sulfate screed, heated?',
      scale: 'carbide',
      coverings: allCoverings,
      screeds: calciumSulfate,
      heated: heatedOnly,
      limit: atMost(0.3, '% CM', sia253),
    },
  ],
  choices: [dryingBreak, inducerDepth, frostOnset, frostStrength],
}
