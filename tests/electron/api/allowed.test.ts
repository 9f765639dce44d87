import { isDefinedError, safe } from '@orpc/client'
import { describe, expect, it } from 'vitest'
import type { LoggerReading } from '#model/contract/index.ts'
import { may } from '#model/people/index.ts'
import type { EntryId } from '#model/record/ids.ts'
import { type KindName, kindNames } from '#model/record/kinds.ts'
import { type Role, roles } from '#model/record/people.ts'
import { bayOf, day, entry, hour, morning, nextId } from '#tests/db/site.ts'
import { inName, openedWithCrew } from './crew.ts'
import { openedWithSite } from './opened.ts'

const roleNames = Object.keys(roles) as Role[]
const reasonOf = (error: unknown) => (error as { data?: { reason?: string } } | null)?.data?.reason ?? null
const later = { at: morning + 80 * day }

describe('every kind in the name of every role', () => {
  it('ALLOW-1: the host refuses exactly what the table does not give the role, and writes nothing of it', async () => {
    const { site, client, crew, project } = await openedWithCrew()
    const kinds = kindNames.filter((kind) => kind !== 'entry-withdrawn' && kind !== 'project-opened')
    const table: string[] = []
    for (const kind of kinds) {
      for (const role of roleNames) {
        const asked = inName(entry(site, kind, later), crew[role])
        const { error } = await safe(client.record.append({ entries: [asked] }))
        const refused = reasonOf(error) === 'role'
        // The sample of a hold point is let go, which its own list of roles narrows further.
        const expected = kind === 'hold-point-released' ? refused : !may([role], kind, 'write first')
        expect(refused, `${kind} by ${role}`).toBe(expected)
        if (!refused) continue
        table.push(`${kind} ${role}`)
        expect(isDefinedError(error)).toBe(true)
        expect(error).toMatchObject({ code: 'NOT_ALLOWED', status: 403, data: { person: crew[role] } })
        const kept = await client.record.list({ project, kinds: [kind as KindName], limit: 500 })
        expect(kept.entries.some(({ id }) => (id as string) === (asked.id as string))).toBe(false)
      }
    }
    expect(table.length).toBeGreaterThan(100)
  })

  it('ALLOW-2: what another wrote is corrected and withdrawn by the quality manager alone', async () => {
    const { site, client, crew, write } = await openedWithCrew()
    const air = nextId()
    await write('tester', ['air-read', { ...later, id: air }])
    for (const kind of ['air-read', 'entry-withdrawn'] as const) {
      for (const role of roleNames) {
        if (role === 'quality manager' || role === 'tester') continue
        const asked = entry(site, kind, { ...later, subject: site.bay, corrects: air, reason: 'Misread' })
        const { error } = await safe(
          client.record.append({
            entries: [inName({ ...asked, body: kind === 'air-read' ? asked.body : {} }, crew[role])],
          }),
        )
        expect(reasonOf(error), `${kind} by ${role}`).toBe('role')
      }
    }
    const corrected = nextId()
    await write('quality manager', [
      'air-read',
      { ...later, id: corrected, corrects: air, reason: 'Misread' },
    ])
    const own = { ...later, subject: site.bay, body: {}, corrects: corrected, reason: 'Twice' }
    const { error } = await safe(write('tester', ['entry-withdrawn', own]))
    expect(reasonOf(error)).toBe('role')
    expect((await write('quality manager', ['entry-withdrawn', own])).entries).toHaveLength(1)
  })

  it('ALLOW-3: one entry that is not allowed keeps the whole append from being written', async () => {
    const { write, client, project } = await openedWithCrew()
    const count = async () => (await client.record.list({ project, limit: 500 })).entries.length
    const before = await count()
    await expect(write('tester', ['air-read', later], ['bay-decided', later])).rejects.toThrow(
      /A tester may not/,
    )
    expect(await count()).toBe(before)
  })

  it('ALLOW-4: asked again after a lost answer, what is written is written, whatever the role is by now', async () => {
    const { site, client, crew, write } = await openedWithCrew()
    const once = inName(entry(site, 'sheet-on', later), crew.supervisor)
    const first = await client.record.append({ entries: [once] })
    await write('quality manager', [
      'person-added',
      {
        ...later,
        subject: crew.supervisor,
        corrects: crew.supervisor,
        reason: 'Left the site',
        body: { name: 'The supervisor', role: 'viewer' },
      },
    ])
    expect(await client.record.append({ entries: [once] })).toEqual(first)
    await expect(write('supervisor', ['sheet-on', later])).rejects.toThrow(/A viewer may not/)
  })

  it('ALLOW-5: alone on a project one may do all of it; the second person ends that, the quality manager the standing-in', async () => {
    const { site, client, time } = await openedWithSite()
    time.now = morning + 90 * day
    const write = (kind: KindName, noting = {}) =>
      client.record.append({ entries: [entry(site, kind, { ...later, ...noting })] })
    await write('hold-point-released', {
      body: { point: 'soundness', decision: 'waived', saw: 'Ordered by the client' },
    })
    const tester = nextId<'person'>()
    await write('person-added', { id: tester, body: { name: 'Second', role: 'tester' } })
    await write('hold-point-released', {
      body: { point: 'regularity', decision: 'waived', saw: 'Ordered by the client' },
    })
    const asTester = inName(entry(site, 'batch-mixed', later), tester)
    await expect(client.record.append({ entries: [asTester] })).rejects.toThrow(/A tester may not/)
    await write('person-added', { body: { name: 'Third', role: 'quality manager' } })
    await expect(
      write('hold-point-released', { body: { point: 'soundness', decision: 'released', saw: 'Looked' } }),
    ).rejects.toThrow(/A site supervisor may not let the hold point “Soundness” go/)
  })

  it('ALLOW-6: a logger file is read in by those who may write readings', async () => {
    const { client, crew, site } = await openedWithCrew()
    const upload = '0'.repeat(32)
    const reading: LoggerReading = {
      encoding: 'utf-8',
      separator: ',',
      decimal: '.',
      headerRows: 1,
      dateColumn: 0,
      timeColumn: null,
      dateOrder: 'iso',
      timeZone: 'Europe/London',
      columns: [{ index: 1, quantity: 'airC', unit: '°C' }],
    }
    const asked = (person: string) =>
      safe(
        (async () => {
          const input = { upload, bay: bayOf(site), reading, entry: nextId(), person, acceptBadRows: false }
          for await (const _ of await client.imports.commit(input));
        })(),
      )
    const { error } = await asked(crew.viewer)
    const { error: other } = await asked(crew.tester)
    expect([reasonOf(error), reasonOf(other)]).toEqual(['role', null])
  })
})

describe('who made it does not check it', () => {
  const point = (name: string, decision = 'released') => ({
    ...later,
    body: { point: name, decision, saw: 'Looked at it closely' },
  })

  it('FOUR-1: who wrote down the moisture test does not let its point go; another does', async () => {
    const { write } = await openedWithCrew()
    await write('supervisor', ['bay-finished', { at: morning + hour }])
    await write('quality manager', ['moisture-read', { at: morning + 70 * day }])
    const { error } = await safe(write('quality manager', ['hold-point-released', point('moisture test')]))
    expect(error).toMatchObject({ code: 'NOT_ALLOWED', data: { reason: 'maker' } })
    expect(error?.message).toMatch(/Moisture test.*Let another person look and decide/)
    await write('quality manager', ['hold-point-released', point('moisture test', 'held')])
    await write('second manager', ['hold-point-released', point('moisture test')])
  })

  it('FOUR-2: a test and its release in one append are seen together', async () => {
    const { write } = await openedWithCrew()
    const both = write(
      'tester',
      ['moisture-read', { at: morning + 70 * day }],
      ['hold-point-released', point('moisture test')],
    )
    const { error } = await safe(both)
    expect(reasonOf(error)).toBe('maker')
  })

  it('FOUR-3: correcting somebody’s test makes one its maker', async () => {
    const { write } = await openedWithCrew()
    const test = nextId()
    await write('supervisor', ['bay-finished', { at: morning + hour }])
    await write('tester', ['moisture-read', { id: test, at: morning + 70 * day }])
    await write('quality manager', [
      'moisture-read',
      { at: morning + 70 * day, corrects: test, reason: 'Wrong point' },
    ])
    for (const who of ['tester', 'quality manager'] as const)
      expect(reasonOf((await safe(write(who, ['hold-point-released', point('moisture test')]))).error)).toBe(
        'maker',
      )
  })

  it('FOUR-4: nobody closes the non-conformance that they own or raised alone', async () => {
    const { write, crew } = await openedWithCrew()
    const [alone, owned] = [nextId(), nextId()]
    const body = { rule: 'Curing', what: 'No sheet' }
    await write('quality manager', ['nonconformance-raised', { ...later, id: alone, body }])
    await write('supervisor', [
      'nonconformance-raised',
      { ...later, id: owned, body: { ...body, owner: crew['quality manager'] } },
    ])
    const close = (raised: EntryId) =>
      ['nonconformance-closed', { ...later, body: { raised, cause: 'Hurry', action: 'Sheet laid' } }] as const
    for (const raised of [alone, owned])
      expect(reasonOf((await safe(write('quality manager', [...close(raised)]))).error)).toBe('maker')
    await write('second manager', [...close(alone)], [...close(owned)])
  })

  it('FOUR-5: who tested the bay does not accept it, even past every hold point', async () => {
    const { write, client, site, crew } = await openedWithCrew()
    await write('quality manager', [
      'project-opened',
      {
        ...later,
        subject: site.project,
        corrects: site.project,
        reason: 'None agreed',
        body: { ...projectBody, holdPoints: [] },
      },
    ])
    await write('supervisor', ['bay-finished', { at: morning + hour }])
    await write('quality manager', ['soundness-tested', { at: morning + 60 * day }])
    const accepts = inName(entry(site, 'bay-decided', later), crew['quality manager'])
    const { error } = await safe(client.record.append({ entries: [accepts] }))
    expect(reasonOf(error)).toBe('maker')
    // Another passes this rule, and is told what the bay lacks.
    const byAnother = await safe(write('flooring contractor', ['bay-decided', later]))
    expect(byAnother.error?.message).toMatch(/only a READY bay is accepted/)
    expect(reasonOf(byAnother.error)).toBeNull()
  })
})

const projectBody = { name: 'Test hall', timeZone: 'Europe/London', currency: 'GBP', ruleSet: 'british' }
