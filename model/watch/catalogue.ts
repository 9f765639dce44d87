import { curing } from './families/curing.ts'
import { dryingClimate } from './families/drying-climate.ts'
import { dryingOut } from './families/drying-out.ts'
import { frost } from './families/frost.ts'
import { heating } from './families/heating.ts'
import { holdPoints } from './families/hold-points.ts'
import { joints } from './families/joints.ts'
import { laying } from './families/laying.ts'
import { mixing } from './families/mixing.ts'
import { moistureCourse } from './families/moisture-course.ts'
import { moistureTests } from './families/moisture-tests.ts'
import { record } from './families/record.ts'
import { traffic } from './families/traffic.ts'
import type { AlertRule } from './rule.ts'

/** Every alert that stands on facts alone, family by family. */
export const catalogue: readonly AlertRule[] = [
  ...frost,
  ...dryingOut,
  ...mixing,
  ...laying,
  ...joints,
  ...curing,
  ...traffic,
  ...heating,
  ...dryingClimate,
  ...moistureTests,
  ...moistureCourse,
  ...holdPoints,
  ...record,
]
