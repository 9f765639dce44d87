import { InputError } from '../errors.ts'

/**
 * An identification card (bank card, ID-1 format) as a gauge on site: its thickness feels a gap, its width is a scale.
 *
 * @source ISO/IEC 7810 ID-1.
 * @provenance quoted second-hand
 */
export const identificationCard = {
  widthMm: 85.6,
  heightMm: 53.98,
  thicknessMm: 0.76,
  thicknessToleranceMm: 0.08,
  cornerRadiusMm: [2.88, 3.48],
} as const

export type CardAnswer = 'slides in' | 'does not'

/**
 * Returns what a card tells of the width of a crack.
 *
 * @param answer whether the card slides in.
 * @returns the bounds it proves; a bound that it does not prove is null [mm].
 * @throws InputError when the answer is neither.
 * @source ISO/IEC 7810: thickness 0.76 ± 0.08 mm.
 * @accuracy a card that slides in may be as thin as 0.68 mm, one that does not as thick as 0.84 mm.
 * @provenance quoted second-hand
 */
export function crackCard(answer: CardAnswer): { atLeastMm: number | null; atMostMm: number | null } {
  const { thicknessMm, thicknessToleranceMm } = identificationCard
  if (answer === 'slides in') return { atLeastMm: thicknessMm - thicknessToleranceMm, atMostMm: null }
  if (answer === 'does not') return { atLeastMm: null, atMostMm: thicknessMm + thicknessToleranceMm }
  throw new InputError(
    'answer',
    `The card either “slides in” or “does not”; ${JSON.stringify(answer)} is neither.`,
  )
}
