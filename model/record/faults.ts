import { type CauseCode, causeCodes, causes } from '../faults/causes.ts'
import { evidenceIds, evidenceItems } from '../faults/evidence.ts'
import { lookMethods, rateItems, repairOptionWords } from '../faults/words.ts'
import { type BodyProblem, entryKind } from './entry-kind.ts'
import { choice, day, instant, listOf, number, optional, reference, text, yesNo } from './fields.ts'
import { symptoms } from './words.ts'

const metres = { hard: [-1000, 1000] } as const
const evidenceWords = Object.fromEntries(evidenceIds.map((id) => [id, evidenceItems[id].text])) as Record<
  keyof typeof evidenceItems,
  string
>
const causeOrUnknown = { ...causes, unknown: 'Not known' } as const
const yesNoUnknown = { yes: 'Yes', no: 'No', 'not known': 'Not known' } as const

/** One reading of a crack's width at one place. */
export const crackGauged = entryKind({
  kind: 'crack-gauged',
  title: 'Crack gauged',
  about: 'bay',
  fields: {
    defect: reference('Defect', 'entry'),
    widthMm: number('Width', 'mm', { hard: [0, 30], soft: [0.05, 5] }),
    place: text('Gauge place', { max: 80, help: 'The same words for the same place each time' }),
    surfaceC: optional(number('Screed surface', '°C', { hard: [-30, 70], soft: [2, 35] })),
    rhPercent: optional(number('Relative humidity', '%', { hard: [0, 100], soft: [20, 98] })),
    note: optional(text('Note', { long: true })),
  },
})

/** What measuring or opening up showed of the size of a fault; the last of each number counts. */
export const defectMeasured = entryKind({
  kind: 'defect-measured',
  title: 'Defect measured',
  about: 'bay',
  fields: {
    defect: reference('Defect', 'entry'),
    method: choice('How', lookMethods),
    lengthM: optional(number('Length', 'm', { hard: [0, 500] })),
    areaM2: optional(number('Area', 'm²', { hard: [0, 2000] })),
    widthMm: optional(
      number('Crack width, mean of five places or more', 'mm', { hard: [0, 30], soft: [0, 5] }),
    ),
    weakToMm: optional(number('Weak down to', 'mm', { hard: [0, 250] })),
    hollowM2: optional(number('Hollow area', 'm²', { hard: [0, 2000] })),
    stepMm: optional(number('Step', 'mm', { hard: [0, 50], soft: [0, 5] })),
    rocks: optional(yesNo('Rocks or gives under foot')),
    boundaryProven: optional(yesNo('A ring of tests around it is sound')),
    pullOffMPa: optional(number('Pull-off after grinding', 'N/mm²', { hard: [0, 6], soft: [0.2, 2.5] })),
    pipesLocated: optional(
      yesNo(
        'Pipes and cables here are located',
        'Heated: before anything is cut or drilled. “No” when they cannot be found',
      ),
    ),
    trialPassed: optional(
      yesNo(
        'The trial of consolidation passed',
        'On 0.5 m²: a core shows resin to the full weak depth, and the drop weight keeps its limit',
      ),
    ),
    note: optional(text('Note', { long: true })),
  },
  problems: (body) =>
    Object.keys(body).some((name) => !['defect', 'method', 'note'].includes(name))
      ? []
      : [{ field: 'weakToMm', message: 'or another measure is needed: nothing was measured' }],
})

/** The answer to one item of evidence that the record cannot give by itself. */
export const faultEvidenceNoted = entryKind({
  kind: 'fault-evidence-noted',
  title: 'Evidence on a fault',
  about: 'bay',
  fields: {
    defect: reference('Defect', 'entry'),
    evidence: choice('What was looked for', evidenceWords),
    found: choice('Found', { true: 'True', false: 'False', 'not able to tell': 'Not able to tell' }),
    method: choice('How', lookMethods),
    lookedBy: optional(text('Who looked')),
    place: optional(text('Where, or which sample')),
    x: optional(number('x', 'm', metres)),
    y: optional(number('y', 'm', metres)),
    note: optional(text('What was seen', { long: true })),
  },
  problems: ({ found, note }) =>
    found === 'not able to tell' && note === undefined
      ? [{ field: 'note', message: 'must say why it could not be told' }]
      : [],
})

/** The cause that a person names after looking at the ranking, with what was shown to them. */
export const causeNamed = entryKind({
  kind: 'cause-named',
  title: 'Cause named',
  about: 'bay',
  fields: {
    defects: listOf('Defects', { defect: reference('Defect', 'entry') }, { least: 1, most: 60 }),
    cause: choice('Cause', causeOrUnknown),
    furtherCauses: optional(
      listOf('Causes that worked with it', { cause: choice('Cause', causes) }, { most: 21 }),
    ),
    treatedAs: optional(text('Not known, treated as')),
    reason: text('Why', { long: true }),
    causeRemoved: optional(choice('Is the cause gone', yesNoUnknown)),
    weightsVersion: text('Version of the weights', { max: 40 }),
    recordStrengthPercent: optional(number('Strength of the record', '%', { hard: [0, 100] })),
    shown: listOf(
      'Probabilities shown',
      {
        cause: choice('Cause', causes),
        probability: optional(number('Probability', '', { hard: [0, 1] })),
        logOdds: optional(number('Log-odds', '', { hard: [-100, 100] })),
        examined: yesNo('Examined'),
      },
      { least: 1, most: causeCodes.length },
    ),
  },
  problems: ({ cause, treatedAs, shown }) => [
    ...(cause === 'unknown' && treatedAs === undefined
      ? [{ field: 'treatedAs', message: 'is needed when the cause is not known: say as what it is treated' }]
      : []),
    ...repeated(
      'shown',
      shown.map((one) => one.cause),
      'cause',
    ),
  ],
})

/** Work done on a fault. Without a diagnosis of that fault it is refused. */
export const repairDone = entryKind({
  kind: 'repair-done',
  title: 'Repair done',
  about: 'bay',
  fields: {
    defect: reference('Defect', 'entry'),
    diagnosis: reference('Diagnosis: the cause named for this defect', 'entry'),
    option: choice('Repair', repairOptionWords),
    areaM2: optional(number('Treated area', 'm²', { hard: [0, 2000] })),
    outline: optional(
      listOf(
        'Treated outline, corner by corner',
        { x: number('x', 'm', metres), y: number('y', 'm', metres) },
        { least: 3, most: 60 },
      ),
    ),
    lengthM: optional(number('Treated length', 'm', { hard: [0, 500] })),
    depthMm: optional(number('Depth', 'mm', { hard: [0, 250] })),
    product: optional(text('Product')),
    litres: optional(number('Used', 'L', { hard: [0, 10000] })),
    kg: optional(number('Used', 'kg', { hard: [0, 100000] })),
    sealsSurface: optional(
      yesNo('Leaves resin or primer on or in the surface', 'A hygrometer box on it is then not valid'),
    ),
    airC: optional(number('Air temperature at work', '°C', { hard: [-30, 50], soft: [5, 30] })),
    rhPercent: optional(number('Relative humidity at work', '%', { hard: [0, 100], soft: [20, 98] })),
    startedOn: day('Started on'),
    finishedOn: day('Finished on'),
    note: optional(text('Note', { long: true })),
  },
  problems: ({ option, startedOn, finishedOn, areaM2, lengthM, outline }) => [
    ...(finishedOn < startedOn
      ? [{ field: 'finishedOn', message: 'must not be before the start of the repair' }]
      : []),
    ...(option !== 'leave' && areaM2 === undefined && lengthM === undefined && outline === undefined
      ? [{ field: 'areaM2', message: 'or a length or an outline is needed: say what was treated' }]
      : []),
  ],
})

export const repairRetested = entryKind({
  kind: 'repair-retested',
  title: 'Repair re-tested',
  about: 'bay',
  fields: {
    repair: reference('Repair', 'entry'),
    method: choice('How', lookMethods),
    result: choice('Result', { passed: 'Passed', failed: 'Failed', 'not known': 'Not known' }),
    note: optional(text('What was seen', { long: true })),
  },
})

/** A seal over the evidence as it stood, for a claim: later entries do not change what was frozen. */
export const evidenceFrozen = entryKind({
  kind: 'evidence-frozen',
  title: 'Evidence frozen',
  about: 'bay',
  fields: {
    defect: reference('Defect', 'entry'),
    contentHash: text('SHA-256 of the content', { max: 64 }),
    entriesCount: number('Entries', '', { hard: [0, 1e7], whole: true }),
    asOf: optional(instant('As it stood at')),
    bays: optional(listOf('Bays', { bay: reference('Bay', 'bay') }, { least: 1, most: 200 })),
    reason: optional(text('Why', { long: true })),
    bundle: optional(text('File of the signed bundle', { max: 200 })),
    report: optional(text('File of the report', { max: 220 })),
    reportHash: optional(text('SHA-256 of the report', { max: 64 })),
    note: optional(text('Note', { long: true })),
  },
  problems: ({ contentHash, reportHash }) =>
    Object.entries({ contentHash, reportHash }).flatMap(([field, hash]) =>
      hash === undefined || /^[0-9a-f]{64}$/.test(hash)
        ? []
        : [{ field, message: 'must be a SHA-256 in 64 lower-case hexadecimal digits' }],
    ),
})

/** The money of repairs in this project. Until a firm enters its own, rates are illustrative and say so. */
export const repairRatesSet = entryKind({
  kind: 'repair-rates-set',
  title: 'Repair rates set',
  about: 'project',
  fields: {
    basis: choice('Basis', {
      illustrative: 'Illustrative, invented for demonstration',
      own: 'Our own rates',
    }),
    rates: listOf(
      'Rates',
      {
        item: choice('Item', rateItems),
        low: number('From', 'currency', { hard: [0, 1e6] }),
        high: number('To', 'currency', { hard: [0, 1e6] }),
      },
      { least: 1, most: 60 },
    ),
    delayPerDay: optional(number('A day of delay', 'currency', { hard: [0, 1e7] })),
    recurrenceCost: optional(number('If the fault comes back', 'currency', { hard: [0, 1e9] })),
    residual: optional(
      listOf(
        'Chance that the fault comes back',
        {
          option: choice('Repair', repairOptionWords),
          percent: number('Chance', '%', { hard: [0, 100] }),
        },
        { most: 7 },
      ),
    ),
    reason: optional(text('Why', { long: true })),
  },
  problems: ({ rates, residual }) => [
    ...rates.flatMap(({ low, high }, i) =>
      high < low ? [{ field: `rates.${i}.high`, message: 'must not be below the lower rate' }] : [],
    ),
    ...repeated(
      'rates',
      rates.map(({ item }) => item),
      'item',
    ),
    ...repeated(
      'residual',
      (residual ?? []).map(({ option }) => option),
      'option',
    ),
  ],
})

/** A firm's own weights; every diagnosis keeps the version that it was made with. */
export const causeWeightsSet = entryKind({
  kind: 'cause-weights-set',
  title: 'Weights of evidence set',
  about: 'project',
  fields: {
    version: number('Version', '', { hard: [2, 100000], whole: true }),
    reason: text('Why', { long: true }),
    provenCases: optional(number('Proven cases behind it', '', { hard: [0, 100000], whole: true })),
    weights: listOf(
      'Weights of evidence',
      {
        evidence: choice('Evidence', evidenceWords),
        cause: choice('Cause', causes),
        weight: number('Weight, log-odds', '', { hard: [-5, 5], soft: [-3.5, 3.5] }),
      },
      { most: 1500 },
    ),
    points: optional(
      listOf(
        'Points of symptoms',
        {
          symptom: choice('Symptom', symptoms),
          cause: choice('Cause', causes),
          points: number('Points', '', { hard: [0, 5], whole: true }),
        },
        { most: 400 },
      ),
    ),
  },
  problems: ({ weights, points }) => [
    ...(weights.length + (points ?? []).length === 0
      ? [{ field: 'weights', message: 'or points must change something; leave the version out otherwise' }]
      : []),
    ...repeated(
      'weights',
      weights.map(({ evidence, cause }) => `${evidence} ${cause}`),
      'cause',
    ),
    ...repeated(
      'points',
      (points ?? []).map(({ symptom, cause }) => `${symptom} ${cause}`),
      'cause',
    ),
  ],
})

function repeated(list: string, keys: readonly string[], field: string): BodyProblem[] {
  const i = keys.findIndex((key, at) => keys.indexOf(key) !== at)
  return i === -1
    ? []
    : [{ field: `${list}.${i}.${field}`, message: 'stands in the list already; name it once' }]
}

export type NamedCause = CauseCode | 'unknown'
