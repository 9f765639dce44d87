import { requireNumber } from '../errors.ts'
import type { EffectiveRules } from '../rules/effective.ts'
import { type CheckResult, type Finding, keepsLimit, type Limit } from '../rules/limit.ts'
import type { Covering, Screed } from '../rules/words.ts'
import {
  areaOf,
  type Corner,
  cleanOutline,
  distanceToSegment,
  lengthOf,
  type Point,
  partsInside,
  reentrantCornersOf,
  type Segment,
  sidesOf,
  smallestRectangle,
} from './polygon.ts'

export interface BayQuestion {
  /** Corners in order around the bay [m]. */
  polygonM: readonly Corner[]
  heated: boolean
  /** Null while nobody has said what will cover it. */
  covering: Covering | null
  screed: Screed
  /** Joints and cracks of the base; a crack narrower than the rule's width does not count. */
  baseJoints?: readonly (Segment & { widthMm?: number })[]
  /** Joints and inducers formed or planned in the screed. */
  joints?: readonly Segment[]
  /** Edges between heating zones that are controlled apart. */
  zoneEdges?: readonly Segment[]
  /** Inward corners that the outline does not show, such as those of columns. */
  reentrantCorners?: number
  rules: EffectiveRules
}

export interface BayShape {
  areaM2: number
  longestSideM: number
  /** Long to short side of the smallest rectangle around the bay. */
  ratio: number
  reentrantCorners: Point[]
}

const rigidCoverings: readonly Covering[] = ['ceramic tile', 'natural stone', 'resin']
const sampleM = 0.02

/**
 * Returns the size and shape of a bay.
 *
 * The longest side is the longer of the longest straight side and the long side of the smallest rectangle in any direction
 * that holds the bay, so that an L or a notched edge does not look short.
 *
 * @throws InputError when the outline crosses itself or encloses no area.
 */
export function bayShape(polygonM: readonly Corner[]): BayShape {
  const outline = cleanOutline(polygonM)
  const { longM, shortM } = smallestRectangle(outline)
  const longestSideM = Math.max(longM, ...sidesOf(outline).map(lengthOf))
  return {
    areaM2: rounded(areaOf(outline)),
    longestSideM: rounded(longestSideM),
    ratio: rounded(longM / shortM),
    reentrantCorners: reentrantCornersOf(outline),
  }
}

/**
 * Compares a bay with the rules on size, shape and joints.
 *
 * Size and shape limits hold for heated screed and rigid coverings; an unheated cement screed under a flexible covering has
 * none. A joint of the base, and an edge between heating zones, must have a joint above it wherever it crosses the bay.
 *
 * @returns `not known` when an unheated bay has no covering yet, because that decides which limits hold.
 * @throws InputError when the outline crosses itself or a number is not usable.
 * @source bay rules in force.
 * @provenance as each limit says
 */
export function checkBay(question: BayQuestion): CheckResult {
  const { polygonM, rules, heated, covering, screed } = question
  const outline = cleanOutline(polygonM)
  const shape = bayShape(polygonM)
  const limits = sizeLimits(question)
  const joints = question.joints ?? []
  const corners =
    requireNumber('reentrantCorners', question.reentrantCorners ?? 0, 0, 1000) +
    shape.reentrantCorners.filter((corner) => !joints.some((joint) => distanceToSegment(corner, joint) < 0.1))
      .length
  const cornerLimit = limits.area === null ? null : noneOf('corners', rules.limits['bay.ratio'])
  const findings: Finding[] = [
    { what: 'Area', value: shape.areaM2, limit: limits.area },
    { what: 'Longest side', value: shape.longestSideM, limit: limits.side },
    { what: 'Longest to shortest side', value: shape.ratio, limit: limits.ratio },
    { what: 'Inward corners without an inducer', value: corners, limit: cornerLimit },
    ...crossings('Base joint', countedBaseJoints(question), outline, joints, rules),
    ...crossings('Edge between heating zones', question.zoneEdges ?? [], outline, joints, rules),
  ]
  if (findings.some(breaksLimit)) return { verdict: 'fail', findings }
  const undecided = covering === null && !heated && screed !== 'calcium sulfate'
  return { verdict: undecided ? 'not known' : 'pass', findings }
}

function sizeLimits({ rules: { limits }, heated, covering, screed }: BayQuestion) {
  if (screed === 'calcium sulfate') {
    return heated
      ? { area: limits['bay.calciumSulfateHeatedAreaM2'], side: null, ratio: null }
      : { area: limits['bay.calciumSulfateAreaM2'], side: limits['bay.calciumSulfateSideM'], ratio: null }
  }
  const rigid = covering !== null && rigidCoverings.includes(covering)
  if (!heated && !rigid) return { area: null, side: null, ratio: null }
  const side = heated ? limits['bay.heatedSideM'] : limits['bay.tileUnheatedSideM']
  return { area: limits['bay.heatedAreaM2'], side, ratio: limits['bay.ratio'] }
}

function countedBaseJoints({ baseJoints = [], rules }: BayQuestion): readonly Segment[] {
  const narrowest = rules.limits['bay.baseCrackMm']
  return baseJoints.filter(({ widthMm }) => widthMm === undefined || !keepsLimit(widthMm, narrowest))
}

/** One finding for each line that crosses the bay: the length of it that no joint and no edge of the bay follows. */
function crossings(
  name: string,
  lines: readonly Segment[],
  outline: readonly Point[],
  joints: readonly Segment[],
  rules: EffectiveRules,
): Finding[] {
  const near = rules.limits['bay.mirrorMm']
  const followers = [...joints, ...sidesOf(outline)]
  return lines.flatMap((line, i) => {
    const parts = partsInside(line, outline)
    if (parts.length === 0) return []
    const bare = parts.reduce((sum, part) => sum + unfollowedM(part, followers, near.value / 1000), 0)
    return [
      { what: `${name} ${i + 1} without a joint above it`, value: rounded(bare), limit: noneOf('m', near) },
    ]
  })
}

function unfollowedM(part: Segment, followers: readonly Segment[], nearM: number): number {
  const length = lengthOf(part)
  const steps = Math.max(1, Math.ceil(length / sampleM))
  let bare = 0
  for (let i = 0; i < steps; i++) {
    const t = (i + 0.5) / steps
    const point = { x: part.fromX + t * (part.toX - part.fromX), y: part.fromY + t * (part.toY - part.fromY) }
    if (!followers.some((follower) => distanceToSegment(point, follower) <= nearM)) bare++
  }
  return (bare / steps) * length
}

function noneOf(unit: string, { source, edition, clause, provenance }: Limit): Limit {
  return { value: 0, unit, operator: '<=', source, edition, clause, provenance }
}

function breaksLimit({ value, limit }: Finding): boolean {
  return typeof value === 'number' && limit !== null && !keepsLimit(value, limit)
}

/** To a hundredth of a millimetre: a side of 8 m that was rotated on the plan is still 8 m. */
function rounded(value: number): number {
  return Math.round(value * 1e5) / 1e5
}
