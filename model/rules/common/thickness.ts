import { rulesOf } from '../rule.ts'
import {
  at,
  atLeast,
  atMost,
  bs8204part1,
  bs8204part7Remembered,
  en1264part4,
  judgement,
  warrantyBody,
} from '../sources.ts'

export const thicknessRules = rulesOf('Thickness', {
  'thickness.cement.bonded': [
    'Least thickness of a bonded cement screed at any point?',
    atLeast(25, 'mm', bs8204part1),
    [5, 100],
  ],
  'thickness.cement.bondedUpper': [
    'Thickness above which a bonded cement screed may come loose?',
    atMost(40, 'mm', bs8204part1),
    [20, 100],
  ],
  'thickness.cement.unbonded': [
    'Least thickness of a cement screed on a separating layer?',
    atLeast(50, 'mm', bs8204part1),
    [20, 150],
  ],
  'thickness.cement.unbondedDesign': [
    'Least design thickness of a cement screed on a separating layer?',
    atLeast(70, 'mm', bs8204part1),
    [20, 150],
  ],
  'thickness.cement.floatingLight': [
    'Least thickness of a floating cement screed, light loading?',
    atLeast(65, 'mm', bs8204part1),
    [30, 150],
  ],
  'thickness.cement.floatingHeavy': [
    'Least thickness of a floating cement screed, heavier loading?',
    atLeast(75, 'mm', bs8204part1),
    [30, 200],
  ],
  'thickness.calciumSulfate.bonded': [
    'Least thickness of a bonded calcium sulfate screed?',
    atLeast(25, 'mm', bs8204part7Remembered),
    [5, 100],
  ],
  'thickness.calciumSulfate.unbonded': [
    'Least thickness of a calcium sulfate screed on a separating layer?',
    atLeast(30, 'mm', bs8204part7Remembered),
    [15, 100],
  ],
  'thickness.calciumSulfate.floatingLight': [
    'Least thickness of a floating calcium sulfate screed, light loading?',
    atLeast(35, 'mm', bs8204part7Remembered),
    [20, 120],
  ],
  'thickness.calciumSulfate.floatingHeavy': [
    'Least thickness of a floating calcium sulfate screed, heavier loading?',
    atLeast(40, 'mm', bs8204part7Remembered),
    [20, 150],
  ],
  'thickness.coverOverHeatingPipe': [
    'Least cover over heating pipes?',
    atLeast(30, 'mm', en1264part4),
    [15, 100],
  ],
  'thickness.coverOverService': [
    'Least cover over service pipes and conduits, measured over their insulation?',
    atLeast(25, 'mm', warrantyBody),
    [10, 100],
  ],
  'thickness.singleLift': [
    'Thickest cement screed to lay in one lift?',
    atMost(50, 'mm', at(bs8204part1, 'two layers above 50 mm; one page says “may”')),
    [20, 150],
  ],
  'thickness.areaPerPointM2': [
    'Largest area for each measured thickness?',
    atMost(10, 'm²', judgement),
    [1, 100],
  ],
})
