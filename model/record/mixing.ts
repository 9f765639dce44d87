import { entryKind, notBefore } from './entry-kind.ts'
import { choice, instant, number, optional, text } from './fields.ts'

export const batchMixed = entryKind({
  kind: 'batch-mixed',
  title: 'Batch mixed',
  about: 'bay',
  fields: {
    number: number('Batch number', '', { hard: [1, 100000], whole: true }),
    cementKg: number('Cement', 'kg', { hard: [5, 2000], soft: [20, 200] }),
    cementType: optional(text('Cement type')),
    dampSandKg: number('Damp sand', 'kg', { hard: [5, 10000], soft: [60, 900] }),
    sandMoisturePercent: optional(
      number('Sand moisture, on dry sand', '%', { hard: [0, 25], soft: [1, 10] }),
    ),
    addedWaterKg: number('Water added', 'kg', { hard: [0, 1000], soft: [1, 100] }),
    admixtureKg: optional(number('Admixture', 'kg', { hard: [0, 100], soft: [0, 5] })),
    admixtureWaterKg: optional(number('Water in the admixture', 'kg', { hard: [0, 100], soft: [0, 5] })),
    fibreG: optional(number('Fibre', 'g', { hard: [0, 20000], soft: [0, 2000] })),
    mixer: choice('Mixer', {
      'forced action': 'Forced action',
      'free fall': 'Free-fall drum',
      pump: 'Screed pump',
      hand: 'By hand',
    }),
    mixingMinutes: optional(number('Mixing time', 'min', { hard: [0.5, 30], soft: [3, 8] })),
    squeeze: optional(choice('Squeeze test', { crumbles: 'Crumbles', holds: 'Holds, no drip', wet: 'Wet' })),
    mixC: optional(number('Mix temperature', '°C', { hard: [0, 40], soft: [5, 30] })),
    laidAt: optional(instant('Laid at')),
    areaNote: optional(text('Where it was laid')),
    fromX: optional(number('Laid from x', 'm', { hard: [-1000, 1000] })),
    fromY: optional(number('Laid from y', 'm', { hard: [-1000, 1000] })),
    toX: optional(number('Laid to x', 'm', { hard: [-1000, 1000] })),
    toY: optional(number('Laid to y', 'm', { hard: [-1000, 1000] })),
  },
})

export const materialDelivered = entryKind({
  kind: 'material-delivered',
  title: 'Material delivered',
  about: 'bay',
  fields: {
    ticket: text('Ticket number'),
    material: choice('Material', {
      'ready-mixed screed': 'Ready-mixed screed',
      cement: 'Cement',
      sand: 'Sand',
      admixture: 'Admixture',
      fibre: 'Fibre',
      insulation: 'Insulation',
    }),
    quantity: number('Quantity', 'kg', { hard: [0.1, 100000] }),
    batchedAt: optional(instant('Batched at')),
    arrivedAt: optional(instant('Arrived at')),
    workingLifeMin: optional(number('Working life', 'min', { hard: [5, 4320], soft: [60, 1440] })),
    temperatureC: optional(number('Temperature', '°C', { hard: [-10, 60], soft: [5, 30] })),
    siltPercent: optional(number('Fines below 0.063 mm', '%', { hard: [0, 40], soft: [0, 5] })),
  },
  problems: (body) =>
    notBefore('arrivedAt', body.arrivedAt, body.batchedAt, 'must not be before the load was batched'),
})
