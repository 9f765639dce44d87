import {
  checkHeating,
  checkLevel,
  checkRegularity,
  checkSoundness,
  checkSurfaceClimate,
  checkThickness,
  constructionOnBase,
} from '#model/checks/index.ts'
import { effectiveRules, type Verdict } from '#model/rules/index.ts'
import { type PublishedRow, publishedTable } from './table.ts'

type Input = () => boolean | Verdict | string

const numbers: Readonly<Record<string, number>> = { pass: 1, fail: 0, invalid: -1 }

/** Whether a value at a limit, and one just beyond it, is judged as the published text says. */
function row(
  name: string,
  input: Input,
  expected: number,
  source: string,
  clause?: string,
): PublishedRow<Input> {
  const reason = 'a verdict is exact'
  return { name, input, expected, tolerance: 0, reason, source, clause, provenance: 'quoted second-hand' }
}

const thickness =
  (
    mm: number,
    construction: 'bonded' | 'unbonded' | 'floating',
    loading: 'light' | 'other' = 'other',
  ): Input =>
  () =>
    checkThickness({ screed: 'cement-sand', construction, loading, heated: false, measuredMm: [mm] }).verdict
const sulfate =
  (
    mm: number,
    construction: 'bonded' | 'unbonded' | 'floating',
    loading: 'light' | 'other' = 'other',
  ): Input =>
  () =>
    checkThickness({ screed: 'calcium sulfate', construction, loading, heated: false, measuredMm: [mm] })
      .verdict
const serviceCover =
  (serviceCoverMm: number): Input =>
  () =>
    checkThickness({
      screed: 'cement-sand',
      construction: 'unbonded',
      loading: 'other',
      heated: false,
      measuredMm: [70],
      serviceCoverMm,
    }).verdict
const oneLift =
  (mm: number): Input =>
  () =>
    checkThickness({
      screed: 'cement-sand',
      construction: 'unbonded',
      loading: 'other',
      heated: false,
      measuredMm: [mm],
      lifts: 1,
    }).cautions.length === 0
const dropWeight =
  (
    category: 'A' | 'B' | 'C',
    mm: number,
    more: { floating?: boolean; weightKg?: number; ageDays?: number } = {},
  ): Input =>
  () =>
    checkSoundness({
      category,
      construction: more.floating === true ? 'floating' : 'bonded',
      weightKg: more.weightKg ?? 4,
      blows: 4,
      ageDays: more.ageDays ?? 14,
      indentationsMm: [mm],
    }).verdict
const gap =
  (regularity: 'SR1' | 'SR2' | 'SR3', mm: number): Input =>
  () =>
    checkRegularity({ class: regularity, gapsMm: [mm] }).verdict
const level =
  (mm: number): Input =>
  () =>
    checkLevel({ departuresMm: [mm] }).verdict
const mix =
  (sandPerCement: number): Input =>
  () => {
    const { limits } = effectiveRules('british')
    return (
      sandPerCement >= limits['mix.sandPerCementLeast'].value &&
      sandPerCement <= limits['mix.sandPerCementMost'].value
    )
  }
const base =
  (
    mechanicallyPrepared: boolean,
    membrane: 'none' | 'bonding epoxy' | 'other',
    construction: string,
  ): Input =>
  () =>
    constructionOnBase({
      mechanicallyPrepared,
      membrane,
      oilContaminated: false,
      waterproofingAdmixture: false,
      insulation: false,
    }).construction === construction
const dayMs = 86_400_000
const firstHeat =
  (day: number, screed: 'cement-sand' | 'calcium sulfate'): Input =>
  () => {
    const flows = [25, 25, 25, 55, 55, 55, 55, 55]
    const log = flows.map((flowC, i) => ({ at: (day + i) * dayMs, flowC }))
    return checkHeating(log, { plan: 'H1', screed, laidAt: 0, thicknessMm: 50 }).verdict
  }
const dewRule =
  (surfaceC: number): Input =>
  () => {
    const climate = { airC: 16, rhPercent: 71, surfaceC, covering: 'resin', ruleSet: 'british' } as const
    const [margin] = checkSurfaceClimate(climate).findings
    return typeof margin?.value === 'number' && margin.limit !== null && margin.value >= margin.limit.value
  }

const bs1 = 'BS 8204-1'
const table4 = 'BS 8204-1:2003+A1:2009'

/** 1 is accepted (or: no remark), 0 is not, −1 is a test that was not done as its method demands. */
export default publishedTable<Input>({
  title: 'checks: verdicts at their limits',
  unit: '1 accepted, 0 not, −1 invalid',
  calculate: (judge) => {
    const verdict = judge()
    return typeof verdict === 'boolean' ? Number(verdict) : (numbers[verdict] ?? Number.NaN)
  },
  rows: [
    row('bonded, 24 mm', thickness(24, 'bonded'), 0, bs1),
    row('bonded, 25 mm', thickness(25, 'bonded'), 1, bs1),
    row('on a separating layer, 49 mm', thickness(49, 'unbonded'), 0, bs1),
    row('on a separating layer, 50 mm', thickness(50, 'unbonded'), 1, bs1),
    row('floating, light, 64 mm', thickness(64, 'floating', 'light'), 0, bs1),
    row('floating, light, 65 mm', thickness(65, 'floating', 'light'), 1, bs1),
    row('floating, heavier, 74 mm', thickness(74, 'floating'), 0, bs1),
    row('floating, heavier, 75 mm', thickness(75, 'floating'), 1, bs1),
    row('calcium sulfate, bonded, 24 mm', sulfate(24, 'bonded'), 0, 'BS 8204-7', 'as trade minima'),
    row('calcium sulfate, bonded, 25 mm', sulfate(25, 'bonded'), 1, 'BS 8204-7', 'as trade minima'),
    row(
      'calcium sulfate, separating layer, 29 mm',
      sulfate(29, 'unbonded'),
      0,
      'BS 8204-7',
      'as trade minima',
    ),
    row(
      'calcium sulfate, separating layer, 30 mm',
      sulfate(30, 'unbonded'),
      1,
      'BS 8204-7',
      'as trade minima',
    ),
    row(
      'calcium sulfate, floating, light, 34 mm',
      sulfate(34, 'floating', 'light'),
      0,
      'BS 8204-7',
      'as trade minima',
    ),
    row(
      'calcium sulfate, floating, light, 35 mm',
      sulfate(35, 'floating', 'light'),
      1,
      'BS 8204-7',
      'as trade minima',
    ),
    row(
      'calcium sulfate, floating, other, 39 mm',
      sulfate(39, 'floating'),
      0,
      'BS 8204-7',
      'as trade minima',
    ),
    row(
      'calcium sulfate, floating, other, 40 mm',
      sulfate(40, 'floating'),
      1,
      'BS 8204-7',
      'as trade minima',
    ),
    row(
      '24 mm over a service pipe with its insulation',
      serviceCover(24),
      0,
      'British warranty body',
      '2011',
    ),
    row(
      '25 mm over a service pipe with its insulation',
      serviceCover(25),
      1,
      'British warranty body',
      '2011',
    ),
    row('50 mm in one lift: no remark', oneLift(50), 1, bs1),
    row('51 mm in one lift: a remark', oneLift(51), 0, bs1),
    row('a tamped base counts as a separating layer', base(false, 'none', 'unbonded'), 1, bs1, '6.4.2'),
    row('so does a membrane', base(true, 'other', 'unbonded'), 1, bs1, '6.4.2'),
    row('an epoxy that bonds does not', base(true, 'bonding epoxy', 'bonded'), 1, bs1, '6.4.2'),
    row('mix 1:2.9', mix(2.9), 0, bs1),
    row('mix 1:3', mix(3), 1, bs1),
    row('mix 1:4.5', mix(4.5), 1, bs1),
    row('mix 1:4.6', mix(4.6), 0, bs1),
    row('drop weight, A, 3.0 mm', dropWeight('A', 3), 1, table4, 'Table 4'),
    row('drop weight, A, 3.1 mm', dropWeight('A', 3.1), 0, table4, 'Table 4'),
    row('drop weight, B, 4.0 mm', dropWeight('B', 4), 1, table4, 'Table 4'),
    row('drop weight, B, 4.1 mm', dropWeight('B', 4.1), 0, table4, 'Table 4'),
    row('drop weight, C, 5.0 mm', dropWeight('C', 5), 1, table4, 'Table 4'),
    row('drop weight, C, 5.1 mm', dropWeight('C', 5.1), 0, table4, 'Table 4'),
    row(
      'drop weight, C floating, 2.5 mm with 2 kg',
      dropWeight('C', 2.5, { floating: true, weightKg: 2 }),
      1,
      table4,
      'Table 4',
    ),
    row(
      'drop weight, C floating, 2.6 mm with 2 kg',
      dropWeight('C', 2.6, { floating: true, weightKg: 2 }),
      0,
      table4,
      'Table 4',
    ),
    row(
      'drop weight, C floating, with 4 kg',
      dropWeight('C', 2.5, { floating: true }),
      -1,
      table4,
      'Table 4',
    ),
    row('drop weight on day 13', dropWeight('A', 1, { ageDays: 13 }), -1, bs1, 'Annex D'),
    row('drop weight on day 14', dropWeight('A', 1, { ageDays: 14 }), 1, bs1, 'Annex D'),
    row('SR1, 3 mm', gap('SR1', 3), 1, table4, 'Table 5'),
    row('SR1, 3.1 mm', gap('SR1', 3.1), 0, table4, 'Table 5'),
    row('SR2, 5 mm', gap('SR2', 5), 1, table4, 'Table 5'),
    row('SR2, 5.1 mm', gap('SR2', 5.1), 0, table4, 'Table 5'),
    row('SR3, 10 mm', gap('SR3', 10), 1, table4, 'Table 5'),
    row('SR3, 10.1 mm', gap('SR3', 10.1), 0, table4, 'Table 5'),
    row('15 mm off the level', level(15), 1, bs1),
    row('16 mm off the level', level(-16), 0, bs1),
    row('cement, first heat on day 20', firstHeat(20, 'cement-sand'), 0, 'EN 1264-4'),
    row('cement, first heat on day 21', firstHeat(21, 'cement-sand'), 1, 'EN 1264-4'),
    row('calcium sulfate, first heat on day 6', firstHeat(6, 'calcium sulfate'), 0, 'EN 1264-4'),
    row('calcium sulfate, first heat on day 7', firstHeat(7, 'calcium sulfate'), 1, 'EN 1264-4'),
    row(
      '16 °C and 71 % over 13 °C: too near the dew point',
      dewRule(13),
      0,
      'Published example of the 3 K rule',
    ),
    row('16 °C and 71 % over 14 °C: far enough', dewRule(14), 1, 'Published example of the 3 K rule'),
  ],
})
