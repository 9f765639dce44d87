import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { EntryRefused } from '#db/index.ts'
import type { Field } from '#model/record/fields.ts'
import { type KindName, kindNames, kinds } from '#model/record/kinds.ts'
import { everyKind } from './every-kind.ts'
import { importLogger } from './logger.ts'
import { entry, type OpenSite, openSite, sampleBody, temporaryFolder } from './site.ts'

let open: OpenSite
let forget: () => void
beforeAll(() => {
  const temporary = temporaryFolder()
  forget = temporary.forget
  open = openSite(temporary.folder)
})
afterAll(() => {
  open.close()
  forget()
})

interface BadInput {
  what: string
  field: string
  value: unknown
  /** Words the sentence must hold: the value as given, and the range or what is asked for. */
  says: string[]
}

const hugeText = 'x'.repeat(5000)

/** What can be wrong with a field, from the field's own description. */
function badInputs(name: string, field: Field): BadInput[] {
  const missing = field.required
    ? [{ what: 'missing', field: name, value: undefined, says: ['missing'] }]
    : []
  return [...missing, ...wrong(field).map((one) => ({ ...one, field: name }))]
}

function wrong(field: Field): Omit<BadInput, 'field'>[] {
  const null_ = { what: 'null', value: null, says: ['null'] }
  switch (field.input) {
    case 'number': {
      const [low, high] = field.hard!
      const range = [String(low), String(high)]
      return [
        null_,
        { what: 'a text', value: '12', says: ['"12"'] },
        { what: 'NaN', value: Number.NaN, says: ['NaN'] },
        { what: 'infinite', value: Number.POSITIVE_INFINITY, says: ['Infinity', ...range] },
        { what: 'below its range', value: low - 1, says: [String(low - 1), ...range] },
        { what: 'above its range', value: high + 1, says: [String(high + 1), ...range] },
      ]
    }
    case 'text':
    case 'long text':
      return [
        null_,
        { what: 'a number', value: 12, says: ['12', 'text'] },
        { what: 'blank', value: '   ', says: ['empty'] },
        { what: 'too long', value: hugeText, says: ['at most'] },
      ]
    case 'choice':
      return [
        null_,
        {
          what: 'no choice',
          value: 'anything',
          says: ['"anything"', 'one of', Object.keys(field.options!)[0]!],
        },
      ]
    case 'yes or no':
      return [null_, { what: 'a text', value: 'yes', says: ['"yes"', 'yes or no'] }]
    case 'instant':
      return [
        null_,
        { what: 'a day', value: '2026-11-02', says: ['"2026-11-02"', 'offset'] },
        { what: 'without offset', value: '2026-11-02T07:00:00', says: ['offset'] },
      ]
    case 'day':
      return [null_, { what: 'no day', value: '2026-02-30', says: ['"2026-02-30"', 'day'] }]
    case 'reference':
      return [
        null_,
        { what: 'a number', value: 12, says: ['12', 'id'] },
        { what: 'no id', value: 'B1', says: ['"B1"', 'id'] },
      ]
    case 'list':
      return [
        null_,
        { what: 'no list', value: 'one', says: ['"one"', 'list'] },
        { what: 'a list of texts', value: ['one', 'two', 'three'], says: [] },
      ]
  }
}

interface Case extends BadInput {
  kind: KindName
  body: Record<string, unknown>
}

const site = { project: '', person: '', floor: '', zone: '', bay: '', otherBay: '', instrument: '' }

function casesOf(kind: KindName): Case[] {
  const good = sampleBody(site, kind)
  const flat = Object.entries(kinds[kind].fields as Record<string, Field>).flatMap(([name, field]) => [
    ...badInputs(name, field).map((bad) => ({ ...bad, kind, body: { ...good, [name]: bad.value } })),
    ...inLists(name, field).map((bad) => ({ ...bad, kind, body: { ...good, [name]: bad.items } })),
  ])
  const misspelt = { what: 'misspelt', field: 'misspelt', value: 1, says: ['misspelt', 'spelling'] }
  return [...flat, { ...misspelt, kind, body: { ...good, misspelt: 1 } }]
}

function inLists(name: string, field: Field): (BadInput & { items: unknown[] })[] {
  if (field.item === undefined) return []
  const item = field.item
  const goodItem = Object.fromEntries(
    Object.entries(item)
      .filter(([, one]) => one.required)
      .map(([key, one]) => [
        key,
        one.input === 'number' ? one.hard![0] : (Object.keys(one.options ?? {})[0] ?? 'text'),
      ]),
  )
  return Object.entries(item).flatMap(([key, one]) =>
    badInputs(key, one).map((bad) => ({
      ...bad,
      field: `${name}.1.${key}`,
      items: [goodItem, { ...goodItem, [key]: bad.value }],
    })),
  )
}

const cases = kindNames.flatMap(casesOf)

describe('bad input', () => {
  it('BAD-1: the table covers every kind and every field with several faults each', () => {
    const fields = kindNames.flatMap((kind) =>
      Object.keys(kinds[kind].fields).map((name) => `${kind}.${name}`),
    )
    const covered = new Set(cases.map((one) => `${one.kind}.${one.field.split('.')[0]}`))
    expect(fields.filter((field) => !covered.has(field))).toEqual([])
    expect(cases.length).toBeGreaterThan(fields.length * 3)
  })

  it.each(kindNames)('BAD-2: "%s" refuses each of them with a sentence, and nothing is written', (kind) => {
    const written = open.record.read.sqlite.prepare('select count(*) from ledger').pluck()
    const before = written.get()
    for (const bad of cases.filter((one) => one.kind === kind)) {
      const name = `${kind}: ${bad.field} ${bad.what}`
      const refused = refusalOf(kind, bad.body)
      expect(refused, name).toBeInstanceOf(EntryRefused)
      const { problems } = refused as EntryRefused
      const about = problems.filter(({ field }) => field === bad.field || field.startsWith(`${bad.field}.`))
      expect(about, `${name}: no problem names the field`).not.toHaveLength(0)
      for (const words of bad.says) expect(about[0]!.message, name).toContain(words)
      expect(about[0]!.message, name).toMatch(/^[^.].*\.$/s)
    }
    expect(written.get()).toBe(before)
  })

  it('BAD-3: the same table with nothing wrong is kept, so that it was the fault that was refused', () => {
    const kept = new Set(
      open.append(everyKind(open.site), Date.parse('2026-11-04T07:00:00Z')).map((one) => one.kind),
    )
    kept.add(importLogger(open).kind)
    const opened = [
      'project-opened',
      'person-added',
      'floor-added',
      'zone-added',
      'bay-planned',
      'instrument-added',
    ]
    expect(kindNames.filter((kind) => !kept.has(kind) && !opened.includes(kind))).toEqual([])
  })
})

function refusalOf(kind: KindName, body: Record<string, unknown>): unknown {
  const withdraws = kind === 'entry-withdrawn'
  try {
    open.append({
      ...entry(open.site, kind, withdraws ? { corrects: open.site.otherBay, reason: 'wrong' } : {}),
      body,
    })
  } catch (refused) {
    return refused
  }
  return null
}
