import { dayMs } from '#model/time.ts'
import { dewPointC, surfaceRhPercent } from '../../air/index.ts'
import type { EffectiveRules, Limit } from '../../rules/index.ts'
import type { ConstantClimate } from '../climate.ts'
import type { ForecastInput, Prepared } from '../forecast/question.ts'
import type { AirState } from '../humidity-ratio.ts'
import type { WayCaution, WayId } from './shapes.ts'

export interface CautionScene {
  way: WayId
  /** The room from now on. */
  air: Required<ConstantClimate>
  now: Required<ConstantClimate>
  outdoor: AirState | null
  bays: readonly { name: string; input: ForecastInput; prepared: Prepared }[]
  rules: EffectiveRules
  /** Says an instant as a day on the site's calendar. */
  dayOf: (atMs: number) => string
}

const heats: readonly WayId[] = ['heat', 'heat and ventilate', 'heat and dehumidify', 'floor heating']
const ventilates: readonly WayId[] = ['ventilate', 'heat and ventilate', 'floor heating']
const driesAir: readonly WayId[] = ['dehumidify', 'heat and dehumidify']

/** Returns what must not be done yet, and what to take care of, on one way. Waiting asks for no care of its own. */
export function cautionsOfWay(scene: CautionScene): WayCaution[] {
  if (scene.way === 'wait') return dampRoom(scene)
  return [
    ...youngBays(scene),
    ...floorHeating(scene),
    ...outdoorAir(scene),
    ...dampRoom(scene),
    ...harshAir(scene),
    ...heaters(scene),
  ].sort((a, b) => Number(b.stops) - Number(a.stops))
}

function youngBays({ way, air, bays, rules, dayOf }: CautionScene): WayCaution[] {
  const { limits } = rules
  const curing = bays.filter(({ prepared }) => prepared.asOfMs < prepared.dryMs)
  const found: WayCaution[] = curing.map(({ name, prepared }) =>
    stop(
      `${name} is curing until ${dayOf(prepared.dryMs)}: leave it sealed, neither heat nor dry it. What is shown here begins after that.`,
      limits['cure.days'],
    ),
  )
  const isForced = driesAir.includes(way) || way === 'heat' || way === 'heat and ventilate'
  const soon = bays.filter(
    ({ prepared }) =>
      prepared.turnMs < prepared.dryMs + limits['drying.forcedStopDays'].value * dayMs && isForced,
  )
  for (const { name, prepared } of soon)
    found.push(
      stop(
        `${name}: no drying by force until ${dayOf(prepared.dryMs + limits['drying.forcedStopDays'].value * dayMs)}, ${limits['drying.forcedStopDays'].value} days after curing. The layer is weak and cracks, curls or lets go of its base.`,
        limits['drying.forcedStopDays'],
      ),
    )
  const young = bays.some(
    ({ prepared }) =>
      prepared.material.binder === 'cement' &&
      prepared.turnMs - prepared.laidMs < limits['drying.forcedWatchDays'].value * dayMs,
  )
  if (young && soon.length === 0 && isForced)
    found.push(
      care(
        `Younger than ${limits['drying.forcedWatchDays'].value} days: dried fast, a cement screed may crack, curl or lose its bond. Go gently and look at edges and joints each day.`,
        limits['drying.forcedWatchDays'],
      ),
    )
  if (young && air.airC > limits['drying.forcedAirMostC'].value)
    found.push(
      care(
        `Warmer than ${limits['drying.forcedAirMostC'].value} °C is too warm for a bay this young.`,
        limits['drying.forcedAirMostC'],
      ),
    )
  return found
}

function floorHeating({ way, air, bays, rules, dayOf }: CautionScene): WayCaution[] {
  if (way !== 'floor heating') return []
  const { limits } = rules
  const found: WayCaution[] = []
  for (const { name, prepared } of bays) {
    const first =
      limits[prepared.material.binder === 'cement' ? 'heat.firstCementDays' : 'heat.firstCalciumSulfateDays']
    const at = prepared.laidMs + first.value * dayMs
    if (prepared.turnMs < at)
      found.push(stop(`${name}: no first heat before ${dayOf(at)}, ${first.value} days after laying.`, first))
  }
  if (air.screedC > limits['heat.surfaceMostC'].value)
    found.push(
      stop(`Floors in use stay below ${limits['heat.surfaceMostC'].value} °C.`, limits['heat.surfaceMostC']),
    )
  found.push(
    care(
      `Only by the heating protocol of maker and standard: first ${limits['heat.functionalC'].value} °C flow for ${limits['heat.functionalDays'].value} days, then by small daily steps, each written down. Heating is off for the test.`,
      limits['heat.functionalC'],
    ),
  )
  return found
}

function outdoorAir({ way, air, now, outdoor, bays, rules }: CautionScene): WayCaution[] {
  if (!ventilates.includes(way) || outdoor === null) return []
  const found: WayCaution[] = []
  const margin = rules.limits['drying.condensationK']
  if (dewPointC(outdoor.airC, Math.max(1, outdoor.rhPercent)) > air.screedC - margin.value)
    found.push(stop('Outdoor air would condense on this floor: keep it out.', margin))
  const least = Math.min(
    ...bays.map(({ input }) => (/RH/.test(input.limit.unit) ? input.limit.value : Number.POSITIVE_INFINITY)),
  )
  const brought = surfaceRhPercent({ ...outdoor, surfaceC: air.screedC })
  if (brought >= least)
    found.push(
      stop(
        `Ventilating would wet the floor: outdoor air has ${brought.toFixed(0)} % RH at its temperature, the limit is ${least} %.`,
        balance,
      ),
    )
  else if (air.rhPercent > now.rhPercent + 0.5)
    found.push(
      care(
        `Ventilating makes this room damper (${air.rhPercent.toFixed(0)} %) than it is now (${now.rhPercent.toFixed(0)} %). In such weather keep it shut and dehumidify.`,
        balance,
      ),
    )
  return found
}

function dampRoom({ way, air }: CautionScene): WayCaution[] {
  if (air.rhPercent < 85) return []
  const says =
    way === 'wait'
      ? `At ${air.rhPercent.toFixed(0)} % the room is too damp to dry in: change its air.`
      : `The room would reach ${air.rhPercent.toFixed(0)} % and water condenses on cold surfaces: its air must be changed or dried as well.`
  return [care(says, balance)]
}

function harshAir({ way, air, now }: CautionScene): WayCaution[] {
  const found: WayCaution[] = []
  if (driesAir.includes(way) && now.rhPercent <= air.rhPercent)
    found.push(care('The room is as dry as that already.', balance))
  if (air.rhPercent < 40)
    found.push(care('Air this dry raises the risk of curling at edges and joints.', judgement))
  if (driesAir.includes(way))
    found.push(
      care(
        'Windows and doors shut, or outdoor air is dried too; wet air of a desiccant machine goes outside.',
        practice,
      ),
    )
  return found
}

function heaters({ way }: CautionScene): WayCaution[] {
  if (!heats.includes(way) || way === 'floor heating') return []
  return [
    {
      says: `No burner without a flue: each kilogram of propane gives ${waterOfPropane.toFixed(1)} kg of water to the room, and carbon monoxide, which kills without a smell. Electric or flued heat only; alarm, and nobody sleeps there.`,
      source: 'C3H8 + 5 O2 → 3 CO2 + 4 H2O',
      provenance: 'published',
      stops: false,
    },
    care('Raise the temperature by a few kelvin a day, and let it fall as slowly.', practice),
  ]
}

/** Water from burning propane [kg per kg of gas]: 4 × 18.015 / 44.097. */
export const waterOfPropane = (4 * 18.015) / 44.097

const judgement = { source: 'our judgement', provenance: 'our judgement' } as const
const practice = { source: 'the trade', provenance: 'common practice' } as const
const balance = { source: 'balance of water vapour', provenance: 'published' } as const

type Origin = Pick<Limit, 'source' | 'provenance'> & Partial<Pick<Limit, 'clause'>>

function stop(says: string, origin: Origin): WayCaution {
  return { ...care(says, origin), stops: true }
}

function care(says: string, { source, clause, provenance }: Origin): WayCaution {
  return { says, source: clause === undefined ? source : `${source}, ${clause}`, provenance, stops: false }
}
