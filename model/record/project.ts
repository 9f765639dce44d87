import { type BodyProblem, entryKind } from './entry-kind.ts'
import { choice, day, instant, listOf, number, optional, reference, text, yesNo } from './fields.ts'
import { type HoldPoint, holdPoints } from './people.ts'
import { coverings, moistureMethods } from './words.ts'

export const projectOpened = entryKind({
  kind: 'project-opened',
  title: 'Project opened',
  about: 'project',
  begins: true,
  fields: {
    name: text('Project name'),
    client: optional(text('Client')),
    address: optional(text('Site address')),
    contract: optional(text('Contract form')),
    timeZone: text('Time zone of the site', { help: 'IANA name, such as Europe/London' }),
    currency: text('Currency', { max: 3 }),
    ruleSet: choice('Standards in force', {
      british: 'British (BS 8204, BS 8203, BS 5325, BS 8201, BS 5385)',
      german: 'German (DIN 18560 and covering trades)',
      swiss: 'Swiss (SIA 253)',
      american: 'American (ASTM F710, F2170, F1869)',
    }),
    choices: optional(
      listOf('Choices where sources disagree', { question: text('Question'), option: text('Option') }),
    ),
    overrides: optional(
      listOf('Company rules', {
        rule: text('Rule'),
        value: number('Value', '', { hard: [-1e6, 1e6] }),
        reason: text('Reason', { long: true }),
      }),
    ),
    /** A photo may tell where a person stood, so its position is taken out unless the project wants it. */
    keepPhotoPosition: optional(
      yesNo(
        'Keep the camera’s position in photos',
        'Otherwise position, camera and owner are taken out of every photo that is added',
      ),
    ),
    /** Those that bind in this project; left out, all that apply to a bay do. */
    holdPoints: optional(
      listOf('Hold points that bind', { point: choice('Hold point', holdPoints) }, { most: 40 }),
    ),
  },
  problems: (body) => [
    ...timeZoneProblems(body.timeZone),
    ...repeatedPoints((body.holdPoints ?? []).map(({ point }) => point)),
  ],
})

function timeZoneProblems(timeZone: string): BodyProblem[] {
  try {
    new Intl.DateTimeFormat('en', { timeZone })
    return []
  } catch (cause) {
    const detail =
      cause instanceof RangeError
        ? 'is not a known time zone; use an IANA name such as Europe/London'
        : String(cause)
    return [{ field: 'timeZone', message: detail }]
  }
}

function repeatedPoints(points: readonly HoldPoint[]): BodyProblem[] {
  const i = points.findIndex((point, at) => points.indexOf(point) !== at)
  return i === -1
    ? []
    : [{ field: `holdPoints.${i}.point`, message: 'is chosen already; name each point once' }]
}

export const floorAdded = entryKind({
  kind: 'floor-added',
  title: 'Floor added',
  about: 'floor',
  begins: true,
  fields: {
    name: text('Floor'),
    level: number('Order from the bottom', '', { hard: [-20, 200], whole: true }),
    base: choice('Base', {
      'ground slab': 'Ground slab',
      'suspended slab': 'Suspended slab',
      'metal deck': 'Slab on metal deck',
      'precast units': 'Precast units with topping',
      other: 'Other',
    }),
    baseCastOn: optional(day('Base cast on')),
    datumM: optional(number('Datum', 'm', { hard: [-500, 9000], soft: [-200, 200] })),
    baseJoints: optional(
      listOf('Joints and cracks in the base', {
        fromX: number('From x', 'm', { hard: [-1000, 1000] }),
        fromY: number('From y', 'm', { hard: [-1000, 1000] }),
        toX: number('To x', 'm', { hard: [-1000, 1000] }),
        toY: number('To y', 'm', { hard: [-1000, 1000] }),
        widthMm: optional(number('Width', 'mm', { hard: [0, 100], soft: [0, 20] })),
      }),
    ),
  },
})

export const zoneAdded = entryKind({
  kind: 'zone-added',
  title: 'Zone added',
  about: 'zone',
  begins: true,
  fields: {
    floor: reference('Floor', 'floor'),
    name: text('Zone'),
    use: optional(text('Use of the rooms')),
    loading: choice('Loading', { light: 'Light (dwellings, offices)', other: 'Heavier' }),
    soundness: choice('Soundness category', { A: 'A', B: 'B', C: 'C' }),
    regularity: choice('Surface regularity class', { SR1: 'SR1', SR2: 'SR2', SR3: 'SR3' }),
    heated: yesNo('Heated floor'),
    circuits: optional(text('Heating circuits')),
    maxSurfaceC: optional(number('Highest surface temperature', '°C', { hard: [10, 60], soft: [20, 35] })),
    covering: choice('Covering to be laid', coverings),
    moistureMethod: choice('Agreed moisture test', moistureMethods),
    limitByContract: optional(
      number('Moisture limit by contract', '% of the agreed test', { hard: [0.1, 95] }),
    ),
    limitReason: optional(text('Where the contract limit stands')),
  },
  problems: (body) =>
    body.limitByContract !== undefined && body.limitReason === undefined
      ? [{ field: 'limitReason', message: 'is needed with a contract limit: say where it stands' }]
      : [],
})

export const weatherForecast = entryKind({
  kind: 'weather-forecast-noted',
  title: 'Weather forecast noted',
  about: 'project',
  fields: {
    from: instant('From'),
    until: instant('Until'),
    lowestC: number('Lowest air temperature', '°C', { hard: [-40, 50], soft: [-20, 35] }),
    highestC: number('Highest air temperature', '°C', { hard: [-40, 60], soft: [-15, 40] }),
    rhPercent: optional(number('Mean relative humidity', '%', { hard: [0, 100], soft: [20, 98] })),
    windMs: optional(number('Wind', 'm/s', { hard: [0, 60], soft: [0, 20] })),
    givenBy: text('Where the forecast comes from'),
  },
  problems: (body) => [
    ...(Date.parse(body.until) > Date.parse(body.from)
      ? []
      : [{ field: 'until', message: 'must be after the start of the forecast' }]),
    ...(body.highestC >= body.lowestC
      ? []
      : [{ field: 'highestC', message: 'must not be below the lowest temperature' }]),
  ],
})
