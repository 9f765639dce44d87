import type { EvidenceId } from './evidence.ts'
import type { NextTest } from './shapes.ts'

/** A look or a test that can still be made when the fault is found, and the items of evidence that it answers. */
export interface Look {
  name: string
  how: string
  cost: NextTest['cost']
  caution: string | null
  answers: readonly EvidenceId[]
}

export const costClasses: Record<NextTest['cost'], NextTest['costClass']> = {
  minutes: 1,
  hour: 2,
  laboratory: 4,
}

const silica = 'Silica dust: extraction or water, and a fitted mask.'
const pipes = 'Locate pipes and cables before drilling or cutting.'

/** What a consultant can still do or ask for, cheapest looks first. Common practice. */
export const looks: readonly Look[] = [
  {
    name: 'Scratch, and grind a small patch in 1 mm steps',
    how: 'Hard point on a 1 m grid; then grind 200 mm by 200 mm in 1 mm steps and note where it is sound. Compare with a known good bay, same hand.',
    cost: 'minutes',
    caution: silica,
    answers: ['E45', 'E64'],
  },
  {
    name: 'Tap with a hammer or drag a chain, map what is hollow',
    how: 'Mark hollow places on the plan: edges only, or patches away from them. A floating screed always sounds different.',
    cost: 'minutes',
    caution: null,
    answers: ['E53', 'E54'],
  },
  {
    name: 'Sketch the fault over the pour map and the plan',
    how: 'Does it stop at a batch boundary? Does it keep to the open or cold side?',
    cost: 'minutes',
    caution: null,
    answers: ['E62', 'E63'],
  },
  {
    name: 'Look at a lump under a hand lens',
    how: 'Wood, clay, coal, gypsum, a ball of cement? Keep the lump.',
    cost: 'minutes',
    caution: null,
    answers: ['E61'],
  },
  {
    name: 'Indicator dye on a fresh break',
    how: 'Depth of the colourless skin; confined to the skin.',
    cost: 'minutes',
    caution: 'The dye is an irritant and flammable: gloves, eye protection.',
    answers: ['E44'],
  },
  {
    name: 'Look at edge strip and doorways, with dated photographs',
    how: 'Lift a skirting: is the strip there and free at this side?',
    cost: 'minutes',
    caution: null,
    answers: ['E31', 'E32'],
  },
  {
    name: 'Ask when it was seen first, and by whom',
    how: 'Who swept, tiled, heated: the first person to see it, and the photograph of that day.',
    cost: 'minutes',
    caution: null,
    answers: ['E49', 'E50'],
  },
  {
    name: 'Measure plan and joints',
    how: 'Sides, inward corners, inducers and their depth as built.',
    cost: 'minutes',
    caution: null,
    answers: ['E27', 'E28'],
  },
  {
    name: 'Drop-weight soundness test on a grid',
    how: 'Four blows a point, 0.1 mm, at 14 days or later; points in the fault and away from it.',
    cost: 'hour',
    caution: 'Leaves craters; agree the places.',
    answers: ['E46', 'E47', 'E48'],
  },
  {
    name: 'Core of 75 to 100 mm, dry or with little water',
    how: 'Look, photograph, density of top and bottom half. Water washes weak screed away.',
    cost: 'hour',
    caution: `${pipes} ${silica}`,
    answers: ['E37', 'E38', 'E25', 'E26'],
  },
  {
    name: 'Core on the crack, or lift the screed at its end',
    how: 'Does it run through, and does the base crack under it?',
    cost: 'hour',
    caution: `${pipes} ${silica}`,
    answers: ['E29', 'E30'],
  },
  {
    name: 'Open the edge and look at the insulation',
    how: 'Soft, lifted, doubled, gaps at crossing pipes; does it rock under foot?',
    cost: 'hour',
    caution: pipes,
    answers: ['E57', 'E58'],
  },
  {
    name: 'Pull-off, with the plane of break, and the survey of the base',
    how: 'Dolly on the ground surface; the plane of break counts more than the number.',
    cost: 'hour',
    caution: silica,
    answers: ['E55', 'E56'],
  },
  {
    name: 'Crack gauge with surface temperature for 14 days',
    how: 'Marked places, the same hand, morning and afternoon. Must come before any rigid filling.',
    cost: 'hour',
    caution: null,
    answers: ['E51', 'E52'],
  },
  {
    name: 'Read the same moisture points again',
    how: 'Same place, same method; look for leaks and wash-downs in between.',
    cost: 'hour',
    caution: null,
    answers: ['E59', 'E60'],
  },
  {
    name: 'Find batch sheets and delivery tickets not yet written down',
    how: 'Cement, sand, water, mixer, minutes, times; fines and grading of the sand. Mark them as late.',
    cost: 'hour',
    caution: null,
    answers: ['E01', 'E02', 'E03', 'E04', 'E05', 'E06', 'E07', 'E08', 'E09', 'E10', 'E11'],
  },
  {
    name: 'Find logger files and weather of the first days',
    how: 'Loggers left in the screed or in the room; readings of a station near by speak for outside only.',
    cost: 'hour',
    caution: null,
    answers: ['E14', 'E15', 'E16', 'E20', 'E21'],
  },
  {
    name: 'Ask the crew and look for dated photographs of the first days',
    how: 'Sheets on and off, heaters, finishing, lifts, who went over it. Told by someone is weaker than a photograph.',
    cost: 'hour',
    caution: null,
    answers: ['E12', 'E13', 'E17', 'E18', 'E19', 'E22', 'E23', 'E24', 'E33', 'E34', 'E35', 'E36'],
  },
  {
    name: 'Cement content by analysis, three samples or more',
    how: 'One to two weeks. Limestone sand spoils it: send sand and cement too.',
    cost: 'laboratory',
    caution: 'Accurate to 15 to 20 % at best.',
    answers: ['E39', 'E40', 'E41'],
  },
  {
    name: 'Thin section',
    how: 'Two to three weeks, on an intact impregnated piece: ice prints, unhydrated cement, carbonation.',
    cost: 'laboratory',
    caution: null,
    answers: ['E42', 'E43'],
  },
]
