import { massBalance, proportionsOf } from '../../mix/index.ts'
import { metresToShape, type Point } from '../../movement/polygon.ts'
import type { BodyOf } from '../../record/kinds.ts'
import { entriesOf } from '../../record/story.ts'
import type { Batch } from '../../watch/facts/batches.ts'
import type { Scene } from './scene.ts'

/** The batches that count for a defect, and in words which they are. */
export interface BatchesUnder {
  batches: readonly Batch[]
  /** "Batches 3 and 4 lie under it" or "all 9 batches of the bay, because …". */
  which: string
  entries: string[]
  /** Null when "all batches" may be said; else why not: some were not written down. */
  incomplete: string | null
}

/** Compacted cement-sand screed as laid; to compare masses only. Our judgement. */
const laidKgPerM3 = 2000

/** Returns the batches under the defect by the pour map, or all of the bay. */
export function batchesUnder(scene: Scene): BatchesUnder {
  const { facts, place } = scene
  const all = facts.batches
  const mapped = all.filter(({ entry }) => rectangleOf(entry.body) !== null)
  const under = place === null ? [] : mapped.filter(({ entry }) => meets(rectangleOf(entry.body)!, place))
  if (under.length > 0) {
    const numbers = under.map(({ number }) => number).join(', ')
    return {
      batches: under,
      which:
        under.length === 1
          ? `batch ${numbers}, which lies under it`
          : `batches ${numbers}, which lie under it`,
      entries: under.map(({ entry }) => entry.id),
      incomplete: null,
    }
  }
  const why =
    place === null
      ? 'because nobody drew where the defect is'
      : mapped.length === 0
        ? 'because no batch says where it was laid'
        : 'because none of the batches with a place lies under it'
  return {
    batches: all,
    which: `all ${all.length} batches of the bay, ${why}`,
    entries: all.map(({ entry }) => entry.id),
    incomplete: massMissing(scene),
  }
}

type Rectangle = { left: number; right: number; low: number; high: number }

function rectangleOf({ fromX, fromY, toX, toY }: BodyOf<'batch-mixed'>): Rectangle | null {
  if (fromX === undefined || fromY === undefined || toX === undefined || toY === undefined) return null
  return {
    left: Math.min(fromX, toX),
    right: Math.max(fromX, toX),
    low: Math.min(fromY, toY),
    high: Math.max(fromY, toY),
  }
}

function meets(box: Rectangle, place: readonly Point[]): boolean {
  const inside = ({ x, y }: Point) => x >= box.left && x <= box.right && y >= box.low && y <= box.high
  if (place.some(inside)) return true
  const corners = [
    { x: box.left, y: box.low },
    { x: box.right, y: box.low },
    { x: box.right, y: box.high },
    { x: box.left, y: box.high },
  ]
  if (place.length > 2 && corners.some((corner) => metresToShape(place, corner) === 0)) return true
  return place.slice(1).some((to, i) => crosses(box, place[i]!, to))
}

/** True when the straight line between two points runs through the box (sampled every centimetre of a long line). */
function crosses(box: Rectangle, from: Point, to: Point): boolean {
  const steps = Math.max(2, Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / 0.01))
  for (let i = 0; i <= steps; i++) {
    const x = from.x + ((to.x - from.x) * i) / steps
    const y = from.y + ((to.y - from.y) * i) / steps
    if (x >= box.left && x <= box.right && y >= box.low && y <= box.high) return true
  }
  return false
}

/** "All batches" is not shown while the batches written down make up clearly less screed than the bay holds. */
function massMissing({ story, facts, rules }: Scene): string | null {
  if (facts.batches.length === 0 || facts.loads.length > 0) return null
  const measured = facts.thickness.map(({ mm }) => mm)
  const meanThicknessMm =
    measured.length > 0
      ? measured.reduce((sum, mm) => sum + mm, 0) / measured.length
      : story.bay.body.designThicknessMm
  const deliveredKg = facts.batches.reduce(
    (sum, { entry: { body } }) => sum + body.cementKg + body.dampSandKg + body.addedWaterKg,
    0,
  )
  const { expectedKg, differencePercent } = massBalance({
    areaM2: facts.areaM2,
    meanThicknessMm,
    freshDensityKgM3: laidKgPerM3,
    deliveredKg,
  })
  if (differencePercent >= -rules.limits['mix.massDifferencePercent'].value) return null
  return `the batches written down weigh ${Math.round(deliveredKg)} kg and the bay needs about ${Math.round(expectedKg)} kg, so some were not written down`
}

/** Sand for one part of cement and total water for one part of cement, with what bounds them when the sand was not tested. */
export interface BatchRatios {
  sandPerCement: number | null
  /** Never leaner than this: damp sand taken as dry. */
  sandPerCementAtMost: number
  waterCement: number | null
}

export function ratiosOf(body: BodyOf<'batch-mixed'>): BatchRatios {
  const { cementKg, dampSandKg, sandMoisturePercent, addedWaterKg, admixtureWaterKg } = body
  const known =
    sandMoisturePercent === undefined
      ? null
      : proportionsOf({ cementKg, dampSandKg, sandMoisturePercent, addedWaterKg, admixtureWaterKg })
  return {
    sandPerCement: known?.sandPerCement ?? null,
    sandPerCementAtMost: dampSandKg / cementKg,
    waterCement: known?.waterCement ?? null,
  }
}

/** Loads of ready-mixed screed: their proportions stand on the ticket and not in the record. */
export function readyMixed({ story }: Scene): string[] {
  return entriesOf(story, 'material-delivered')
    .filter(({ body }) => body.material === 'ready-mixed screed')
    .map(({ id }) => id)
}
