import type { FaultState } from '#model/contract/faults.ts'
import type { RepairDecision, RepairOption } from '#model/faults/repair/shapes.ts'
import type { Band } from '#model/faults/score.ts'
import type { Movement, NextTest } from '#model/faults/shapes.ts'

/** How far a fault has come. */
export const states: Record<FaultState, string> = {
  open: 'Open',
  'cause named': 'Cause named',
  repaired: 'Repaired',
  're-test failed': 'Re-test failed',
  're-tested': 'Re-tested',
  closed: 'Closed',
}

/** Whether a crack moves. */
export const movements: Record<Movement['verdict'], string> = {
  live: 'Live',
  dormant: 'Dormant',
  'not known': 'Not known',
}

/** How a cause stands. */
export const bands: Record<Band, string> = {
  supported: 'Supported',
  possible: 'Possible',
  unlikely: 'Unlikely',
  refuted: 'Refuted',
}

/** Whether a repair may be done. */
export const verdicts: Record<RepairOption['verdict'], string> = {
  allowed: 'Allowed',
  excluded: 'Excluded',
  'measure first': 'Measure first',
}

/** What decides before any repair. */
export const outcomes: Record<RepairDecision['outcome'], string> = {
  'stop: engineer': 'Stop: ask an engineer',
  'tests first': 'Tests first',
  'stop the source': 'Stop the source first',
  choose: 'An option can be chosen',
}

/** What a look or a test costs. */
export const costs: Record<NextTest['cost'], string> = {
  minutes: 'Minutes',
  hour: 'An hour',
  laboratory: 'Laboratory',
}
