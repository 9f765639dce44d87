import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { InputError } from '#model/errors.ts'
import {
  bandOf,
  type EvidenceId,
  type EvidenceState,
  evidenceIds,
  evidenceItem,
  scoreCauses,
  symptomPoints,
} from '#model/faults/index.ts'
import { type SymptomCode, symptoms } from '#model/record/words.ts'

const found = (ids: string): EvidenceState =>
  Object.fromEntries(
    ids
      .split(' ')
      .filter((id) => id !== '')
      .map((id) => [id as EvidenceId, true]),
  )
const ranked = (codes: SymptomCode[], ids: string) =>
  scoreCauses(codes, found(ids)).map(({ cause, logOdds }) => [cause, Number(logOdds.toFixed(2))])

/**
 * Worked by hand from the printed weights; the weights are judgement, so these cases check the arithmetic and that a
 * practitioner would nod, not that the causes were proven. Provenance: our judgement.
 */
describe('FLT: causes from symptoms and evidence', () => {
  it('FLT-1: dusting with skipped curing names curing and fast drying, one event with two mechanisms', () => {
    expect(ranked(['S01'], 'E02 E04 E07 E15 E17 E20 E23 E45 E46').slice(0, 4)).toEqual([
      ['CURE', 3.6],
      ['FASTDRY', 3],
      ['LAITANCE', 0.4],
      ['FINES', -1.4],
    ])
  })

  it('FLT-2: friable with a frost night names frost although mix and curing were good', () => {
    expect(ranked(['S02'], 'E02 E04 E07 E11 E13 E14 E19 E38 E40 E47 E63 E64').slice(0, 4)).toEqual([
      ['FROST', 4.2],
      ['FINES', -1.4],
      ['DRY', -1.5],
      ['OLD', -2],
    ])
  })

  it('FLT-3: a hard crust on a weak body names compaction, then the dry mix that made it hard to compact', () => {
    expect(ranked(['S03', 'S12'], 'E02 E04 E06 E12 E15 E19 E36 E37 E48').slice(0, 3)).toEqual([
      ['COMPACT', 6],
      ['DRY', 2.2],
      ['LOAD', -0.6],
    ])
  })

  it('FLT-4: without evidence the symptom alone ranks, and nothing is called examined', () => {
    const scores = scoreCauses(['S01'], {})
    expect(scores[0]).toMatchObject({ cause: 'CURE', logOdds: 0, examined: false })
    expect(new Set(scores.slice(1, 3).map(({ cause }) => cause))).toEqual(new Set(['LAITANCE', 'FASTDRY']))
    expect(scores.every((score) => !score.examined)).toBe(true)
  })

  it('FLT-5: "found false" and "not examined" give the same log-odds', () => {
    const noneFound = Object.fromEntries(evidenceIds.map((id) => [id, false])) as EvidenceState
    expect(scoreCauses(['S01'], noneFound)).toEqual(scoreCauses(['S01'], {}))
  })

  it('FLT-6: evidence for and against the same cause is reported as a conflict', () => {
    const frost = scoreCauses(['S02'], found('E14 E15')).find(({ cause }) => cause === 'FROST')
    expect(frost?.conflict).toEqual({ supports: 'E14', refutes: 'E15' })
    expect(scoreCauses(['S02'], found('E14')).find(({ cause }) => cause === 'FROST')?.conflict).toBeNull()
  })

  it('FLT-7: a new supporting group never lowers a cause, whatever else is known', () => {
    fc.assert(
      fc.property(
        fc.subarray(evidenceIds),
        fc.constantFrom(...evidenceIds),
        fc.constantFrom(...(Object.keys(symptoms) as SymptomCode[])),
        (known, extra, symptom) => {
          const others = known.filter((id) => evidenceItem(id).group !== evidenceItem(extra).group)
          const before = scoreCauses([symptom], found(others.join(' ')))
          const after = scoreCauses([symptom], found([...others, extra].join(' ')))
          for (const [cause, weight] of Object.entries(evidenceItem(extra).weights)) {
            const change =
              after.find((score) => score.cause === cause)!.logOdds -
              before.find((score) => score.cause === cause)!.logOdds
            expect(Math.sign(Number(change.toFixed(9)))).toBe(Math.sign(weight))
          }
        },
      ),
      { seed: 1, numRuns: 300 },
    )
  })

  it('FLT-8: no cause is ever claimed with more than 97 per cent or less than 3', () => {
    const everything = Object.fromEntries(evidenceIds.map((id) => [id, true])) as EvidenceState
    for (const { probability } of scoreCauses(Object.keys(symptoms) as SymptomCode[], everything)) {
      expect(probability).toBeGreaterThan(0.029)
      expect(probability).toBeLessThan(0.971)
    }
  })

  it('FLT-9: every symptom has a typical cause and every weight belongs to a known cause', () => {
    for (const code of Object.keys(symptoms) as SymptomCode[]) {
      const strongest = Math.max(...Object.values(symptomPoints).map((row) => row[code] ?? 0))
      expect(strongest, code).toBeGreaterThanOrEqual(4)
    }
    for (const id of evidenceIds) {
      for (const cause of Object.keys(evidenceItem(id).weights))
        expect(symptomPoints, id).toHaveProperty(cause)
    }
  })

  it('FLT-11: of three further symptoms two count, half a point each', () => {
    const cure = scoreCauses(['S01', 'S04', 'S05', 'S10'], {}).find(({ cause }) => cause === 'CURE')
    expect(cure!.logOdds).toBe(1)
  })

  it('FLT-12: of one group the heaviest counts in full, whichever stands first: 1.2 − 0.8/2 for a lean mix', () => {
    const lean = (ids: string) =>
      scoreCauses(['S02'], found(ids)).find(({ cause }) => cause === 'LEAN')!.logOdds
    expect(lean('E37 E38') - lean('')).toBeCloseTo(0.8, 9)
  })

  it.each([
    [0.75, 'supported'],
    [0.7499, 'possible'],
    [0.35, 'possible'],
    [0.3499, 'unlikely'],
    [0.1, 'unlikely'],
    [0.0999, 'refuted'],
  ])('FLT-13: a probability of %s is %s (our judgement)', (probability, band) => {
    expect(bandOf(probability)).toBe(band)
  })

  it('FLT-10: bad input names its field', () => {
    expect(() => scoreCauses([], {})).toThrow(InputError)
    expect(() => scoreCauses(['S99' as SymptomCode], {})).toThrow(/S99 is not a symptom/)
    expect(() => scoreCauses(['S01'], { E99: true } as EvidenceState)).toThrow(/E99 is not an item/)
  })
})
