// No published values: what stands in the boxes becomes what is written, or a sentence.
import { describe, expect, it } from 'vitest'
import type { FaultPage } from '#model/contract/faults.ts'
import { illustrativeRates } from '#model/faults/index.ts'
import type { EntryId } from '#model/record/ids.ts'
import { kinds } from '#model/record/kinds.ts'
import { emptyName, type NameDraft, readName } from '#renderer/screens/faults/fault/name-draft.ts'
import { draftOfRates, readRates } from '#renderer/screens/faults/fault/repair/rates-draft.ts'
import {
  draftOfPlace,
  draftOfSymptoms,
  entriesOfReport,
  placeOf,
  symptomsOf,
} from '#renderer/screens/faults/report/report-draft.ts'

const page = {
  fault: { defects: ['a', 'b'] },
  diagnosis: {
    weightsVersion: '1',
    recordStrengthPercent: 50,
    causes: [
      { id: 'CURE', probability: 0.9, logOdds: 2.2, hollow: false },
      { id: 'FROST', probability: null, logOdds: 0.4, hollow: true },
    ],
  },
} as unknown as FaultPage
const draft = (part: Partial<NameDraft>): NameDraft => ({ ...emptyName, ...part })

describe('FAULT-FORM: what is written', () => {
  it('FAULT-FORM-1: a named cause carries every symptom of the fault and the ranking that was shown', () => {
    const reading = readName(
      draft({ cause: 'CURE', further: ['CURE', 'FASTDRY'], reason: ' Uncovered ' }),
      page,
    )
    expect(reading.kind).toBe('body')
    expect(reading.kind === 'body' && reading.body).toEqual({
      defects: [{ defect: 'a' }, { defect: 'b' }],
      cause: 'CURE',
      furtherCauses: [{ cause: 'FASTDRY' }],
      reason: 'Uncovered',
      weightsVersion: '1',
      recordStrengthPercent: 50,
      shown: [
        { cause: 'CURE', probability: 0.9, logOdds: 2.2, examined: true },
        // A conflict has no probability, and none is written for it.
        { cause: 'FROST', logOdds: 0.4, examined: false },
      ],
    })
  })

  it.each([
    ['nothing chosen', {}, 'cause'],
    ['no reason', { cause: 'CURE', reason: '  ' }, 'reason'],
    ['not known, and not said as what it is treated', { cause: 'unknown', reason: 'Too thin' }, 'treatedAs'],
  ] as const)('FAULT-FORM-2: %s is refused at its box', (_, part, field) => {
    expect(readName(draft(part), page)).toMatchObject({ kind: 'missing', field })
  })

  it('FAULT-FORM-3: rates that a firm saves are its own, in every line, and the record takes them', () => {
    const rates = { ...draftOfRates(illustrativeRates), delayPerDay: '350,50' }
    const reading = readRates(rates)
    if (reading.kind !== 'body') throw new Error('refused')
    expect(reading.body).toMatchObject({ basis: 'own', delayPerDay: 350.5 })
    expect(kinds['repair-rates-set'].body.safeParse(reading.body).success).toBe(true)
    expect(kinds['repair-rates-set'].problems(reading.body)).toEqual([])
  })

  it.each([
    ['a word', { low: 'much', high: '3' }],
    ['nothing', { low: '', high: '3' }],
    ['less than nothing', { low: '-1', high: '3' }],
    ['the second below the first', { low: '4', high: '3' }],
  ])('FAULT-FORM-4: a rate that is %s is refused at its line, and nothing is written', (_, line) => {
    const rates = draftOfRates(illustrativeRates)
    const reading = readRates({ ...rates, rates: { ...rates.rates, setUp: line } })
    expect(reading.kind).toBe('wrong')
    expect(reading.kind === 'wrong' && Object.keys(reading.fields)).toEqual(['setUp'])
  })

  it('FAULT-FORM-5: a line that is drawn gives its points, its middle and its length; a lone point of it is no place yet', () => {
    const place = {
      shape: 'line',
      points: [
        { x: 1, y: 2 },
        { x: 4, y: 6 },
      ],
    } as const
    const values = draftOfPlace(place)
    expect(values).toMatchObject({ shape: 'line', lengthM: '5', x: '2.5', y: '4', extent: 'part' })
    expect(placeOf(values)).toEqual(place)
    expect(draftOfPlace({ shape: 'line', points: [{ x: 1, y: 2 }] })).toMatchObject({
      x: undefined,
      y: undefined,
    })
  })

  it('FAULT-FORM-6: every symptom becomes an entry with an id that lasts while the form is open', () => {
    let made = 0
    const newId = () => `id ${++made}`
    const first = draftOfSymptoms({}, ['S01', 'S04', 'S12'], newId)
    const then = draftOfSymptoms(first, ['S01', 'S12'], newId)
    expect(symptomsOf(then)).toEqual(['S01', 'S12'])
    const body = { symptom: 'S01', extent: 'part' }
    expect(entriesOfReport(then, { id: 'main' as EntryId, body })).toEqual([
      { id: 'main', body },
      { id: 'id 2', body: { ...body, symptom: 'S12' } },
    ])
  })

  it('FAULT-FORM-7: without the first one chosen, the next becomes the main symptom', () => {
    const first = draftOfSymptoms({}, ['S01', 'S04'], () => 'x')
    expect(symptomsOf(draftOfSymptoms(first, ['S04'], () => 'y'))).toEqual(['S04'])
  })
})
