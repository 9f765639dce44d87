import type { Limit, Operator } from './limit.ts'

/** Where a number comes from, without the number. */
export type Origin = Pick<Limit, 'source' | 'edition' | 'clause' | 'provenance'>

/** No purchased copy of these documents was read: their values were read on public pages that quote them. */
function quoted(source: string, edition?: string): Origin {
  return { source, edition, provenance: 'quoted second-hand' }
}
function remembered(source: string, edition?: string): Origin {
  return { source, edition, provenance: 'from memory' }
}

export const bs8204part1 = quoted('BS 8204-1', '2003+A1:2009')
export const bs8204part7 = quoted('BS 8204-7', '2003')
export const bs8204part7Remembered = remembered('BS 8204-7 Table 2, as trade minima', '2003')
export const bs8203 = quoted('BS 8203', '2001+A1:2009')
export const bs5325 = quoted('BS 5325', '2001')
export const bs8201 = quoted('BS 8201', '2011')
export const bs5385part3 = quoted('BS 5385-3', '2014')
export const en1264part4 = quoted('EN 1264-4', '2021')
export const en1264 = quoted('EN 1264', '2021')
export const din18560part1 = quoted('DIN 18560-1', '2015-11')
export const din18560part2 = quoted('DIN 18560-2')
export const din18560part2Remembered = remembered('DIN 18560-2', '2009')
export const din18365 = quoted('DIN 18365')
export const sia253 = quoted('SIA 253')
export const astmF2170 = quoted('ASTM F2170', '19a')
export const astmF1869 = quoted('ASTM F1869', '22')
export const astmF710 = quoted('ASTM F710', '21')
export const cri105 = quoted('CRI 105, carpet installation')
export const britishGuidance = quoted('British learned-society guidance on screeds')
export const acclimatisation = quoted('British guidance on acclimatising coverings')
export const wearingScreedSpec = quoted('A specification of wearing screeds')
export const germanCarbidePoints = quoted('German screed trade: number of carbide tests')
export const warrantyBody = quoted('British warranty-body technical manual', '2011')
export const tilingBody = quoted('British tiling trade body guidance')
export const onormB2242 = quoted('ÖNORM B 2242-2', '2007')
export const concreteGuidance = quoted('ACI 305R and ACI 306R guidance, as quoted on public pages')
export const coatingGuidance = quoted('Coating standards ISO 8502-4 and ISO 12944-7')
export const rememberedEn13670 = remembered('EN 13670 8.5 and DIN 1045-3')

export const tradePractice: Origin = { source: 'Trade practice', provenance: 'common practice' }
export const judgement: Origin = { source: 'Bayledger default', provenance: 'our judgement' }

/** The same origin narrowed to a clause, table or edition. */
export function at(origin: Origin, clause: string, edition = origin.edition): Origin {
  return { ...origin, clause, edition }
}

function limitWith(operator: Operator) {
  return (value: number, unit: string, origin: Origin): Limit => ({ value, unit, operator, ...origin })
}

export const atMost = limitWith('<=')
export const atLeast = limitWith('>=')
export const below = limitWith('<')
export const above = limitWith('>')
