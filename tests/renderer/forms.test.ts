import { describe, expect, test } from 'vitest'
import { kindNames, kinds } from '#model/record/kinds.ts'
import { matchCommands } from '#renderer/app/command-items.ts'
import { tokens } from '#renderer/app/theme.ts'
import { cautionsFor } from '#renderer/parts/caution-triggers.ts'
import { cornersOf, rectangleCorners, rectangleOf } from '#renderer/parts/entry-form/outline.ts'
import { numberFromTyped, numberText } from '#renderer/parts/number-text.ts'
import { recordable } from '#renderer/parts/recordable.ts'
import { cutLine } from '#renderer/screens/import/cut-lines.ts'
import { groupKinds } from '#renderer/screens/record/kind-groups.ts'
import { judge } from '#renderer/screens/record/live/judge.ts'

describe('outline by length and width', () => {
  test('OUTLINE-1: sides and a corner give four corners, and those give back the sides', () => {
    const corners = rectangleCorners({ lengthM: '6,4', widthM: '3.5', x: '2', y: '0' })
    expect(cornersOf(corners)).toEqual([
      { x: 2, y: 0 },
      { x: 8.4, y: 0 },
      { x: 8.4, y: 3.5 },
      { x: 2, y: 3.5 },
    ])
    expect(rectangleOf(corners)).toEqual({ lengthM: '6.4', widthM: '3.5', x: '2', y: '0' })
  })

  test('OUTLINE-2: no corners until both sides are numbers above zero; an L is no rectangle', () => {
    expect(rectangleCorners({ lengthM: '6', widthM: '', x: '0', y: '0' })).toEqual([])
    expect(rectangleCorners({ lengthM: '6', widthM: '-3', x: '0', y: '0' })).toEqual([])
    const bowTie = [
      { x: '0', y: '0' },
      { x: '4', y: '3' },
      { x: '4', y: '0' },
      { x: '0', y: '3' },
    ]
    expect(rectangleOf(bowTie)).toBeNull()
  })
})

describe('numbers', () => {
  test('NUMBER-1: comma, point, spaces between thousands and either minus sign are read', () => {
    expect(numberFromTyped(' 1 250,5 ')).toEqual({ kind: 'number', value: 1250.5 })
    expect(numberFromTyped('−3')).toEqual({ kind: 'number', value: -3 })
    expect(numberFromTyped('1.250,5')).toEqual({ kind: 'not a number' })
    expect(numberFromTyped('1e3')).toEqual({ kind: 'not a number' })
    expect(numberFromTyped('')).toEqual({ kind: 'empty' })
  })

  test('NUMBER-2: printed without noise, with a true minus sign, and never NaN', () => {
    expect(numberText(0.1 + 0.2)).toBe('0.3')
    expect(numberText(-4.5)).toBe('−4.5')
    expect(numberText(Number.NaN)).toBe('–')
  })
})

test('JUDGE-1: both bands hold on their edges, and beyond them the words get stronger', () => {
  const band = { usual: [3, 4.5], act: [2.5, 5] } as const
  const said = { within: 'in', low: 'low', high: 'high', farLow: 'far low', farHigh: 'far high' }
  const meanings = [2.4, 2.5, 2.99, 3, 4.5, 4.51, 5, 5.1].map((value) => judge(value, band, said).meaning)
  expect(meanings).toEqual(['far low', 'low', 'low', 'in', 'in', 'high', 'high', 'far high'])
})

test('PICK-1: every kind that can be written down about a bay stands in exactly one group', () => {
  const grouped = groupKinds(recordable('bay')).flatMap(({ kinds: inGroup }) =>
    inGroup.map(({ kind }) => kind),
  )
  expect(grouped.toSorted()).toEqual(
    recordable('bay')
      .map(({ kind }) => kind)
      .toSorted(),
  )
  expect(new Set(grouped).size).toBe(grouped.length)
})

test('PICK-2: what comes about by a file, a signature or a correction is not offered as a form', () => {
  const offered = kindNames.filter((kind) => recordable(kinds[kind].about).some((one) => one.kind === kind))
  for (const kind of ['logger-imported', 'entry-withdrawn', 'alert-answered', 'bay-decided'] as const)
    expect(offered).not.toContain(kind)
  expect(offered).toContain('batch-mixed')
})

describe('cautions', () => {
  test('CAUTION-1: a combustion heater warns of carbon monoxide, an electric one does not', () => {
    expect(cautionsFor('protection-on', { what: 'unflued heater' })).toContain('carbonMonoxide')
    expect(cautionsFor('protection-on', { what: 'flued heater' })).toContain('carbonMonoxide')
    expect(cautionsFor('protection-on', { what: 'electric heater' })).not.toContain('carbonMonoxide')
    expect(cautionsFor('protection-on', {})).toEqual([])
  })

  test('CAUTION-2: cement at mixing, silica and pipes at drilling, resin at repair', () => {
    expect(cautionsFor('batch-mixed', {})).toContain('wetCement')
    expect(cautionsFor('moisture-read', { method: 'probe' })).toEqual(['pipes', 'silica'])
    expect(cautionsFor('moisture-read', { method: 'hygrometer box' })).toEqual([])
    expect(cautionsFor('defect-closed', { how: 'repaired' })).toContain('resin')
  })
})

test('COMMAND-1: every typed word must fit, and the item that holds a word whole comes first', () => {
  const items = [
    { group: 'record', text: 'Sheet off: Bay B14', href: '1' },
    { group: 'record', text: 'Sheet off: Bay B1', href: '2' },
    { group: 'record', text: 'Sheet laid: Bay B1', href: '3' },
  ] as const
  expect(matchCommands(items, 'b1 off').map(({ href }) => href)).toEqual(['2', '1'])
  expect(matchCommands(items, 'heating')).toEqual([])
})

test('CUT-1: a separator inside quotes does not cut a line', () => {
  expect(cutLine('"24.11.2026; 07:15";"3,5";x', ';')).toEqual(['24.11.2026; 07:15', '3,5', 'x'])
})

/** WCAG 2.2, relative luminance and contrast ratio (published definition). */
function contrast(one: string, other: string): number {
  const luminance = (hex: string) => {
    const parts = [1, 3, 5].map((i) => Number.parseInt(hex.slice(i, i + 2), 16) / 255)
    const [r, g, b] = parts.map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4))
    return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!
  }
  const [low, high] = [luminance(one), luminance(other)].sort((a, b) => a - b)
  return (high! + 0.05) / (low! + 0.05)
}

describe.each(['light', 'dark'] as const)('colours, %s', (scheme) => {
  const set = tokens[scheme]

  test('COLOUR-1: numbers and text read on site have 7:1 on every ground they stand on', () => {
    for (const ground of [
      'paper',
      'raised',
      'sunk',
      'act-wash',
      'stop-wash',
      'watch-wash',
      'accent-wash',
    ] as const)
      expect(contrast(set.ink, set[ground]), ground).toBeGreaterThanOrEqual(7)
  })

  test('COLOUR-2: marks, links and soft text have 4.5:1, and edges of controls 3:1', () => {
    for (const name of ['ink-soft', 'accent', 'good', 'stop', 'act', 'watch', 'unproven'] as const)
      for (const ground of ['paper', 'raised', 'sunk'] as const)
        expect(contrast(set[name], set[ground]), `${name} on ${ground}`).toBeGreaterThanOrEqual(4.5)
    expect(contrast(set['on-accent'], set.accent)).toBeGreaterThanOrEqual(4.5)
    expect(contrast(set['line-strong'], set.paper)).toBeGreaterThanOrEqual(3)
  })
})
