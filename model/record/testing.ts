import { structuralSigns } from '../faults/words.ts'
import { entryKind } from './entry-kind.ts'
import { choice, day, listOf, number, optional, reference, text, yesNo } from './fields.ts'

export const soundnessTested = entryKind({
  kind: 'soundness-tested',
  title: 'Soundness tested',
  about: 'bay',
  fields: {
    weightKg: choice('Weight', { '4': '4 kg', '2': '2 kg' }),
    blows: number('Blows on one spot', '', { hard: [1, 10], soft: [4, 4], whole: true }),
    points: listOf(
      'Points',
      {
        indentationMm: number('Indentation', 'mm', { hard: [0, 40], soft: [0.5, 10] }),
        place: optional(
          choice('Place', {
            field: 'In the field',
            doorway: 'Doorway',
            joint: 'At a joint',
            corridor: 'Corridor',
          }),
        ),
        x: optional(number('x', 'm', { hard: [-1000, 1000] })),
        y: optional(number('y', 'm', { hard: [-1000, 1000] })),
      },
      { least: 1 },
    ),
    instrument: optional(reference('Instrument', 'instrument')),
  },
})

export const surfaceTested = entryKind({
  kind: 'surface-tested',
  title: 'Surface tested',
  about: 'bay',
  fields: {
    method: choice('Method', { scratch: 'Scratch', hammer: 'Hammer', 'pull-off': 'Pull-off' }),
    grade: optional(number('Grade, 0 best to 4 worst', '', { hard: [0, 4], whole: true })),
    pullOffMPa: optional(number('Pull-off', 'N/mm²', { hard: [0, 6], soft: [0.2, 2.5] })),
    failurePlane: optional(text('Where it broke')),
    note: optional(text('Note', { long: true })),
  },
})

export const regularityChecked = entryKind({
  kind: 'regularity-checked',
  title: 'Regularity checked',
  about: 'bay',
  fields: {
    straightedgeM: number('Straightedge', 'm', { hard: [0.5, 5], soft: [2, 2] }),
    gapsMm: listOf(
      'Greatest gap on each line',
      { mm: number('Gap', 'mm', { hard: [0, 60], soft: [0, 15] }) },
      { least: 1 },
    ),
  },
})

export const levelChecked = entryKind({
  kind: 'level-checked',
  title: 'Level checked',
  about: 'bay',
  fields: {
    departuresMm: listOf(
      'Departure from datum',
      { mm: number('Departure', 'mm', { hard: [-200, 200], soft: [-15, 15] }) },
      { least: 1 },
    ),
  },
})

export const defectFound = entryKind({
  kind: 'defect-found',
  title: 'Defect found',
  about: 'bay',
  fields: {
    symptom: text('Symptom', { max: 3, help: 'S01 to S17' }),
    firstSeenOn: day('First seen on'),
    extent: choice('Extent', { spot: 'A spot', part: 'Part of the bay', whole: 'The whole bay' }),
    lengthM: optional(number('Length', 'm', { hard: [0, 500] })),
    areaM2: optional(number('Area', 'm²', { hard: [0, 2000] })),
    widthMm: optional(number('Crack width', 'mm', { hard: [0, 30], soft: [0, 5] })),
    cardSlidesIn: optional(yesNo('A bank card slides in')),
    stepMm: optional(number('Step', 'mm', { hard: [0, 50], soft: [0, 5] })),
    growing: optional(choice('Still growing', { yes: 'Yes', no: 'No', 'not known': 'Not known' })),
    x: optional(number('x', 'm', { hard: [-1000, 1000] })),
    y: optional(number('y', 'm', { hard: [-1000, 1000] })),
    shape: optional(choice('Drawn as', { point: 'A point', line: 'A line', area: 'An area' })),
    outline: optional(
      listOf(
        'Where it is, point by point',
        {
          x: number('x', 'm', { hard: [-1000, 1000] }),
          y: number('y', 'm', { hard: [-1000, 1000] }),
        },
        { least: 1, most: 60 },
      ),
    ),
    weakToMm: optional(number('Weak down to', 'mm', { hard: [0, 250] })),
    hollowM2: optional(number('Hollow area', 'm²', { hard: [0, 2000] })),
    rocks: optional(yesNo('Rocks or gives under foot')),
    seenOnHeatUp: optional(yesNo('First seen while heating up')),
    structuralSigns: optional(choice('Signs in the structure', structuralSigns)),
    note: optional(text('Note', { long: true })),
  },
  problems: (body) =>
    /^S(0[1-9]|1[0-7])$/.test(body.symptom)
      ? []
      : [{ field: 'symptom', message: 'must be a code from S01 to S17' }],
})

export const defectClosed = entryKind({
  kind: 'defect-closed',
  title: 'Defect closed',
  about: 'bay',
  fields: {
    defect: reference('Defect', 'entry'),
    how: choice('How', {
      repaired: 'Repaired and re-tested',
      accepted: 'Accepted with a note',
      'not a defect': 'Found not to be a defect',
    }),
    note: text('What was seen', { long: true }),
  },
})

export const instrumentAdded = entryKind({
  kind: 'instrument-added',
  title: 'Instrument added',
  about: 'instrument',
  begins: true,
  fields: {
    type: choice('Type', {
      hygrometer: 'Hygrometer',
      'rh probe': 'RH probe',
      'carbide vessel': 'Carbide vessel',
      thermometer: 'Thermometer',
      logger: 'Logger',
      'drop weight': 'Drop-weight apparatus',
      balance: 'Balance',
      'electrical meter': 'Electrical meter',
      straightedge: 'Straightedge',
    }),
    serial: text('Serial number'),
    certificate: optional(text('Certificate number')),
    certificateOn: optional(day('Certificate date')),
    dueOn: optional(day('Certificate due')),
  },
})

export const instrumentChecked = entryKind({
  kind: 'instrument-checked',
  title: 'Instrument checked',
  about: 'instrument',
  fields: {
    check: choice('Check', {
      salt: 'Salt check at 75 %',
      reference: 'Against a reference',
      certificate: 'New certificate',
    }),
    foundPercent: optional(number('Reading in the salt chamber', '%', { hard: [0, 100], soft: [70, 80] })),
    soakHours: optional(number('Soak', 'h', { hard: [0, 500], soft: [12, 72] })),
    passed: yesNo('Passed'),
    dueOn: optional(day('Next due')),
  },
})
