import { InputError, requireNumber } from '../errors.ts'
import { noExposure } from './exposure.ts'
import { dryFor } from './march.ts'
import { bayFrom, type DryingState } from './simulate.ts'
import { transportFactor } from './vapour.ts'

/**
 * Returns what an insulated hygrometer box on the face would read [% RH] after `hours`.
 * The face under the box is sealed from the state on and the profile evens out below it; the box reads the face.
 * Moisture from beside the box is left out. In the model a 72 h box reads 5–12 % RH below the later even value on
 * thick or dense layers; that bias has not been measured on a site.
 * @param args.state a state from `simulateDrying(…).state(at)`
 * @param args.hours how long the box has stood [h], 0–2000
 * @errors InputError naming the field
 * @source one-dimensional case of the box of BS 8203
 * @provenance our judgement
 */
export function boxReading({ state, hours }: { state: DryingState; hours: number }): number {
  requireNumber('hours', hours, 0, 2000, 'h')
  if (!Array.isArray(state?.h) || state.h.length < 6)
    throw new InputError('state', 'state is not a drying state; take it from simulateDrying(…).state(at).')
  const bay = bayFrom(state)
  const sealed = { ...noExposure(), transport: transportFactor(state.screedC) }
  const noFlux = { pull: 0, push: 0 }
  const steps = Math.ceil(hours)
  for (let i = 0; i < steps; i++) dryFor(bay, (hours / steps) * 3600, sealed, noFlux)
  return 100 * bay.column.h[0]!
}
