import {
  allCoverings,
  anyScreed,
  calciumSulfate,
  cement,
  heatedOnly,
  type RuleSet,
  tiles,
  unheatedOnly,
} from '../rule-set.ts'
import {
  at,
  atLeast,
  atMost,
  din18365,
  din18560part1,
  din18560part2,
  din18560part2Remembered,
  en1264part4,
  germanCarbidePoints,
  type Origin,
} from '../sources.ts'
import { dryingBreak, footTraffic, frostOnset, frostStrength, inducerDepth } from './shared-choices.ts'

const trades: Origin = {
  source: 'German experts’ conference and covering trades',
  edition: '2017',
  provenance: 'quoted second-hand',
}
const jointStatement: Origin = {
  source: 'Joint statement of German screed trade bodies',
  edition: '2005',
  provenance: 'quoted second-hand',
}
const adhesiveCommission = (edition: string): Origin => ({
  source: 'German adhesives technical commission, corresponding humidity',
  edition,
  provenance: 'quoted second-hand',
})

const sampleSince = adhesiveCommission('since March 2021')
const sampleBefore = adhesiveCommission('before March 2021')

/** DIN 18560 and DIN 18365: limits of the carbide method, shorter curing, nominal cover over pipes. */
export const german: RuleSet = {
  id: 'german',
  name: 'German',
  version: '2026-11',
  limits: {
    'thickness.cement.floatingLight': atLeast(45, 'mm', at(din18560part2Remembered, 'CT F4, up to 2 kN/m²')),
    'thickness.calciumSulfate.floatingLight': atLeast(
      35,
      'mm',
      at(din18560part2Remembered, 'CA F4, up to 2 kN/m²'),
    ),
    'thickness.coverOverHeatingPipe': atLeast(
      45,
      'mm',
      at(din18560part2, 'nominal cover, conventional strength'),
    ),
    'frost.guardDays': atLeast(3, 'days', din18560part1),
    'cure.days': atLeast(3, 'days', din18560part1),
    'cure.daysLeast': atLeast(3, 'days', din18560part1),
    'traffic.footDays': atLeast(3, 'days', din18560part1),
    'traffic.boardsDays': atLeast(7, 'days', din18560part1),
    'traffic.wheelsDays': atLeast(7, 'days', din18560part1),
    // One or two tests for the first 100 m²; two is the careful end.
    'test.pointsFirst': atLeast(2, 'points', germanCarbidePoints),
    'test.pointsNextAreaM2': atMost(200, 'm²', germanCarbidePoints),
    'climate.airLeastC': atLeast(18, '°C', din18365),
    'climate.surfaceLeastC': atLeast(15, '°C', din18365),
    'climate.rhMost': atMost(75, '% RH', din18365),
  },
  moisture: [
    {
      id: 'moisture.carbide.cementUnheated',
      question: 'Wettest cement screed, unheated?',
      scale: 'carbide',
      coverings: allCoverings,
      screeds: cement,
      heated: unheatedOnly,
      limit: atMost(2, '% CM', din18560part1),
    },
    {
      id: 'moisture.carbide.cementHeated',
      question: 'Wettest cement screed, heated?',
      scale: 'carbide',
      coverings: allCoverings,
      screeds: cement,
      heated: heatedOnly,
      limit: atMost(1.8, '% CM', din18560part1),
    },
    {
      id: 'moisture.carbide.cementHeatedTile',
      question: 'Wettest cement screed, heated, under tiles?',
      scale: 'carbide',
      coverings: tiles,
      screeds: cement,
      heated: heatedOnly,
      limit: atMost(1.8, '% CM', din18560part1),
    },
    {
      id: 'moisture.carbide.calciumSulfateUnheated',
      question: 'Wettest calcium sulfate screed, unheated?',
      scale: 'carbide',
      coverings: allCoverings,
      screeds: calciumSulfate,
      heated: unheatedOnly,
      limit: atMost(0.5, '% CM', din18560part1),
    },
    {
      id: 'moisture.carbide.calciumSulfateHeated',
      question: 'Wettest calcium sulfate screed, heated?',
      scale: 'carbide',
      coverings: allCoverings,
      screeds: calciumSulfate,
      heated: heatedOnly,
      limit: atMost(0.5, '% CM', din18560part1),
    },
    {
      id: 'moisture.sampleRh.unheated',
      question: 'Most humidity above a crushed sample, unheated?',
      scale: 'sample-rh',
      coverings: allCoverings,
      screeds: anyScreed,
      heated: unheatedOnly,
      limit: atMost(80, '% RH', sampleSince),
    },
    {
      id: 'moisture.sampleRh.heated',
      question: 'Most humidity above a crushed sample, heated?',
      scale: 'sample-rh',
      coverings: allCoverings,
      screeds: anyScreed,
      heated: heatedOnly,
      limit: atMost(75, '% RH', sampleSince),
    },
  ],
  choices: [
    {
      id: 'calciumSulfateHeated',
      question: 'Which limit holds for heated calcium sulfate screed?',
      default: 'din',
      options: [
        {
          id: 'din',
          label: '0.5 % CM: DIN 18560-1 and EN 1264-4',
          limits: { 'moisture.carbide.calciumSulfateHeated': atMost(0.5, '% CM', din18560part1) },
        },
        {
          id: 'trade',
          label: '0.3 % CM: covering trades, the careful choice',
          limits: { 'moisture.carbide.calciumSulfateHeated': atMost(0.3, '% CM', trades) },
        },
      ],
    },
    {
      id: 'cementHeatedTile',
      question: 'Which limit holds for heated cement screed under tiles?',
      default: 'din',
      options: [
        {
          id: 'din',
          label: '1.8 % CM',
          limits: { 'moisture.carbide.cementHeatedTile': atMost(1.8, '% CM', din18560part1) },
        },
        {
          id: 'jointStatement',
          label: '2.0 % CM: joint statement of the screed trade',
          limits: { 'moisture.carbide.cementHeatedTile': atMost(2, '% CM', jointStatement) },
        },
      ],
    },
    {
      id: 'sampleHumidity',
      question: 'Which limits hold for the humidity above a crushed sample?',
      default: 'since2021',
      options: [
        {
          id: 'since2021',
          label: '80 % unheated, 75 % heated: since March 2021',
          limits: {
            'moisture.sampleRh.unheated': atMost(80, '% RH', sampleSince),
            'moisture.sampleRh.heated': atMost(75, '% RH', sampleSince),
          },
        },
        {
          id: 'before2021',
          label: '75 % unheated, 65 % heated: before March 2021',
          limits: {
            'moisture.sampleRh.unheated': atMost(75, '% RH', sampleBefore),
            'moisture.sampleRh.heated': atMost(65, '% RH', sampleBefore),
          },
        },
      ],
    },
    {
      id: 'pipeCover',
      question: 'How much cover over heating pipes?',
      default: 'din',
      options: [
        {
          id: 'din',
          label: '45 mm nominal',
          limits: {
            'thickness.coverOverHeatingPipe': atLeast(
              45,
              'mm',
              at(din18560part2, 'nominal cover, conventional strength'),
            ),
          },
        },
        {
          id: 'en',
          label: '30 mm, with a higher strength class',
          limits: { 'thickness.coverOverHeatingPipe': atLeast(30, 'mm', en1264part4) },
        },
      ],
    },
    footTraffic([['three', '3 days: DIN 18560-1', 3, din18560part1]], 'three'),
    dryingBreak,
    inducerDepth,
    frostOnset,
    frostStrength,
  ],
}
