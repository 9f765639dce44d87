import { allCoverings, anyScreed, cement, heatedOrNot, type RuleSet } from '../rule-set.ts'
import { astmF710, astmF1869, astmF2170, at, atLeast, atMost, cri105 } from '../sources.ts'
import { dryingBreak, frostOnset, frostStrength, inducerDepth } from './shared-choices.ts'

const emissionUnit = 'lb/(1000 ft²·24 h)'

/** ASTM F710, F2170 and F1869: probe humidity and calcium chloride emission. The adhesive maker’s figure goes first. */
export const american: RuleSet = {
  id: 'american',
  name: 'American',
  version: '2026-11',
  limits: {
    'test.sleeveHours': atLeast(24, 'h', at(astmF2170, 'since edition 18; 72 h before')),
    'test.heatingOffHours': atLeast(0, 'h', at(astmF2170, 'service conditions instead')),
    'test.settleHours': atLeast(0, 'h', at(astmF2170, 'one reading after the wait')),
    'climate.airLeastC': atLeast(18, '°C', cri105),
    'climate.airMostC': atMost(35, '°C', cri105),
    'climate.surfaceLeastC': atLeast(18, '°C', cri105),
    'climate.surfaceMostC': atMost(29, '°C', astmF710),
    'climate.rhMost': atMost(65, '% RH', cri105),
  },
  moisture: [
    {
      id: 'moisture.rh.all',
      question: 'Wettest slab or screed by probe, unless the maker says otherwise?',
      scale: 'rh',
      coverings: allCoverings,
      screeds: anyScreed,
      heated: heatedOrNot,
      limit: atMost(75, '% RH', astmF710),
    },
    {
      id: 'moisture.emission.all',
      question: 'Most vapour emission, unless the maker says otherwise?',
      scale: 'emission',
      coverings: allCoverings,
      screeds: cement,
      heated: heatedOrNot,
      limit: atMost(3, emissionUnit, astmF710),
    },
  ],
  choices: [
    {
      id: 'emission',
      question: 'Which emission limit holds?',
      default: 'three',
      options: [
        {
          id: 'three',
          label: '3 lb/(1000 ft²·24 h): ASTM F710',
          limits: { 'moisture.emission.all': atMost(3, emissionUnit, astmF710) },
        },
        {
          id: 'five',
          label: '5 lb/(1000 ft²·24 h): coverings whose maker allows it',
          limits: {
            'moisture.emission.all': atMost(5, emissionUnit, at(astmF1869, 'as quoted for some coverings')),
          },
        },
      ],
    },
    {
      id: 'probeWait',
      question: 'How long after drilling is the probe read?',
      default: 'since2018',
      options: [
        {
          id: 'since2018',
          label: '24 h: ASTM F2170-18 and later',
          limits: { 'test.sleeveHours': atLeast(24, 'h', at(astmF2170, 'since edition 18')) },
        },
        {
          id: 'before2018',
          label: '72 h: before 2018',
          limits: { 'test.sleeveHours': atLeast(72, 'h', at(astmF2170, 'before edition 18', 'before 18')) },
        },
      ],
    },
    frostStrength,
    dryingBreak,
    inducerDepth,
    frostOnset,
  ],
}
