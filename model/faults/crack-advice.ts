import { crackCard } from '../checks/crack-card.ts'
import { InputError, requireNumber } from '../errors.ts'
import type { CrackAdvice, CrackQuestion } from './shapes.ts'

/** Widths at which the way of mending a crack changes. Our judgement; no screed standard gives a width that must be filled. */
export const crackWidths = {
  hairlineMm: 0.3,
  /** Below it no resin gets in. */
  resinReachMm: 0.2,
  widestFilledMm: 5,
  sandFilledFromMm: 2,
  /** Above this step two sides do not work together: grind, and tie across. */
  stepMm: 2,
} as const

const resilient = ['resilient', 'vinyl', 'linoleum', 'rubber', 'cork', 'resin']

/**
 * Returns what to do about one crack, with the rule and the reason, or which measurement is missing.
 *
 * A crack that moves becomes a joint; a still one is left up to a hairline and filled beyond it; one whose movement or width
 * nobody has shown is measured first. A card stands for a width where it is enough to decide.
 *
 * @throws InputError naming the field.
 * @source no screed standard gives a width that must be filled; a joint where the crack moves is common practice.
 * @provenance our judgement
 */
export function crackAdvice(question: CrackQuestion): CrackAdvice {
  const widthMm = boundsOf(question)
  const stepMm =
    question.stepMm === undefined || question.stepMm === null
      ? null
      : requireNumber('stepMm', question.stepMm, 0, 50, 'mm')
  if (question.stable !== true && question.stable !== false && question.stable !== null)
    throw new InputError(
      'stable',
      'stable must be true (a gauge showed it still), false (it moves) or null (not known).',
    )
  const give = (
    advice: CrackAdvice['advice'],
    because: string,
    measure: string | null = null,
  ): CrackAdvice => ({
    advice,
    rule: 'R08',
    because,
    measure,
    widthMm,
    cautions: cautionsOf(question, advice),
  })

  if (question.isolatedPiece === true)
    return give(
      'cut out',
      'The crack cuts off a piece that rocks: no filler holds it. Cut the piece out and replace it.',
    )
  if (question.stable === false) {
    return give(
      'turn into joint',
      question.whereJointBelongs === true
        ? 'It moves, and a joint belongs here: rigid filler would crack again beside it.'
        : 'It moves: rigid filler would crack again. Give it a joint, and carry the joint through the covering.',
    )
  }
  if (question.stable === null) {
    return give(
      'measure first',
      'Nobody has shown whether it moves, and that decides between filling it and giving it a joint.',
      'Crack gauge with the surface temperature at marked places for 14 days.',
    )
  }
  if (stepMm !== null && stepMm > crackWidths.stepMm)
    return give('fill and tie', `A step of ${stepMm} mm: grind or level it, tie across the crack, then fill.`)
  const { atLeast, atMost } = widthMm
  if (atMost !== null && atMost < crackWidths.hairlineMm) {
    const through = question.covering !== null && resilient.includes(question.covering)
    return give(
      'leave',
      `Up to ${atMost} mm, still, no step: a hairline is generally no technical defect.${through ? ' Under a thin covering smooth it over, so that it does not show.' : ''}`,
    )
  }
  if (atLeast !== null && atLeast > crackWidths.widestFilledMm)
    return give(
      'cut out',
      `Wider than ${crackWidths.widestFilledMm} mm: cut its edges back to sound screed and replace them.`,
    )
  if (atLeast !== null && atLeast >= crackWidths.hairlineMm) {
    const sand =
      atLeast > crackWidths.sandFilledFromMm ? ' Wider than 2 mm: fill it with dry fine sand first.' : ''
    const measure =
      atMost === null
        ? 'Width at five places or more, for the litres and for whether it is under 5 mm.'
        : null
    return give('fill', `Still, ${shown(widthMm)}: resin fills it.${sand}`, measure)
  }
  return give(
    'measure first',
    'The width is not known well enough to choose between leaving and filling.',
    'Width at five places or more with a crack gauge.',
  )
}

function boundsOf({ widthMm, card }: CrackQuestion): { atLeast: number | null; atMost: number | null } {
  if (widthMm !== undefined && widthMm !== null) {
    const mm = requireNumber('widthMm', widthMm, 0, 30, 'mm')
    return { atLeast: mm, atMost: mm }
  }
  if (card === undefined || card === null) return { atLeast: null, atMost: null }
  const { atLeastMm, atMostMm } = crackCard(card)
  return { atLeast: atLeastMm, atMost: atMostMm }
}

function shown({ atLeast, atMost }: { atLeast: number | null; atMost: number | null }): string {
  if (atLeast !== null && atLeast === atMost) return `${atLeast} mm wide`
  return atLeast === null ? `at most ${atMost} mm wide` : `at least ${atLeast} mm wide`
}

function cautionsOf({ floating, heated, widthMm }: CrackQuestion, advice: CrackAdvice['advice']): string[] {
  const wide = widthMm === undefined || widthMm === null || widthMm > 1
  const resin = advice === 'fill' || advice === 'fill and tie'
  const cuts = advice === 'turn into joint' || advice === 'cut out' || advice === 'fill and tie'
  return [
    ...(resin
      ? ['Resin: read the safety sheet; nitrile gloves, eye protection, ventilation, no skin contact.']
      : []),
    ...(resin && floating && wide
      ? [
          'Floating: the underside is open; resin can run into the insulation. Seal it first, or count on twice the resin.',
        ]
      : []),
    ...(cuts ? ['Cutting gives silica dust: water or extraction, and a fitted mask. Never dry sweep.'] : []),
    ...(cuts && heated ? ['Locate the heating pipes and isolate the circuit before any cut.'] : []),
    ...(advice === 'turn into joint' && heated
      ? ['Check that pipes crossing the new joint lie in sleeves; the heating engineer decides.']
      : []),
  ]
}
