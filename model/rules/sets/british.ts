import {
  allCoverings,
  anyScreed,
  calciumSulfate,
  heatedOrNot,
  type RuleSet,
  resilient,
  tiles,
  timber,
} from '../rule-set.ts'
import {
  at,
  atLeast,
  atMost,
  britishGuidance,
  bs5325,
  bs5385part3,
  bs8201,
  bs8203,
  din18560part1,
  judgement,
  tradePractice,
} from '../sources.ts'
import {
  dryingBreak,
  footTraffic,
  frostOnset,
  frostStrength,
  inducerDepth,
  levelGrid,
  soundnessScheme,
  soundnessSpacing,
  surfaceInUse,
  tileSide,
  tradeFoot,
} from './shared-choices.ts'

const annexA = at(bs8201, 'Annex A')
const beforeRevision = at(bs8201, 'before the 2011 revision', 'before 2011')

/** The common answers are mostly British already; this set adds the humidity limits of BS 8201, 8203, 5325 and 5385-3. */
export const british: RuleSet = {
  id: 'british',
  name: 'British',
  version: '2026-11',
  limits: {},
  moisture: [
    {
      id: 'moisture.rh.resilient',
      question: 'Wettest screed for vinyl, linoleum, rubber and cork?',
      scale: 'rh',
      coverings: resilient,
      screeds: anyScreed,
      heated: heatedOrNot,
      limit: atMost(75, '% RH', bs8203),
    },
    {
      id: 'moisture.rh.textile',
      question: 'Wettest screed for carpet and other textile?',
      scale: 'rh',
      coverings: ['textile'],
      screeds: anyScreed,
      heated: heatedOrNot,
      limit: atMost(75, '% RH', bs5325),
    },
    {
      id: 'moisture.rh.timberFloating',
      question: 'Wettest screed for timber laid loose?',
      scale: 'rh',
      coverings: ['timber floating'],
      screeds: anyScreed,
      heated: heatedOrNot,
      limit: atMost(65, '% RH', annexA),
    },
    {
      id: 'moisture.rh.timberBonded',
      question: 'Wettest screed for timber glued down?',
      scale: 'rh',
      coverings: ['timber bonded'],
      screeds: anyScreed,
      heated: heatedOrNot,
      limit: atMost(65, '% RH', annexA),
    },
    {
      id: 'moisture.rh.tile',
      question: 'Wettest screed for tiles?',
      scale: 'rh',
      coverings: tiles,
      screeds: anyScreed,
      heated: heatedOrNot,
      limit: atMost(75, '% RH', at(bs5385part3, 'stated for calcium sulfate; used here for cement too')),
    },
    {
      id: 'moisture.rh.resin',
      question: 'Wettest screed for a resin floor, unless its maker says otherwise?',
      scale: 'rh',
      coverings: ['resin'],
      screeds: anyScreed,
      heated: heatedOrNot,
      limit: atMost(75, '% RH', tradePractice),
    },
    {
      id: 'moisture.mass.calciumSulfate',
      question: 'Most moisture by mass in calcium sulfate screed?',
      scale: 'mass',
      coverings: allCoverings.filter((covering) => !timber.some((kind) => kind === covering)),
      screeds: calciumSulfate,
      heated: heatedOrNot,
      limit: atMost(0.5, '% by mass', at(bs5385part3, 'about the same as 75 % RH')),
    },
  ],
  choices: [
    {
      id: 'timberHumidity',
      question: 'Which humidity limit holds for timber?',
      default: 'all65',
      options: [
        {
          id: 'all65',
          label: '65 % for every timber floor',
          limits: {
            'moisture.rh.timberFloating': atMost(65, '% RH', annexA),
            'moisture.rh.timberBonded': atMost(65, '% RH', annexA),
          },
        },
        {
          id: 'bonded65',
          label: '65 % when glued down, 75 % when laid loose: trade reading',
          limits: {
            'moisture.rh.timberFloating': atMost(75, '% RH', tradePractice),
            'moisture.rh.timberBonded': atMost(65, '% RH', annexA),
          },
        },
        {
          id: 'before2011',
          label: '75 % for every timber floor: the rule before 2011',
          limits: {
            'moisture.rh.timberFloating': atMost(75, '% RH', beforeRevision),
            'moisture.rh.timberBonded': atMost(75, '% RH', beforeRevision),
          },
        },
      ],
    },
    footTraffic(
      [
        ['four', '4 days: learned-society guidance', 4, britishGuidance],
        ['seven', '7 days: the whole of the curing time', 7, judgement],
        ['three', '3 days: DIN 18560-1', 3, din18560part1],
        tradeFoot,
      ],
      'four',
    ),
    {
      id: 'cureDays',
      question: 'How many days must the screed stay covered?',
      default: 'seven',
      options: [
        {
          id: 'seven',
          label: '7 days',
          limits: { 'cure.days': atLeast(7, 'days', at(britishGuidance, 'preferred')) },
        },
        {
          id: 'four',
          label: '4 days: the least that guidance names',
          limits: { 'cure.days': atLeast(4, 'days', britishGuidance) },
        },
      ],
    },
    {
      id: 'calciumSulfateMass',
      question: 'Which limit by mass holds for calcium sulfate screed?',
      default: 'half',
      options: [
        {
          id: 'half',
          label: '0.5 %: about the same as 75 % RH',
          limits: {
            'moisture.mass.calciumSulfate': atMost(
              0.5,
              '% by mass',
              at(bs5385part3, 'about the same as 75 % RH'),
            ),
          },
        },
        {
          id: 'one',
          label: '1 %: trade practice, only where every covering lets vapour through',
          limits: { 'moisture.mass.calciumSulfate': atMost(1, '% by mass', tradePractice) },
        },
      ],
    },
    dryingBreak,
    soundnessScheme,
    soundnessSpacing,
    tileSide,
    inducerDepth,
    levelGrid,
    surfaceInUse,
    frostOnset,
    frostStrength,
  ],
}
