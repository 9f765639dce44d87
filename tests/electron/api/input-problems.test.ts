import { describe, expect, it } from 'vitest'
import { problemsOfInput } from '#electron/api/input-problems.ts'
import { loggerReading } from '#model/contract/logger-file.ts'
import { newEntry } from '#model/record/entry.ts'

const entry = {
  id: '019ab000-0000-7000-8000-000000000001',
  project: '019ab000-0000-7000-8000-000000000002',
  subject: '019ab000-0000-7000-8000-000000000003',
  kind: 'air-read',
  happenedAt: '2026-11-24T07:15:00+00:00',
  zone: 'Europe/London',
  person: '019ab000-0000-7000-8000-000000000004',
  source: 'typed',
  body: {},
}

function sentences(changes: Record<string, unknown>): string[] {
  const input = { ...entry, ...changes }
  const { error } = newEntry.safeParse(input)
  return problemsOfInput(error?.issues ?? [], input).map(({ message }) => message)
}

describe('sentences for what cannot be right', () => {
  it.each([
    [{}, []],
    [
      { happenedAt: '24.11.2026' },
      ['happenedAt must be a date and time with an offset, such as 2026-11-24T07:15:00+00:00.'],
    ],
    [{ happenedAt: undefined }, ['happenedAt is missing; fill it in.']],
    [{ body: 'text' }, ['body must be a group of fields.']],
    [{ person: 'me' }, ['person is not the id of a known person.']],
    [{ subject: '' }, ['subject must have at least 1 character.']],
    [{ zone: 7 }, ['zone must be text.']],
    [{ source: 'guessed' }, ['source must be one of: typed, logger, file, photo, told by.']],
    [
      { colour: 'red', weight: 1 },
      [
        'colour is not a field that belongs here; remove it.',
        'weight is not a field that belongs here; remove it.',
      ],
    ],
    [{ answers: [{ field: 'airC', value: 'hot', answer: 'yes' }] }, ['answers.0.value must be a number.']],
  ])('PROBLEM-1: %o gives %o', (changes, expected) => {
    expect(sentences(changes)).toEqual(expected)
  })

  it('PROBLEM-2: the value that was given stands beside its field, cut short when it is long', () => {
    const input = { ...entry, zone: 'x'.repeat(500) }
    const [problem] = problemsOfInput(newEntry.safeParse(input).error?.issues ?? [], input)
    expect(problem).toMatchObject({ field: 'zone', message: 'zone must have at most 60 characters.' })
    expect(problem?.value).toHaveLength(120)
  })

  it('PROBLEM-3: no sentence of the library itself reaches a person', () => {
    const { error } = loggerReading.safeParse({
      encoding: 'x',
      headerRows: -1,
      dateColumn: 0.5,
      columns: 'none',
    })
    const problems = problemsOfInput(error?.issues ?? [], {})
    expect(problems.length).toBeGreaterThan(4)
    for (const { message } of problems) expect(message).not.toMatch(/invalid|expected|received|undefined/i)
  })
})
