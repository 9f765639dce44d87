import fc from 'fast-check'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import {
  closeRecord,
  createRecord,
  entryVersions,
  listFacts,
  mergeEntries,
  rebuildViews,
  verify,
} from '#db/index.ts'
import { viewTables } from '#db/views/project-entry.ts'
import type { LedgerEntry } from '#model/record/entry.ts'
import type { EntryId, ProjectId } from '#model/record/ids.ts'
import { everyKind } from './every-kind.ts'
import { importLogger } from './logger.ts'
import {
  day,
  entry,
  hour,
  morning,
  type OpenSite,
  opening,
  openSite,
  sampleBody,
  temporaryFolder,
} from './site.ts'

let folder: string
let forget: () => void
beforeEach(() => {
  ;({ folder, forget } = temporaryFolder())
})
afterEach(() => forget())

function viewsOf({ record }: OpenSite): string {
  return JSON.stringify(
    viewTables.map((table) => record.read.sqlite.prepare(`select * from ${table} order by 1`).all()),
  )
}

const airOf = (open: OpenSite) =>
  listFacts(open.record.read, { project: open.site.project as ProjectId, kinds: ['air-read'], limit: 500 })
    .entries

/** What the property test believes about a fact, kept in the simplest way there is. */
interface Belief {
  root: string
  last: string
  celsius: number
  withdrawn: boolean
  versions: number
}

type Step =
  | { do: 'read'; celsius: number; hours: number }
  | { do: 'correct'; which: number; celsius: number; hours: number }
  | { do: 'withdraw'; which: number }
  | { do: 'rename bay'; name: string }

const celsius = fc.integer({ min: 0, max: 30 })
const hours = fc.integer({ min: -200, max: 20 })
const step: fc.Arbitrary<Step> = fc.oneof(
  { weight: 3, arbitrary: fc.record({ do: fc.constant('read' as const), celsius, hours }) },
  {
    weight: 4,
    arbitrary: fc.record({ do: fc.constant('correct' as const), which: fc.nat(), celsius, hours }),
  },
  { weight: 2, arbitrary: fc.record({ do: fc.constant('withdraw' as const), which: fc.nat() }) },
  {
    weight: 1,
    arbitrary: fc.record({ do: fc.constant('rename bay' as const), name: fc.constantFrom('A', 'B', 'C') }),
  },
)

describe('views', () => {
  it('VIEW-1: the views are what a replay of the ledger gives, and say what a person would say, for any sequence', async () => {
    let run = 0
    let steps = 0
    await fc.assert(
      fc.asyncProperty(fc.array(step, { minLength: 5, maxLength: 40 }), async (sequence) => {
        run += 1
        const open = openSite(folder, `run-${run}.bayledger`)
        const beliefs: Belief[] = []
        let bayHead = open.site.bay
        for (const one of sequence) {
          steps += 1
          if (one.do === 'rename bay') {
            const body = { ...sampleBody(open.site, 'bay-planned'), name: one.name }
            const renamed = entry(open.site, 'bay-planned', {
              subject: open.site.bay,
              body,
              corrects: bayHead,
              reason: 'name',
            })
            open.append(renamed)
            bayHead = renamed.id
            continue
          }
          follow(open, beliefs, one)
        }
        const told = new Map(airOf(open).map((fact) => [fact.id as string, fact]))
        expect(told.size).toBe(beliefs.length)
        for (const belief of beliefs) {
          expect(told.get(belief.root)).toMatchObject({
            body: { airC: belief.celsius },
            withdrawn: belief.withdrawn,
            conflict: false,
          })
          expect(told.get(belief.root)!.versions).toHaveLength(belief.versions)
        }
        const before = viewsOf(open)
        expect(await verify(open.record.read)).toMatchObject({ ok: true, firstDifference: null })
        rebuildViews(open.record)
        expect(viewsOf(open)).toBe(before)
        open.close()
      }),
      { numRuns: 25, seed: 7 },
    )
    expect(steps).toBeGreaterThan(300)
  })

  it('VIEW-2: a record with every kind of entry and a logger file replays to the same views', async () => {
    const open = openSite(folder)
    open.append(everyKind(open.site), morning + 2 * day)
    importLogger(open)
    const before = viewsOf(open)
    expect(before.length).toBeGreaterThan(2000)
    open.record.write!.sqlite.exec(
      "update facts set late = 1 - late; delete from bays; update people set name = 'x'",
    )
    expect(viewsOf(open)).not.toBe(before)
    rebuildViews(open.record)
    expect(viewsOf(open)).toBe(before)
    expect(await verify(open.record.read)).toMatchObject({ ok: true, series: 2 })
    open.close()
  })
})

function follow(open: OpenSite, beliefs: Belief[], one: Exclude<Step, { do: 'rename bay' }>): void {
  if (one.do === 'read') {
    const read = entry(open.site, 'air-read', { at: morning + one.hours * hour, body: { airC: one.celsius } })
    open.append(read)
    beliefs.push({ root: read.id, last: read.id, celsius: one.celsius, withdrawn: false, versions: 1 })
    return
  }
  const belief = beliefs[one.which % Math.max(1, beliefs.length)]
  if (belief === undefined) return
  if (one.do === 'withdraw') {
    const away = entry(open.site, 'entry-withdrawn', { corrects: belief.last, reason: 'in error' })
    if (belief.withdrawn) {
      expect(() => open.append(away)).toThrow('withdrawn already')
      return
    }
    open.append(away)
    Object.assign(belief, { last: away.id, withdrawn: true, versions: belief.versions + 1 })
    return
  }
  const corrected = entry(open.site, 'air-read', {
    at: morning + one.hours * hour,
    body: { airC: one.celsius },
    corrects: belief.last,
    reason: 'misread',
  })
  open.append(corrected)
  const versions = belief.versions + 1
  Object.assign(belief, { last: corrected.id, celsius: one.celsius, withdrawn: false, versions })
}

describe('two devices', () => {
  it('CON-1: two corrections of one entry are both kept and marked, until a person withdraws one', async () => {
    const [here, there] = ['here', 'there'].map((name) => createRecord(`${folder}/${name}`, { now: morning }))
    const open = openSite(folder)
    const read = entry(open.site, 'air-read', { body: { airC: 10 } })
    const written = [...open.append(opening(open.site), morning), ...open.append(read)]
    for (const record of [here!, there!]) expect(mergeEntries(record, written)).toBe(written.length)

    const on = (record: typeof here): OpenSite => ({ ...open, record: record! })
    const correct = (celsius: number) =>
      entry(open.site, 'air-read', { body: { airC: celsius }, corrects: read.id, reason: 'misread' })
    const { appendEntries } = await import('#db/index.ts')
    const mine: LedgerEntry[] = appendEntries(here!, [correct(11)], { recordedAt: morning + hour })
    const theirs: LedgerEntry[] = appendEntries(there!, [correct(12)], { recordedAt: morning + 2 * hour })
    expect(mine[0]!.device).not.toBe(theirs[0]!.device)

    expect(mergeEntries(here!, theirs)).toBe(1)
    expect(mergeEntries(here!, theirs)).toBe(0)
    expect(mergeEntries(there!, mine)).toBe(1)
    for (const record of [here, there]) {
      expect(airOf(on(record))).toMatchObject([{ id: read.id, conflict: true, withdrawn: false }])
      expect(airOf(on(record))[0]!.versions).toHaveLength(3)
    }

    const settled = entry(open.site, 'entry-withdrawn', {
      corrects: theirs[0]!.id,
      reason: 'my reading is right',
    })
    const settlement = appendEntries(here!, [settled], { recordedAt: morning + 3 * hour })
    mergeEntries(there!, settlement)
    for (const record of [here, there]) {
      expect(airOf(on(record))).toMatchObject([{ body: { airC: 11 }, conflict: false, withdrawn: false }])
      const versions = entryVersions(record!.read, read.id as EntryId)
      expect(versions).toHaveLength(4)
      expect(versions.at(-1)!.body).toEqual({ airC: 11 })
      expect(await verify(record!.read)).toMatchObject({ ok: true })
      closeRecord(record!)
    }
    open.close()
  })

  it('CON-2: an entry that was changed on the way, or whose forerunner is missing, is not taken in', () => {
    const open = openSite(folder)
    const other = createRecord(`${folder}/other`, { now: morning })
    const written = open.append(opening(open.site), morning)
    const forged = { ...written[1]!, body: { ...written[1]!.body, name: 'Someone' } }
    expect(() => mergeEntries(other, [written[0]!, forged])).toThrow(/hash of what it says/)
    expect(() => mergeEntries(other, [written[1]!])).toThrow(/does not follow/)
    expect(other.read.sqlite.prepare('select count(*) from ledger').pluck().get()).toBe(0)
    closeRecord(other)
    open.close()
  })
})
