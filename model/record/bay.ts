import { InputError } from '../errors.ts'
import { cleanOutline } from '../movement/polygon.ts'
import { type BodyProblem, entryKind, notBefore } from './entry-kind.ts'
import { choice, day, instant, listOf, number, optional, reference, text, yesNo } from './fields.ts'
import { constructions, screeds } from './words.ts'

const metres = { hard: [-1000, 1000] } as const

export const bayPlanned = entryKind({
  kind: 'bay-planned',
  title: 'Bay planned',
  about: 'bay',
  begins: true,
  fields: {
    zone: reference('Zone', 'zone'),
    name: text('Bay'),
    outline: listOf(
      'Outline, corner by corner',
      { x: number('x', 'm', metres), y: number('y', 'm', metres) },
      { least: 3, most: 60 },
    ),
    screed: choice('Screed', screeds),
    designation: optional(text('Designation', { help: 'EN 13813, such as CT-C25-F4' })),
    construction: choice('Construction', constructions),
    designThicknessMm: number('Design thickness', 'mm', { hard: [10, 200], soft: [25, 110] }),
    minThicknessMm: optional(number('Least thickness allowed', 'mm', { hard: [10, 200], soft: [25, 110] })),
    cementClass: optional(
      choice('Cement class (EN 1992-1-1)', { S: 'S, slow', N: 'N, normal', R: 'R, rapid' }),
    ),
    fcm28MPa: optional(number('Mean strength at 28 days', 'N/mm²', { hard: [3, 90], soft: [12, 50] })),
    insulation: optional(text('Insulation')),
    membrane: optional(text('Membrane')),
    pipeCoverMm: optional(number('Cover over pipes', 'mm', { hard: [0, 200], soft: [25, 80] })),
    plannedFor: optional(instant('Planned for')),
  },
  problems: (body) => [
    ...(body.minThicknessMm !== undefined && body.minThicknessMm > body.designThicknessMm
      ? [{ field: 'minThicknessMm', message: 'must not exceed the design thickness' }]
      : []),
    ...outlineProblems(body.outline),
  ],
})

/** An outline whose sides cross or that encloses nothing is no bay. */
function outlineProblems(outline: readonly { x: number; y: number }[]): BodyProblem[] {
  try {
    cleanOutline(outline)
    return []
  } catch (cause) {
    if (!(cause instanceof InputError)) throw cause
    return [{ field: 'outline', message: `must go once around the bay. ${cause.message}` }]
  }
}

export const baseSurveyed = entryKind({
  kind: 'base-surveyed',
  title: 'Base surveyed',
  about: 'bay',
  fields: {
    prepared: choice('Preparation', {
      'mechanically prepared': 'Mechanically prepared, clean',
      tamped: 'Tamped or floated only',
      membrane: 'Membrane or boards laid',
      'not prepared': 'Not prepared',
    }),
    dry: yesNo('Free of standing water'),
    clean: yesNo('Clean and sound'),
    baseC: optional(number('Base temperature', '°C', { hard: [-20, 60], soft: [2, 35] })),
    slurryAt: optional(instant('Slurry or primer brushed at')),
    highSpotMm: optional(number('Highest spot above level', 'mm', { hard: [-200, 200], soft: [-30, 30] })),
    note: optional(text('Note', { long: true })),
  },
})

export const edgeStripFitted = entryKind({
  kind: 'edge-strip-fitted',
  title: 'Edge strip fitted',
  about: 'bay',
  fields: {
    thicknessMm: number('Strip thickness', 'mm', { hard: [1, 50], soft: [5, 15] }),
    complete: yesNo('All walls and columns, above finished level'),
    missingAt: optional(text('Where it is missing or bridged')),
  },
  problems: (body) =>
    body.complete || body.missingAt !== undefined
      ? []
      : [{ field: 'missingAt', message: 'is needed when the strip is not complete' }],
})

export const pipesTested = entryKind({
  kind: 'pipes-pressure-tested',
  title: 'Heating pipes pressure-tested',
  about: 'zone',
  fields: {
    medium: choice('Medium', { water: 'Water', air: 'Air' }),
    startBar: number('Pressure at the start', 'bar', { hard: [0, 20], soft: [2, 6] }),
    endBar: number('Pressure at the end', 'bar', { hard: [0, 20], soft: [2, 6] }),
    hours: number('Duration', 'h', { hard: [0.1, 240], soft: [1, 48] }),
    passed: yesNo('Passed'),
  },
})

export const liftLaid = entryKind({
  kind: 'lift-laid',
  title: 'Lift laid',
  about: 'bay',
  fields: {
    lift: number('Lift', '', { hard: [1, 4], whole: true }),
    startedAt: instant('Started'),
    finishedAt: instant('Finished'),
    thicknessMm: number('Thickness of this lift', 'mm', { hard: [5, 200], soft: [15, 60] }),
    compaction: choice('Compaction', {
      tamped: 'Tamped by hand',
      plate: 'Plate or roller',
      flowing: 'Flowing screed, dappled',
      none: 'Not compacted',
    }),
    roughened: optional(yesNo('Surface roughened for the next lift')),
  },
  problems: (body) =>
    notBefore('finishedAt', body.finishedAt, body.startedAt, 'must not be before the start of the lift'),
})

export const bayFinished = entryKind({
  kind: 'bay-finished',
  title: 'Bay finished',
  about: 'bay',
  fields: {
    startedAt: instant('Laying started'),
    finish: choice('Finish', {
      float: 'Wood float',
      steel: 'Steel trowel',
      power: 'Power trowel',
      dappled: 'Dappled (flowing)',
    }),
    splashed: optional(yesNo('Water splashed or cement dusted on')),
    crew: optional(number('Crew', 'people', { hard: [1, 40], soft: [2, 8], whole: true })),
    meanThicknessMm: optional(number('Mean thickness found', 'mm', { hard: [10, 200], soft: [25, 110] })),
    note: optional(text('Note', { long: true })),
  },
})

export const thicknessMeasured = entryKind({
  kind: 'thickness-measured',
  title: 'Thickness measured',
  about: 'bay',
  fields: {
    points: listOf(
      'Points',
      {
        mm: number('Thickness', 'mm', { hard: [5, 250], soft: [25, 110] }),
        x: optional(number('x', 'm', metres)),
        y: optional(number('y', 'm', metres)),
      },
      { least: 1 },
    ),
  },
})

export const jointFormed = entryKind({
  kind: 'joint-formed',
  title: 'Joint formed',
  about: 'bay',
  fields: {
    joint: choice('Joint', {
      movement: 'Movement joint',
      inducer: 'Crack inducer',
      day: 'Day joint',
      base: 'Joint over a base joint',
    }),
    fromX: number('From x', 'm', metres),
    fromY: number('From y', 'm', metres),
    toX: number('To x', 'm', metres),
    toY: number('To y', 'm', metres),
    depthMm: optional(number('Depth', 'mm', { hard: [1, 250], soft: [10, 80] })),
  },
})

export const coveringLaid = entryKind({
  kind: 'covering-laid',
  title: 'Covering laid',
  about: 'bay',
  fields: { on: day('Laid on'), covering: text('Covering'), by: optional(text('Laid by')) },
})
