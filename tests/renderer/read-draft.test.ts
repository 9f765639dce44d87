import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { checkBody, unansweredRanges } from '#model/record/check-body.ts'
import { type KindName, kindNames, kinds } from '#model/record/kinds.ts'
import { askingOf } from '#renderer/parts/entry-form/asking.ts'
import { draftOfBody, recordedWall } from '#renderer/parts/entry-form/draft.ts'
import { readDraft } from '#renderer/parts/entry-form/read-draft.ts'

const zone = 'Europe/London'
const now = Date.parse('2026-11-24T07:15:40Z')
const batch = kinds['batch-mixed'].fields
const typedBatch = {
  number: '1',
  cementKg: '50',
  dampSandKg: '200',
  addedWaterKg: '10',
  mixer: 'forced action',
}

describe('reading a form', () => {
  test('FORM-1: what is typed becomes a body that the record itself accepts', () => {
    const { body, problems } = readDraft(batch, { ...typedBatch, sandMoisturePercent: '6' }, zone, now)
    expect(problems).toEqual([])
    expect(checkBody('batch-mixed', body).problems).toEqual([])
    expect(body).toEqual({
      number: 1,
      cementKg: 50,
      dampSandKg: 200,
      addedWaterKg: 10,
      mixer: 'forced action',
      sandMoisturePercent: 6,
    })
  })

  test('FORM-2: a decimal comma is a decimal point, and a word is not a number', () => {
    expect(readDraft(batch, { ...typedBatch, cementKg: '50,5' }, zone, now).body.cementKg).toBe(50.5)
    const { problems, body } = readDraft(batch, { ...typedBatch, cementKg: '5o' }, zone, now)
    expect(problems).toEqual([
      { field: 'cementKg', message: '“5o” under “Cement” is not a number. Write digits only, such as 12.5.' },
    ])
    expect(body).not.toHaveProperty('cementKg')
  })

  test('FORM-3: a value outside the hard range is refused with the range and what was typed', () => {
    const { problems } = readDraft(batch, { ...typedBatch, cementKg: '5000' }, zone, now)
    expect(problems).toEqual([
      { field: 'cementKg', message: 'Cement must be a number from 5 to 2000 kg, not 5000.' },
    ])
  })

  test('FORM-4: a value outside the usual range is asked about and not refused', () => {
    const { problems, questions } = readDraft(batch, { ...typedBatch, cementKg: '300' }, zone, now)
    expect(problems).toEqual([])
    expect(questions).toEqual([
      {
        field: 'cementKg',
        value: 300,
        question: 'Cement is 300 kg; usual is 20 to 200 kg. Is that right?',
      },
    ])
  })

  test('FORM-5: an empty box is left out when it may be, and named when it is needed', () => {
    const { problems, body } = readDraft(batch, { ...typedBatch, mixer: '', cementType: '  ' }, zone, now)
    expect(problems).toEqual([{ field: 'mixer', message: 'Mixer is needed.' }])
    expect(body).not.toHaveProperty('cementType')
  })

  test('FORM-6: “now” is written to the minute on the site’s clock', () => {
    const { fields } = kinds['bay-finished']
    const { body } = readDraft(fields, { startedAt: 'now', finish: 'float' }, zone, now)
    expect(body.startedAt).toBe('2026-11-24T07:15:00+00:00')
  })

  test('FORM-7: an hour that the clock change skips is refused, the second pass of a repeated hour can be meant', () => {
    const { fields } = kinds['bay-finished']
    const read = (startedAt: { day: string; clock: string; again?: boolean }) =>
      readDraft(fields, { startedAt, finish: 'float' }, zone, now)
    expect(read({ day: '2026-03-29', clock: '01:30' }).problems[0]?.message).toMatch(
      /no clock on site showed/,
    )
    expect(read({ day: '2026-10-25', clock: '01:30' }).body.startedAt).toBe('2026-10-25T01:30:00+01:00')
    expect(read({ day: '2026-10-25', clock: '01:30', again: true }).body.startedAt).toBe(
      '2026-10-25T01:30:00+00:00',
    )
  })

  test('FORM-8: a fault inside a list is named by the path that the record uses', () => {
    const { fields } = kinds['thickness-measured']
    const { problems } = readDraft(fields, { points: [{ mm: '66' }, { mm: '6 6 x' }] }, zone, now)
    expect(problems.map(({ field }) => field)).toEqual(['points.1.mm'])
    expect(readDraft(fields, { points: [] }, zone, now).problems[0]?.field).toBe('points')
  })

  test('FORM-9: the form asks about exactly the values that the record would ask about', () => {
    fc.assert(
      fc.property(fc.double({ min: 5, max: 2000, noNaN: true }), (cementKg) => {
        const rounded = Math.round(cementKg * 10) / 10
        const { body, questions } = readDraft(batch, { ...typedBatch, cementKg: String(rounded) }, zone, now)
        const asked = unansweredRanges('batch-mixed', body, []).map(({ field }) => field)
        expect(questions.map(({ field }) => field)).toEqual(asked)
      }),
    )
  })
})

describe('correcting a fact', () => {
  const recorded: [KindName, Record<string, unknown>][] = [
    ['batch-mixed', { number: 3, cementKg: 50, dampSandKg: 201.5, addedWaterKg: 9.25, mixer: 'pump' }],
    ['sheet-on', { material: 'polyethylene', coveredPercent: 100, edgesHeld: false }],
    [
      'moisture-read',
      {
        method: 'hygrometer box',
        point: 'P1',
        setAt: '2026-10-25T01:30:17+00:00',
        readings: [{ at: '2026-10-28T08:00:00+00:00', rhPercent: 78.5 }],
        neverHeated: true,
      },
    ],
    ['defect-found', { symptom: 'S07', firstSeenOn: '2026-11-20', extent: 'spot', x: 1.25, y: 0.5 }],
  ]

  test.each(recorded)('FORM-10: %s put into the boxes and read again is the same fact', (kind, body) => {
    const { fields } = kinds[kind]
    const read = readDraft(fields, draftOfBody(fields, body, zone), zone, now)
    expect(read.problems).toEqual([])
    const instants = (value: unknown) => JSON.parse(JSON.stringify(value), revive)
    expect(instants(read.body)).toEqual(instants(body))
  })
})

test('FORM-12: a correction that leaves the time alone does not move it by a millisecond', () => {
  fc.assert(
    fc.property(fc.integer({ min: now - 4e10, max: now }), (at) => {
      const { finishedAt } = kinds['lift-laid'].fields
      const { body } = readDraft({ finishedAt }, { finishedAt: recordedWall(at, zone) }, zone, now)
      expect(Date.parse(String(body.finishedAt))).toBe(at)
    }),
  )
})

test('FORM-11: what a form knows of a kind names only fields that the kind has', () => {
  for (const kind of kindNames) {
    const names = new Set([...Object.keys(kinds[kind].fields), 'ask', 'now'])
    const { when, first = [], hidden = [], carried = [], start = {}, quick = {} } = askingOf(kind)
    for (const name of [
      when,
      ...first,
      ...hidden,
      ...carried,
      ...Object.keys(start),
      ...Object.keys(quick),
    ]) {
      expect(names, `${kind}.${name}`).toContain(name)
    }
  }
})

/** Two spellings of one instant are the same fact. */
function revive(_key: string, value: unknown): unknown {
  return typeof value === 'string' && /^\d{4}-\d\d-\d\dT/.test(value) ? Date.parse(value) : value
}
