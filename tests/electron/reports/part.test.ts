import { describe, expect, it } from 'vitest'
import type { StoredOutline } from '#db/index.ts'
import { cover } from '#electron/reports/print/project-parts.ts'
import type { ProjectPart } from '#model/contract/parts.ts'
import type { BayId } from '#model/record/ids.ts'
import { rulesOfProject } from '#model/rules/project-rules.ts'

const held = [{ id: '019ab000-0000-7000-8000-000000000001' as BayId, name: 'B2' }]
const part: ProjectPart = { held, named: [], ofBays: 14, missingEntries: 7, asOf: '2026-11-02T07:00:00.000Z' }
const body = { name: 'Test hall', ruleSet: 'british', timeZone: 'Europe/London', currency: 'GBP' } as const

/** The first page as text, of a project without bays. */
function firstPage(of: ProjectPart | null): string {
  const outline = { project: { id: 'p', body }, floors: [], zones: [], bays: [], people: [], instruments: [] }
  const file = { bays: [], gaps: new Map(), rules: rulesOfProject(body), asOf: 0, seal: '' }
  return JSON.stringify(cover({ ...file, outline: { ...outline, part: of } as unknown as StoredOutline }))
}

describe('the handover file from a part of a record', () => {
  it('PRINT-PART-1: its first page says how many bays of the project the record holds; that of a whole one does not', () => {
    expect(firstPage(part)).toContain('holds 1 of 14 bays of the project')
    expect(firstPage(part)).toContain('neither good nor bad')
    expect(firstPage({ ...part, ofBays: null })).toContain('holds not all bays of the project')
    expect(firstPage(null)).not.toContain('of the project')
  })
})
