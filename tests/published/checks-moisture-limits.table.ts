import { type MoistureLimitQuestion, moistureLimit } from '#model/checks/index.ts'
import { effectiveRules, type RuleSetId } from '#model/rules/index.ts'
import { type PublishedRow, publishedTable } from './table.ts'

type Input = Omit<MoistureLimitQuestion, 'ruleSet'> & { set: RuleSetId; choices?: Record<string, string> }

const exact = { tolerance: 0, reason: 'a limit is exact', provenance: 'quoted second-hand' } as const

const british = (
  covering: Input['covering'],
  expected: number,
  source: string,
  choices?: Record<string, string>,
): PublishedRow<Input> => ({
  name: `British: ${covering}${choices ? ` (${Object.values(choices).join()})` : ''}`,
  input: {
    set: 'british',
    covering,
    method: 'hygrometer box',
    screed: 'cement-sand',
    heated: false,
    choices,
  },
  expected,
  source,
  ...exact,
})
const german = (
  method: Input['method'],
  screed: Input['screed'],
  heated: boolean,
  expected: number,
  source: string,
  more: { choices?: Record<string, string>; covering?: Input['covering'] } = {},
): PublishedRow<Input> => ({
  name: `German: ${method}, ${screed}, ${heated ? 'heated' : 'unheated'} ${JSON.stringify(more)}`,
  input: { set: 'german', covering: more.covering ?? 'vinyl', method, screed, heated, choices: more.choices },
  expected,
  source,
  ...exact,
})
const swiss = (
  covering: Input['covering'],
  heated: boolean,
  expected: number,
  screed: Input['screed'] = 'cement-sand',
): PublishedRow<Input> => ({
  name: `Swiss: ${covering} on ${screed}, ${heated ? 'heated' : 'unheated'}`,
  input: { set: 'swiss', covering, method: 'carbide', screed, heated },
  expected,
  source: 'SIA 253',
  ...exact,
})

export default publishedTable<Input>({
  title: 'checks: moisture limits of four rule sets',
  unit: '% RH, % CM or lb',
  calculate: ({ set, choices, ...question }) =>
    moistureLimit({ ...question, ruleSet: effectiveRules(set, choices) })?.value ?? Number.NaN,
  rows: [
    british('vinyl', 75, 'BS 8203'),
    british('linoleum', 75, 'BS 8203'),
    british('rubber', 75, 'BS 8203'),
    british('textile', 75, 'BS 5325'),
    british('timber bonded', 65, 'BS 8201:2011 Annex A'),
    british('timber floating', 65, 'BS 8201:2011 Annex A'),
    british('timber floating', 75, 'Trade reading of BS 8201', { timberHumidity: 'bonded65' }),
    british('timber bonded', 65, 'Trade reading of BS 8201', { timberHumidity: 'bonded65' }),
    british('timber bonded', 75, 'BS 8201 before 2011', { timberHumidity: 'before2011' }),
    british('ceramic tile', 75, 'BS 5385-3'),
    german('carbide', 'cement-sand', false, 2, 'DIN 18560-1:2015-11'),
    german('carbide', 'cement-sand', true, 1.8, 'DIN 18560-1:2015-11, EN 1264-4:2021 Table 2'),
    german('carbide', 'cement-sand', true, 1.8, 'DIN 18560-1:2015-11', { covering: 'ceramic tile' }),
    german('carbide', 'cement-sand', true, 2, 'Joint statement of screed trade bodies', {
      covering: 'ceramic tile',
      choices: { cementHeatedTile: 'jointStatement' },
    }),
    german('carbide', 'calcium sulfate', false, 0.5, 'DIN 18560-1:2015-11'),
    german('carbide', 'calcium sulfate', true, 0.5, 'DIN 18560-1:2015-11'),
    german('carbide', 'calcium sulfate', true, 0.3, 'Covering trades 2017', {
      choices: { calciumSulfateHeated: 'trade' },
    }),
    german('crushed sample', 'cement-sand', false, 80, 'Adhesives commission 2021'),
    german('crushed sample', 'cement-sand', true, 75, 'Adhesives commission 2021'),
    german('crushed sample', 'cement-sand', false, 75, 'Before 2021', {
      choices: { sampleHumidity: 'before2021' },
    }),
    german('crushed sample', 'cement-sand', true, 65, 'Before 2021', {
      choices: { sampleHumidity: 'before2021' },
    }),
    swiss('linoleum', false, 2.5),
    swiss('textile', false, 2.5),
    swiss('vinyl', false, 2.3),
    swiss('timber bonded', false, 2.3),
    swiss('rubber', false, 2),
    swiss('cork', false, 2),
    ...(['linoleum', 'textile', 'vinyl', 'timber bonded', 'rubber', 'cork'] as const).map((covering) =>
      swiss(covering, true, 1.5),
    ),
    swiss('vinyl', false, 0.5, 'calcium sulfate'),
    swiss('vinyl', true, 0.3, 'calcium sulfate'),
    {
      name: 'American: probe',
      input: { set: 'american', covering: 'vinyl', method: 'probe', screed: 'cement-sand', heated: false },
      expected: 75,
      source: 'ASTM F710',
      ...exact,
    },
    {
      name: 'American: dish',
      input: {
        set: 'american',
        covering: 'vinyl',
        method: 'calcium chloride',
        screed: 'cement-sand',
        heated: false,
      },
      expected: 3,
      source: 'ASTM F710',
      ...exact,
    },
  ],
})
