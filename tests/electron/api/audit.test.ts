// The calls of the quality manager over a real record. What the demonstration may be asked follows from what befell its
// bays (scripts/demo/scenario.ts): one was tested with an instrument that had failed its check; nothing else is odd.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { requirementIds } from '#model/audit/index.ts'
import type { AuditSheet } from '#model/contract/index.ts'
import type { BayId, ProjectId } from '#model/record/ids.ts'
import { makeDemo } from '#scripts/demo/make.ts'
import { day, entry, hour, morning } from '#tests/db/site.ts'
import { opened, openedWithSite } from './opened.ts'

async function laidSite() {
  const site = await openedWithSite()
  const { client, time } = site
  const project = site.site.project as ProjectId
  const bay = site.site.bay as BayId
  const append = (...entries: ReturnType<typeof entry>[]) => client.record.append({ entries })
  time.now = morning + 3 * hour
  await append(entry(site.site, 'bay-finished', { at: morning + hour }))
  const cellOf = (sheet: AuditSheet, id: string) =>
    sheet.lines.find((line) => line.bay === bay)?.cells.find((cell) => cell.id === id)
  return { ...site, project, bay, append, cellOf }
}

describe('AUDIT-API-1: bays against requirements', () => {
  it('AUDIT-API-1: every bay has a cell for every requirement, and follows what is written', async () => {
    const { client, project, site, time, append, cellOf } = await laidSite()
    const before = await client.audit.sheet({ project })
    expect(before.lines).toHaveLength(2)
    for (const { cells } of before.lines) expect(cells.map(({ id }) => id)).toEqual(requirementIds)
    expect(cellOf(before, 'C2')?.state).toBe('not met')
    const points = Array.from({ length: 30 }, () => ({ mm: 70 }))
    time.now += hour
    await append(entry(site, 'thickness-measured', { at: morning + 2 * hour, body: { points } }))
    expect(cellOf(await client.audit.sheet({ project }), 'C2')?.state).not.toBe('not met')
  })

  it('AUDIT-API-1: one bay says why, with labels for every entry it names', async () => {
    const { client, bay } = await laidSite()
    const audit = await client.audit.bay({ bay })
    const known = new Set(audit.entries.map(({ id }) => id))
    expect(audit.answers).toHaveLength(16)
    for (const { because } of audit.answers) expect(because.length).toBeGreaterThan(5)
    const named = audit.answers.filter(({ id }) => id !== 'C1').flatMap(({ entries }) => entries)
    expect(named.filter((id) => !known.has(id))).toEqual([])
    expect(audit.corroboration.map(({ fact }) => fact)).toEqual(['When it was laid'])
  })

  it('AUDIT-API-1: compared with an earlier day, a bay that was not planned then is new', async () => {
    const { client, project, site, time, append, bay } = await laidSite()
    time.now = morning + 10 * day
    const points = Array.from({ length: 30 }, () => ({ mm: 70 }))
    await append(entry(site, 'thickness-measured', { at: morning + 2 * hour, body: { points } }))
    const lineSince = async (since: number) =>
      (await client.audit.sheet({ project, since: new Date(since).toISOString() })).lines.find(
        (line) => line.bay === bay,
      )
    expect((await lineSince(morning - day))?.metBefore).toBeNull()
    const then = (await lineSince(morning + 2 * day))?.metBefore
    expect(then).toBeGreaterThan(0)
  })
})

describe('AUDIT-API-2: what was changed', () => {
  it('AUDIT-API-2: a correction and a withdrawal are listed, newest first, and only since the day asked', async () => {
    const { client, project, site, time, append } = await laidSite()
    const air = entry(site, 'air-read', { at: morning + 2 * hour })
    await append(air)
    time.now = morning + 2 * day
    const body = { ...air.body, airC: 19 }
    const correction = entry(site, 'air-read', {
      at: morning + 2 * hour,
      body,
      corrects: air.id,
      reason: 'Misread',
    })
    await append(correction)
    time.now = morning + 4 * day
    await append(
      entry(site, 'entry-withdrawn', {
        subject: site.bay,
        at: time.now,
        corrects: correction.id,
        reason: 'Other bay',
      }),
    )
    const { amendments } = await client.audit.amendments({ project })
    expect(amendments.map(({ what, reason }) => [what, reason])).toEqual([
      ['withdrawn', 'Other bay'],
      ['corrected', 'Misread'],
    ])
    expect(amendments[1]?.changes).toMatchObject([{ field: 'airC', to: 19 }])
    const since = new Date(morning + 3 * day).toISOString()
    expect((await client.audit.amendments({ project, since })).amendments).toHaveLength(1)
  })

  it('AUDIT-API-2: what was written late is listed, the decisive first; a withdrawn one is not', async () => {
    const { client, project, site, time, append } = await laidSite()
    time.now = morning + 6 * day
    const air = entry(site, 'air-read', { at: morning + 2 * hour })
    await append(air, entry(site, 'thickness-measured', { at: morning + 2 * hour }))
    const { late } = await client.audit.amendments({ project })
    expect(late.map(({ kind, decisive }) => [kind, decisive])).toEqual([
      ['thickness-measured', true],
      ['air-read', false],
    ])
    await append(
      entry(site, 'entry-withdrawn', { subject: site.bay, at: time.now, corrects: air.id, reason: 'Twice' }),
    )
    expect((await client.audit.amendments({ project })).late).toHaveLength(1)
  })
})

describe('AUDIT-API-3: clocks', () => {
  it('AUDIT-API-3: a machine whose clock went back is asked about', async () => {
    const { client, project, site, time, append } = await laidSite()
    expect((await client.audit.questions({ project })).questions.map(({ rule }) => rule)).not.toContain(
      'clock went back',
    )
    time.now = morning + 2 * hour
    await append(entry(site, 'air-read', { at: morning + hour }))
    const { questions } = await client.audit.questions({ project })
    expect(questions.find(({ rule }) => rule === 'clock went back')?.evidence[0]).toMatchObject({
      value: 60,
      unit: 'min',
    })
  })
})

describe('AUDIT-API-4: the demonstration', () => {
  const now = Date.parse('2026-11-25T14:00:00Z')
  let client: Awaited<ReturnType<typeof opened>>['client']
  let project: ProjectId
  let nameOf: (bay: string) => string | undefined

  // Opened anew for each test; the record is made once.
  let folder: string
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'bayledger-audit-'))
    await makeDemo(join(folder, 'record.sqlite'), { seed: 20, now })
  })
  afterAll(() => rmSync(folder, { recursive: true, force: true }))
  async function open() {
    const started = await opened(folder)
    started.time.now = now
    client = started.client
    project = (await client.projects.list()).projects[0]!.id
    const { bays } = await client.projects.outline({ project })
    nameOf = (bay) => bays.find(({ id }) => id === bay)?.body.name
  }

  it('AUDIT-API-4: only the test with the failed instrument is asked about', async () => {
    await open()
    const { questions } = await client.audit.questions({ project })
    expect(questions.map(({ rule, bays }) => [rule, ...bays.map(nameOf)])).toEqual([['instrument', 'G2']])
  })

  it('AUDIT-API-4: what befell the bays is what is not met', async () => {
    await open()
    const { lines } = await client.audit.sheet({ project })
    const notMet = (name: string) =>
      lines
        .find(({ bay }) => nameOf(bay) === name)
        ?.cells.filter(({ state, id }) => state === 'not met' && id !== 'C7')
        .map(({ id }) => id)
    expect(['G1', 'G2', 'F1', 'F2', 'F3', 'F4'].map(notMet)).toEqual([
      [],
      ['C12'],
      ['C10', 'C13'],
      ['C6', 'C13'],
      ['C13'],
      [],
    ])
  })

  it('AUDIT-API-4: the invalid test is told from the valid ones', async () => {
    await open()
    const { tests } = await client.audit.open({ project })
    expect(tests.filter(({ verdict }) => verdict === 'invalid').map(({ bay }) => nameOf(bay))).toEqual(['G2'])
    expect(tests.filter(({ bay, valid }) => nameOf(bay) === 'G1' && valid)).toHaveLength(3)
  })
})
