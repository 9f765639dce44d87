import { entryKind, notBefore } from './entry-kind.ts'
import { choice, instant, listOf, number, optional, reference, text, yesNo } from './fields.ts'
import { moistureMethods } from './words.ts'

const readings = listOf(
  'Readings, oldest first',
  {
    at: instant('Read at'),
    rhPercent: number('Relative humidity', '%', { hard: [20, 100], soft: [50, 99] }),
    boxC: optional(number('Air in the box or sleeve', '°C', { hard: [-10, 60], soft: [10, 30] })),
  },
  { most: 60 },
)

/**
 * One moisture test by any method. Which fields count depends on `method`; what is left out is unknown and is
 * never read as good. `happenedAt` of the entry is the time of the (last) reading.
 */
export const moistureRead = entryKind({
  kind: 'moisture-read',
  title: 'Moisture test',
  about: 'bay',
  fields: {
    method: choice('Method', moistureMethods),
    point: text('Test point', { max: 40 }),
    x: optional(number('x', 'm', { hard: [-1000, 1000] })),
    y: optional(number('y', 'm', { hard: [-1000, 1000] })),
    wettestPoint: optional(yesNo('Chosen as the wettest place (meter survey)')),
    instrument: optional(reference('Instrument', 'instrument')),
    setAt: optional(instant('Box set, hole drilled or dish placed at')),
    readings: optional(readings),
    probeSoakMin: optional(number('Probe soak', 'min', { hard: [0, 10000], soft: [30, 2000] })),
    sealOk: optional(yesNo('Seal unbroken')),
    holeDepthMm: optional(number('Depth of hole', 'mm', { hard: [5, 150] })),
    pipesLocated: optional(yesNo('Pipes and cables located before drilling')),
    heatingOffSince: optional(instant('Heating off since')),
    driersOffSince: optional(instant('Dryers off since')),
    conditionedSince: optional(instant('Room at service temperature and humidity since')),
    groundAt: optional(instant('Spot ground clean at')),
    neverHeated: optional(yesNo('No heating or dryers in use')),
    roomC: optional(number('Room air', '°C', { hard: [-20, 50], soft: [10, 30] })),
    roomRhPercent: optional(number('Room humidity', '%', { hard: [0, 100], soft: [20, 90] })),
    floorC: optional(number('Floor surface', '°C', { hard: [-20, 60], soft: [8, 30] })),
    sampleG: optional(number('Sample mass', 'g', { hard: [10, 5000], soft: [20, 200] })),
    depthFromMm: optional(number('Sample from', 'mm', { hard: [0, 200] })),
    depthToMm: optional(number('Sample to', 'mm', { hard: [0, 200] })),
    pressureBar: optional(number('Pressure', 'bar', { hard: [0, 10] })),
    cmPercent: optional(number('Carbide moisture', 'CM-%', { hard: [0, 12], soft: [0.1, 5] })),
    wetG: optional(number('Wet mass with tin', 'g', { hard: [1, 10000] })),
    dryG: optional(number('Dry mass with tin', 'g', { hard: [1, 10000] })),
    tareG: optional(number('Tin', 'g', { hard: [0, 5000] })),
    ovenC: optional(number('Oven', '°C', { hard: [20, 200], soft: [40, 105] })),
    ovenHours: optional(number('Time in oven', 'h', { hard: [0.5, 500] })),
    gainG: optional(number('Gain of the dish', 'g', { hard: [0, 100], soft: [0, 10] })),
    exposedAreaM2: optional(number('Exposed area', 'm²', { hard: [0.001, 1], soft: [0.03, 0.06] })),
    meterReading: optional(number('Meter reading', '', { hard: [0, 1000] })),
    meterScale: optional(text('Meter scale')),
    note: optional(text('Note', { long: true })),
  },
  problems: (body) => {
    const needs = (
      field:
        | 'readings'
        | 'cmPercent'
        | 'wetG'
        | 'dryG'
        | 'gainG'
        | 'setAt'
        | 'exposedAreaM2'
        | 'meterReading',
    ) =>
      body[field] === undefined || (Array.isArray(body[field]) && body[field].length === 0)
        ? [{ field, message: `is needed for a test by ${moistureMethods[body.method].toLowerCase()}` }]
        : []
    const inOrder = (body.readings ?? []).flatMap((reading, i) =>
      notBefore(
        `readings.${i}.at`,
        reading.at,
        i === 0 ? body.setAt : body.readings?.[i - 1]?.at,
        'must not be before what went before it',
      ),
    )
    switch (body.method) {
      case 'hygrometer box':
      case 'probe':
        return [...needs('setAt'), ...needs('readings'), ...inOrder]
      case 'crushed sample':
        return needs('readings')
      case 'carbide':
        return needs('cmPercent')
      case 'oven dry': {
        const wrong =
          body.wetG !== undefined && body.dryG !== undefined && body.dryG > body.wetG
            ? [{ field: 'dryG', message: 'must not exceed the wet mass' }]
            : []
        return [...needs('wetG'), ...needs('dryG'), ...wrong]
      }
      case 'calcium chloride':
        return [...needs('setAt'), ...needs('gainG'), ...needs('exposedAreaM2')]
      case 'electrical survey':
        return needs('meterReading')
    }
  },
})
