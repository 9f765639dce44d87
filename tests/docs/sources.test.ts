import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { gatherUses, namedOrigins } from '#scripts/docs/gather-sources.ts'
import { rowsOf } from '#scripts/docs/sources.ts'
import { root } from '#scripts/root.ts'

const page = readFileSync(`${root}docs/sources.md`, 'utf8')
const rows = page
  .split('\n')
  .filter((line) => line.startsWith('| '))
  .map((line) => line.slice(2, -2).split(' | '))
const uses = await gatherUses()
const isOnPage = (source: string, edition: string, provenance: string) =>
  rows.some(
    (row) => row[0] === source && row[1] === (edition === '' ? '–' : edition) && row[3] === provenance,
  )

describe('SRC: docs/sources.md', () => {
  test.each(namedOrigins())('SRC-1: names $source ($edition), $provenance', (origin) => {
    expect(isOnPage(origin.source, origin.edition, origin.provenance)).toBe(true)
  })
  test('SRC-2: every limit in every rule set and choice stands on the page with its value', () => {
    const limits = uses.filter(({ where }) => where.endsWith('rule set') || where.includes(' rules'))
    expect(limits.length).toBeGreaterThan(150)
    const missing = limits.filter(
      ({ source, provenance, taken }) =>
        !rows.some((row) => row[0] === source && row[3] === provenance && row[2]?.includes(taken)),
    )
    expect(
      missing.map(({ taken, source }) => `${taken}: ${source}. Run node scripts/docs/sources.ts.`),
    ).toEqual([])
  })
  test('SRC-3: every source of a check value stands on the page', () => {
    const checks = uses.filter(({ where }) => where === 'npm run accuracy')
    expect(checks.length).toBeGreaterThan(30)
    expect(checks.filter((use) => !isOnPage(use.source, use.edition, use.provenance))).toEqual([])
  })
  test('SRC-4: no limit calls itself published: no purchased standard was read', () => {
    const limits = uses.filter(({ where }) => where.endsWith('rule set') || where.includes(' rules'))
    expect(limits.filter(({ provenance }) => provenance === 'published')).toEqual([])
    expect(namedOrigins().filter(({ provenance }) => provenance === 'published')).toEqual([])
  })
  test('SRC-5: a use that is not on the page is noticed', () => {
    const planted = { source: 'Nowhere', edition: '', provenance: 'from memory', taken: 'x', where: 'y' }
    expect(isOnPage(planted.source, planted.edition, planted.provenance)).toBe(false)
    expect(rowsOf([planted])).toEqual(['| Nowhere | – | x | from memory | y |'])
  })
})
