import type { RepairOptionId } from '../words.ts'
import type { Asked } from './ask.ts'

const silica =
  'Cutting, grinding and drilling give silica dust: extraction or water, a fitted mask, never dry sweep. The limit is not a safe level.'
const resin =
  'Resin: uncured it can sensitise skin and lungs for life. Read the safety sheet; nitrile gloves, eye protection, ventilation.'
const pipes =
  'Scan for pipes and cables and isolate them before cutting; in old buildings check for asbestos.'
const cement = 'Wet cement burns without pain: waterproof gloves, knee boards, wash at once.'
const rubble = 'Rubble is heavy: do not stack it on the floor without asking what the floor carries.'
const vapour =
  'Resin and primer hide vapour: a hygrometer box on the treated surface is not valid; use a probe in untreated depth.'

/** Returns the cautions of the work, to be passed on to the crew. */
export function cautionsFor(
  option: RepairOptionId,
  { question: { construction, heated, extent } }: Asked,
): string[] {
  const cutHeated = heated
    ? [pipes, 'The heating engineer decides on any cut near a circuit; test its pressure after.']
    : [pipes]
  switch (option) {
    case 'leave':
      return []
    case 'remove skin':
      return [silica, resin, vapour]
    case 'fill':
      return [
        resin,
        silica,
        ...(construction === 'floating' && (extent.widthMm ?? 0) > 1
          ? [
              'Floating: the underside is open and resin runs into the insulation; seal it or count on twice the resin.',
            ]
          : []),
        ...((extent.stepMm ?? 0) > 2 && heated
          ? ['Never cut slots for ties over pipes that are not located.']
          : []),
        vapour,
      ]
    case 'consolidate':
      return [resin, 'A full bucket of resin heats up by itself: spread it at once.', silica, vapour]
    case 'patch':
    case 'replace':
      return [silica, ...cutHeated, cement, rubble]
    case 'turn into joint':
      return [
        silica,
        ...cutHeated,
        ...(heated ? ['Check that the pipes that cross the joint lie in sleeves.'] : []),
        'Carry the joint through the covering; tell who lays it.',
      ]
  }
}

/** Returns what has to be tested again (R11). */
export function retestsFor(option: RepairOptionId): string[] {
  const moisture = 'Moisture again, by a probe in untreated depth: a box on the treated surface is not valid.'
  switch (option) {
    case 'leave':
      return ['Look at it and gauge it again before the covering goes down.']
    case 'remove skin':
      return ['Pull-off or scratch on the ground surface.', 'Regularity after the skim.', moisture]
    case 'fill':
      return ['Tap along it and gauge it after seven days: no new crack beside it.', moisture]
    case 'consolidate':
      return [
        'Core: resin to the full weak depth.',
        'Drop weight within the limit of the category.',
        moisture,
      ]
    case 'patch':
      return [
        'Drop weight on the patch and around it at 14 days.',
        'Regularity across its edge.',
        'Moisture of the patch by a valid test; it is younger than the bay.',
      ]
    case 'replace':
      return ['Everything that a new bay asks for: thickness, curing, soundness, regularity, moisture.']
    case 'turn into joint':
      return ['Look at the joint after seven days.', 'Where heated: pressure of the circuits.']
  }
}
