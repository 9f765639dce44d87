import type { SymptomCode } from '#model/record/words.ts'

/** How a symptom is told from the others in two minutes. Common practice. */
const recognise: Record<SymptomCode, string> = {
  S01: 'The hand comes up white. A scratch leaves 0.5 to 3 mm of powder, then hard.',
  S02: 'A knife or a nail goes in anywhere; a core crumbles.',
  S03: 'A dull thud under the hammer; the lower end of a core falls out as loose sand.',
  S04: 'Cells of 20 to 100 mm, hairline and shallow.',
  S05: '50 to 400 mm long, wide in the middle, and they stop short of the edges.',
  S06: 'From edge to edge, mostly across the short way.',
  S07: 'Across the narrowing.',
  S08: 'Follows a heating pipe or a service.',
  S09: 'Starts at the corner of a column or a wall, at about 45 degrees.',
  S10: 'Drums at the edge, rocks underfoot, a step at the joint.',
  S11: 'A patch that drums, often with sound edges.',
  S12: 'A crumbling strip on the routes.',
  S13: 'A cone of 10 to 50 mm, or a spot that a finger digs out.',
  S14: 'Salts on the surface, a dark rim around them.',
  S15: 'A dish under load, a gap under the skirting.',
  S16: 'Cracks like rays round a print.',
  S17: 'The scratch grade steps at straight lines across the bay.',
}

/** Words of the list of faults and of reporting one. */
export const reportWords = {
  recognise,
  list: {
    report: 'Report a fault',
    none: 'No fault has been reported',
    noneLead:
      'When something is wrong with a bay, report it here: where, what it looks like, how big. The record then says what may have caused it and what to look at next.',
    noBays: 'No bay yet',
    noBaysLead: 'A fault belongs to a bay. Bays are planned under Floors.',
    toFloors: 'To the floors',
    columns: { what: 'What is seen', where: 'Where', since: 'Since', state: 'State', moves: 'Moves' },
    open: (count: number) => (count === 1 ? '1 fault not closed' : `${count} faults not closed`),
    closed: (count: number) => `Closed (${count})`,
  },
  place: {
    title: 'Where it is',
    shape: 'What it is on the plan',
    shapes: { point: 'A spot', line: 'A line', area: 'An area' },
    how: {
      point: 'Tap the spot on the plan.',
      line: 'Tap along the crack, from one end to the other.',
      area: 'Tap round the area, corner after corner.',
    },
    howMore: 'Drag a point to move it. By keys: Tab to a point, arrows move it 0.1 m, Delete removes it.',
    planLabel: (floor: string) =>
      `Plan of ${floor} with the place of the fault. Arrow keys move it, plus and minus change its size, 0 shows the whole floor. Tab goes from point to point.`,
    handle: (index: number, x: string, y: string) =>
      `Point ${index}: x ${x} m, y ${y} m. Arrows move it, Delete removes it.`,
    typed: 'Or type it',
    x: (index: number) => `x of point ${index}`,
    y: (index: number) => `y of point ${index}`,
    add: 'Another point',
    remove: (index: number) => `Remove point ${index}`,
    clear: 'Start over',
    length: (metres: string) => `${metres} m long`,
    area: (squareMetres: string) => `${squareMetres} m²`,
    inBay: (bay: string) => `In ${bay}`,
    outside: 'Outside every bay of this floor: choose the bay below.',
    tooFew: { point: '', line: 'A line needs two points.', area: 'An area needs three points.' },
    floor: 'Floor',
    bay: 'Bay',
    chooseBay: 'Choose the bay',
    digits: 'Digits, please, such as 3.5',
  },
  report: {
    title: 'Report a fault',
    lead: 'What is seen, where, and how big. Nothing here names a cause; that comes after.',
    symptoms: 'What it looks like',
    symptomsHelp: 'Choose every picture that fits. The first one chosen is the main one.',
    symptomNeeded: 'Choose at least one picture: what does it look like?',
    bayNeeded: 'Choose the bay, or tap the place on the plan.',
    size: 'How big, and since when',
    save: 'Report it',
    card: 'A bank card (ISO/IEC 7810, 0.76 mm) tells whether a crack is wider than that.',
  },
} as const
