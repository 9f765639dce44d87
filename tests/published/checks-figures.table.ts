import { crackCard, holdDaysByThickness, identificationCard } from '#model/checks/index.ts'
import { footDiameterMm } from '#model/checks/soundness.ts'
import { effectiveRules, type RuleId, type RuleSetId } from '#model/rules/index.ts'
import { type PublishedRow, publishedTable } from './table.ts'

type Input = () => number

function row(
  name: string,
  input: Input,
  expected: number,
  source: string,
  tolerance = 0,
): PublishedRow<Input> {
  const reason = tolerance === 0 ? 'a figure is exact' : 'to the digits printed'
  return { name, input, expected, tolerance, reason, source, provenance: 'quoted second-hand' }
}

const limit =
  (set: RuleSetId, id: RuleId, choices: Record<string, string> = {}): Input =>
  () =>
    effectiveRules(set, choices).limits[id].value

/** Figures of the methods and of the rule sets that are not moisture limits. */
export default publishedTable<Input>({
  title: 'checks: figures of the methods and rule sets',
  unit: 'own unit of each row',
  calculate: (figure) => figure(),
  rows: [
    row(
      'area of the drop-weight foot [mm²]',
      () => (Math.PI / 4) * footDiameterMm ** 2,
      500,
      'BS 8204-1 Annex D',
      0.1,
    ),
    row(
      'flow held at 65 mm, a day for each further cm [days]',
      () => holdDaysByThickness(65),
      7,
      'Published heating plan for calcium sulfate',
    ),
    row('card: thickness [mm]', () => identificationCard.thicknessMm, 0.76, 'ISO/IEC 7810'),
    row('card: width [mm]', () => identificationCard.widthMm, 85.6, 'ISO/IEC 7810'),
    row(
      'card slides in: crack at least [mm]',
      () => crackCard('slides in').atLeastMm ?? Number.NaN,
      0.68,
      'ISO/IEC 7810',
      1e-9,
    ),
    row(
      'card does not: crack at most [mm]',
      () => crackCard('does not').atMostMm ?? Number.NaN,
      0.84,
      'ISO/IEC 7810',
      1e-9,
    ),
    row('British: screed warmer than [°C]', limit('british', 'frost.screedC'), 5, 'BS 8204-1'),
    row('British: for so many days', limit('british', 'frost.guardDays'), 4, 'BS 8204-1'),
    row('British: days covered', limit('british', 'cure.days'), 7, 'British learned-society guidance'),
    row(
      'British: first foot traffic [days]',
      limit('british', 'traffic.footDays'),
      4,
      'British learned-society guidance',
    ),
    row('British: heating off before a box [h]', limit('british', 'test.heatingOffHours'), 96, 'BS 8203'),
    row('British: box [h]', limit('british', 'test.boxHours'), 72, 'BS 8203'),
    row('British: box on 50–75 mm on a membrane [h]', limit('british', 'test.boxThinHours'), 24, 'BS 8203'),
    row(
      'British: box on a power-floated surface [h]',
      limit('british', 'test.boxPowerFloatedHours'),
      168,
      'BS 8203',
    ),
    row('British: sleeve [h]', limit('british', 'test.sleeveHours'), 72, 'BS 8203'),
    row('British: probe in place [min]', limit('british', 'test.soakMinutes'), 30, 'BS 8203'),
    row('British: salt check, least [% RH]', limit('british', 'test.saltRhLeast'), 73, 'BS 8203'),
    row('British: salt check, most [% RH]', limit('british', 'test.saltRhMost'), 77, 'BS 8203'),
    row('German: cement, cold guard [days]', limit('german', 'frost.guardDays'), 3, 'DIN 18560-1'),
    row('German: first foot traffic [days]', limit('german', 'traffic.footDays'), 3, 'DIN 18560-1'),
    row('German: load [days]', limit('german', 'traffic.wheelsDays'), 7, 'DIN 18560-1'),
    row(
      'German: cover over heating pipes [mm]',
      limit('german', 'thickness.coverOverHeatingPipe'),
      45,
      'DIN 18560-2',
    ),
    row(
      'German: the other reading of that cover [mm]',
      limit('german', 'thickness.coverOverHeatingPipe', { pipeCover: 'en' }),
      30,
      'EN 1264-4',
    ),
    row(
      'German: points for the first 100 m²',
      limit('german', 'test.pointsFirst'),
      2,
      'German carbide practice',
    ),
    row(
      'German: one more for each [m²]',
      limit('german', 'test.pointsNextAreaM2'),
      200,
      'German carbide practice',
    ),
    row('German: air at least [°C]', limit('german', 'climate.airLeastC'), 18, 'DIN 18365'),
    row('German: floor at least [°C]', limit('german', 'climate.surfaceLeastC'), 15, 'DIN 18365'),
    row('German: air at most [% RH]', limit('german', 'climate.rhMost'), 75, 'DIN 18365'),
    row('Swiss: floor at least [°C]', limit('swiss', 'climate.surfaceLeastC'), 16, 'SIA 253'),
    row('American: probe wait since 2018 [h]', limit('american', 'test.sleeveHours'), 24, 'ASTM F2170'),
    row(
      'American: probe wait before 2018 [h]',
      limit('american', 'test.sleeveHours', { probeWait: 'before2018' }),
      72,
      'ASTM F2170',
    ),
    row(
      'American: room at service conditions [h]',
      limit('american', 'test.conditioningHours'),
      48,
      'ASTM F2170',
    ),
    row(
      'American: probe check at most [days] old',
      limit('american', 'test.probeCheckDays'),
      30,
      'ASTM F2170',
    ),
    row('American: dish, least [h]', limit('american', 'test.emissionHoursLeast'), 60, 'ASTM F1869'),
    row('American: dish, most [h]', limit('american', 'test.emissionHoursMost'), 72, 'ASTM F1869'),
    row('American: ground spot [h]', limit('american', 'test.emissionGrindHours'), 24, 'ASTM F1869'),
    row(
      'American: air at the dish, least [°C]',
      limit('american', 'test.emissionAirLeastC'),
      18.4,
      'ASTM F1869',
    ),
    row(
      'American: air at the dish, most [°C]',
      limit('american', 'test.emissionAirMostC'),
      29.4,
      'ASTM F1869',
    ),
    row('American: floor at most [°C]', limit('american', 'climate.surfaceMostC'), 29, 'ASTM F710'),
    row('every set: first heat of cement [days]', limit('swiss', 'heat.firstCementDays'), 21, 'EN 1264-4'),
    row(
      'every set: first heat of calcium sulfate [days]',
      limit('british', 'heat.firstCalciumSulfateDays'),
      7,
      'EN 1264-4',
    ),
    row('every set: highest flow [°C]', limit('german', 'heat.maxC'), 55, 'EN 1264-4'),
    row(
      'every set: adhesive of a resilient covering, at most [°C]',
      limit('british', 'heat.adhesiveMostC'),
      27,
      'BS 8203',
    ),
    row(
      'heated bay, at most [m²]',
      limit('british', 'bay.heatedAreaM2'),
      40,
      'British tiling trade body guidance',
    ),
    row(
      'heated bay, side at most [m]',
      limit('british', 'bay.heatedSideM'),
      8,
      'British tiling trade body guidance',
    ),
  ],
})
