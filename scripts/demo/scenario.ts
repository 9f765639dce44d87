import type { BodyOf } from '#model/record/kinds.ts'

/** What befell a bay. Everything not said went as it should. */
export interface BayPlan {
  name: string
  zone: 'groundEast' | 'groundWest' | 'first' | 'second'
  rect: { x: number; y: number; w: number; h: number }
  screed: 'cement-sand' | 'calcium sulfate'
  construction: BodyOf<'bay-planned'>['construction']
  thicknessMm: number
  /** Negative: still to be laid, in so many days. */
  laidDaysAgo: number
  laidAt: string
  /** How fast this mix really dries against the model's default; the forecast does not know it. */
  dryingSpeed: number
  curedDays: number
  fate?:
    | 'frozen on night 2'
    | 'curing skipped'
    | 'early ladder'
    | 'tested badly'
    | 'tested well'
    | 'sheet lifted'
}

const bay = (
  name: string,
  zone: BayPlan['zone'],
  rect: [x: number, y: number, w: number, h: number],
  laidDaysAgo: number,
  more: Partial<BayPlan> = {},
): BayPlan => ({
  name,
  zone,
  rect: { x: rect[0], y: rect[1], w: rect[2], h: rect[3] },
  screed: 'cement-sand',
  construction: zone.startsWith('ground') ? 'floating' : 'unbonded',
  thicknessMm: zone.startsWith('ground') ? 70 : 60,
  laidDaysAgo,
  laidAt: '11:40',
  dryingSpeed: 1,
  curedDays: 8,
  ...more,
})

/** Fifteen bays on three floors of an invented house in an invented winter. */
export const bayPlans: BayPlan[] = [
  bay('G1', 'groundEast', [0, 0, 6, 5.5], 112, { dryingSpeed: 0.45, fate: 'tested well' }),
  bay('G2', 'groundEast', [6, 0, 6, 5.5], 110, { dryingSpeed: 0.5, fate: 'tested badly' }),
  bay('G3', 'groundWest', [12, 0, 6, 5.5], 75, { dryingSpeed: 0.85 }),
  bay('G4', 'groundWest', [18, 0, 6, 5.5], 16, {}),
  bay('F1', 'first', [0, 0, 6, 6], 66, { fate: 'frozen on night 2' }),
  bay('F2', 'first', [6, 0, 6, 6], 60, { fate: 'curing skipped' }),
  bay('F3', 'first', [12, 0, 6, 6], 52, { fate: 'early ladder' }),
  bay('F4', 'first', [18, 0, 6, 6], 58, { dryingSpeed: 1.1 }),
  bay('F5', 'first', [0, 6, 12, 2.4], 33, { fate: 'sheet lifted' }),
  bay('S1', 'second', [0, 0, 6, 6], 40, { dryingSpeed: 0.9 }),
  bay('S2', 'second', [6, 0, 6, 6], 5, {}),
  bay('S3', 'second', [12, 0, 8, 6], 24, { screed: 'calcium sulfate', thicknessMm: 45, curedDays: 2 }),
  bay('S4', 'second', [0, 6, 8, 4], 1, {}),
  bay('S5', 'second', [8, 6, 6, 4], 0, { laidAt: 'now' }),
  bay('S6', 'second', [14, 6, 6, 4], -1, { laidAt: '08:30' }),
]

/** Joints of the base below, which the screed must repeat. */
const slabJoint = { fromX: 12, fromY: 0, toX: 12, toY: 8.4, widthMm: 3 }

export const floorPlans = {
  ground: { name: 'Ground floor', level: 0, base: 'ground slab', baseJoints: [slabJoint] },
  first: { name: 'First floor', level: 1, base: 'suspended slab', baseJoints: [slabJoint] },
  second: { name: 'Second floor', level: 2, base: 'suspended slab', baseJoints: [] },
} as const

const offices = {
  loading: 'other',
  soundness: 'B',
  regularity: 'SR2',
  heated: false,
  moistureMethod: 'hygrometer box',
} as const
const flats = {
  loading: 'light',
  soundness: 'C',
  regularity: 'SR2',
  heated: true,
  covering: 'resilient',
  moistureMethod: 'hygrometer box',
  maxSurfaceC: 27,
  circuits: '1 to 4',
  use: 'Flats',
} as const

export const zonePlans = {
  groundEast: { floor: 'ground', name: 'Flats, garden side', ...flats },
  groundWest: { floor: 'ground', name: 'Flats, street side', ...flats },
  first: { floor: 'first', name: 'Offices', use: 'Offices', covering: 'resilient', ...offices },
  second: { floor: 'second', name: 'Studios', use: 'Studios', covering: 'textile', ...offices },
} as const
