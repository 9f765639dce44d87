import { describe, expect, it } from 'vitest'
import { checkBody } from '#model/record/check-body.ts'

const planned = (outline: { x: number; y: number }[]) => ({
  zone: '018f0000-0000-7000-8000-000000000000',
  name: 'K1',
  outline,
  screed: 'cement-sand',
  construction: 'bonded',
  designThicknessMm: 40,
})

describe('the outline of a planned bay', () => {
  it('REC-OUTLINE: sides that cross are refused with a sentence that says which', () => {
    const bow = [
      { x: 0, y: 0 },
      { x: 4, y: 4 },
      { x: 4, y: 0 },
      { x: 0, y: 4 },
    ]
    const { body, problems } = checkBody('bay-planned', planned(bow))
    expect(body).toBeNull()
    expect(problems.map(({ field }) => field)).toEqual(['outline'])
    expect(problems[0]?.message).toContain('Side 1 of the outline meets side 3')
  })

  it('REC-OUTLINE: corners in one line enclose nothing and are refused; the same corners bent are kept', () => {
    const flat = [
      { x: 0, y: 0 },
      { x: 2, y: 0 },
      { x: 5, y: 0 },
    ]
    expect(checkBody('bay-planned', planned(flat)).problems[0]?.message).toContain('encloses no area')
    expect(checkBody('bay-planned', planned([...flat, { x: 5, y: 3 }])).problems).toEqual([])
  })
})
