import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { chainStart, entryHash } from '#db/hash.ts'
import {
  appendEntries,
  closeRecord,
  createRecord,
  entryVersions,
  listFacts,
  openRecord,
  projectOutline,
  projectSummaries,
} from '#db/index.ts'
import type { EntryId, ProjectId } from '#model/record/ids.ts'
import {
  day,
  entry,
  hour,
  iso,
  morning,
  newSite,
  nextId,
  type OpenSite,
  opening,
  openSite,
  sampleBody,
  temporaryFolder,
} from './site.ts'

let open: OpenSite
let forget: () => void
let folder: string
beforeEach(() => {
  ;({ folder, forget } = temporaryFolder())
  open = openSite(folder)
})
afterEach(() => {
  open.close()
  forget()
})

const entriesIn = () => open.record.read.sqlite.prepare('select count(*) from ledger').pluck().get()
const factOf = (id: string) => {
  const page = listFacts(open.record.read, { project: open.site.project as ProjectId, limit: 500 })
  return page.entries.find((one) => one.id === id)
}
const thrownBy = (work: () => unknown) => {
  try {
    work()
  } catch (thrown) {
    return thrown
  }
  throw new Error('nothing was thrown')
}

describe('append', () => {
  it('LED-1: what is appended is read back as it was said, chained to the entry before it', () => {
    const air = entry(open.site, 'air-read', { body: { airC: 12.5, rhPercent: 61 } })
    const [written] = open.append(air)
    expect(written).toMatchObject({
      id: air.id,
      seq: 8,
      deviceSeq: 8,
      kind: 'air-read',
      kindVersion: 1,
      body: { airC: 12.5, rhPercent: 61 },
      corrects: null,
      recordedAt: iso(morning + day),
      device: open.record.device!.id,
    })
    const { seq: _, hash, ...said } = written!
    expect(entryHash(said)).toBe(hash)
    const hashes = open.record.read.sqlite
      .prepare('select prevHash, hash from ledger order by seq')
      .all() as {
      prevHash: string
      hash: string
    }[]
    expect(hashes.map((one) => one.prevHash)).toEqual([
      chainStart,
      ...hashes.slice(0, -1).map((one) => one.hash),
    ])
  })

  it('LED-2: when one of many entries cannot be kept, none of them is', () => {
    const good = entry(open.site, 'air-read')
    const bad = entry(open.site, 'air-read', { body: { airC: 99 } })
    const before = entriesIn()
    expect(thrownBy(() => open.append([good, bad]))).toMatchObject({
      name: 'EntryRefused',
      entry: bad.id,
      problems: [
        {
          field: 'airC',
          value: '99',
          message: 'Air temperature (airC) is 99; it must be a number from -30 to 50 °C.',
        },
      ],
    })
    expect(entriesIn()).toBe(before)
    expect(factOf(good.id)).toBeUndefined()
  })

  it('LED-3: asking twice writes once and gives the same entry', () => {
    const air = entry(open.site, 'air-read')
    const [first] = open.append(air)
    const [second] = open.append(air, morning + 2 * day)
    expect(second).toEqual(first)
    expect(open.append([air, air])).toEqual([first, first])
    expect(entriesIn()).toBe(8)
  })

  it('LED-3: texts with blanks around them are the same facts when asked again', () => {
    const noted = entry(open.site, 'no-traffic-confirmed', {
      body: { heldBy: '  The keys hang in the office ' },
    })
    const [first] = open.append(noted)
    expect(first!.body).toEqual({ heldBy: 'The keys hang in the office' })
    expect(open.append(noted)).toEqual([first])
  })

  it('LED-3: the same id with other facts is a conflict, and what was written stays', () => {
    const air = entry(open.site, 'air-read', { body: { airC: 10 } })
    open.append(air)
    const other = { ...air, body: { airC: 11 } }
    expect(thrownBy(() => open.append(other))).toMatchObject({ name: 'CorrectionConflict', entry: air.id })
    expect(factOf(air.id)!.body).toEqual({ airC: 10 })
  })

  it('LED-4: an entry of the future is refused beyond ten minutes, and a clock that is a little fast is not', () => {
    const now = morning + day
    const soon = entry(open.site, 'air-read', { at: now + 10 * 60_000 })
    expect(open.append(soon, now)).toHaveLength(1)
    const later = entry(open.site, 'air-read', { at: now + 10 * 60_000 + 1 })
    expect(thrownBy(() => open.append(later, now))).toMatchObject({ problems: [{ field: 'happenedAt' }] })
  })

  it('LED-5: an entry recorded more than 48 h after it happened is kept and marked late', () => {
    const inTime = entry(open.site, 'air-read', { at: morning })
    const late = entry(open.site, 'air-read', { at: morning })
    open.append(inTime, morning + 48 * hour)
    open.append(late, morning + 48 * hour + 1)
    expect(factOf(inTime.id)!.late).toBe(false)
    expect(factOf(late.id)!.late).toBe(true)
  })

  it('LED-6: a value outside its usual range is a question, and its answer is kept with the entry', () => {
    const body = { airC: 41 }
    expect(thrownBy(() => open.append(entry(open.site, 'air-read', { body })))).toMatchObject({
      problems: [
        {
          field: 'airC',
          value: '41',
          message:
            'Air temperature (airC), 41, is unusual; it is mostly from -10 to 35 °C. Check it, or say why it is right.',
        },
      ],
    })
    const answers = [{ field: 'airC', value: 41, answer: 'Heater blows straight at the sensor' }]
    const [written] = open.append(entry(open.site, 'air-read', { body, answers }))
    expect(written!.answers).toEqual(answers)
    const stale = [{ field: 'airC', value: 40, answer: 'Answer to another value' }]
    expect(thrownBy(() => open.append(entry(open.site, 'air-read', { body, answers: stale })))).toMatchObject(
      {
        name: 'EntryRefused',
      },
    )
  })

  it('LED-6: the question names the place in a list', () => {
    const body = { points: [{ mm: 65 }, { mm: 18 }] }
    expect(thrownBy(() => open.append(entry(open.site, 'thickness-measured', { body })))).toMatchObject({
      problems: [{ field: 'points.1.mm', value: '18' }],
    })
    const answers = [{ field: 'points.1.mm', value: 18, answer: 'Over the pipe crossing' }]
    expect(open.append(entry(open.site, 'thickness-measured', { body, answers }))).toHaveLength(1)
  })
})

describe('what an entry points at', () => {
  it.each([
    ['an unknown bay', () => entry(open.site, 'air-read', { subject: nextId() }), 'bay'],
    ['a zone where a bay is meant', () => entry(open.site, 'air-read', { subject: open.site.zone }), 'bay'],
    ['an unknown project', () => entry({ ...open.site, project: nextId() }, 'air-read'), 'project'],
    ['an unknown person', () => entry({ ...open.site, person: nextId() }, 'air-read'), 'person'],
    [
      'an unknown instrument',
      () => entry(open.site, 'air-read', { body: { airC: 10, instrument: nextId() } }),
      'instrument',
    ],
    [
      'a bay as instrument',
      () => entry(open.site, 'air-read', { body: { airC: 10, instrument: open.site.bay } }),
      'instrument',
    ],
    ['an unknown zone for a new bay', () => entry({ ...open.site, zone: nextId() }, 'bay-planned'), 'zone'],
    [
      'an unknown entry to correct',
      () => entry(open.site, 'air-read', { corrects: nextId(), reason: 'why' }),
      'entry',
    ],
  ])('REF-1: %s is refused by name, and nothing is written', (_, make, what) => {
    expect(thrownBy(() => open.append(make()))).toMatchObject({ name: 'UnknownId', what })
    expect(entriesIn()).toBe(7)
  })

  it('REF-2: things of another project in the same file are unknown here', () => {
    const other = newSite()
    open.append(opening(other), morning)
    expect(thrownBy(() => open.append(entry(open.site, 'air-read', { subject: other.bay })))).toMatchObject({
      what: 'bay',
    })
    const foreign = entry({ ...open.site, person: other.person }, 'air-read')
    expect(thrownBy(() => open.append(foreign))).toMatchObject({ what: 'person' })
  })

  it('REF-3: an entry that adds a thing is about itself', () => {
    const floor = entry(open.site, 'floor-added', { subject: open.site.floor })
    expect(thrownBy(() => open.append(floor))).toMatchObject({ problems: [{ field: 'subject' }] })
  })

  it('REF-4: the first person may come in the append after the project, and nobody else may write before', () => {
    const site = newSite()
    const [project, person] = opening(site)
    open.append(project!, morning)
    const stranger = nextId()
    const uninvited = entry({ ...site, person: stranger }, 'person-added', { id: stranger })
    expect(thrownBy(() => open.append(uninvited, morning))).toMatchObject({ what: 'person' })
    expect(thrownBy(() => open.append(entry(site, 'floor-added'), morning))).toMatchObject({ what: 'person' })
    expect(open.append(person!, morning)).toHaveLength(1)
    expect(open.append(entry(site, 'floor-added'), morning)).toHaveLength(1)
  })

  it('REF-5: a project is opened by a person of the same append or by one who comes after', () => {
    const site = newSite()
    const [project, person] = opening({ ...site, person: nextId() })
    const someoneElse = { ...project!, person: nextId<'person'>() }
    expect(thrownBy(() => open.append([someoneElse, person!], morning))).toMatchObject({ what: 'person' })
    expect(projectSummaries(open.record.read)).toHaveLength(1)
  })
})

describe('corrections', () => {
  it('COR-1: a correction keeps the id of the fact, and every version stays', () => {
    const first = entry(open.site, 'air-read', { body: { airC: 10 } })
    const second = entry(open.site, 'air-read', { body: { airC: 12 }, corrects: first.id, reason: 'misread' })
    open.append([first, second])
    expect(factOf(first.id)).toMatchObject({ body: { airC: 12 }, withdrawn: false, conflict: false })
    expect(factOf(first.id)!.versions.map((one) => [one.id, one.body, one.reason])).toEqual([
      [first.id, { airC: 10 }, null],
      [second.id, { airC: 12 }, 'misread'],
    ])
    expect(entryVersions(open.record.read, second.id as EntryId)).toEqual(factOf(first.id)!.versions)
    expect(factOf(second.id)).toBeUndefined()
  })

  it('COR-2: correcting what was corrected meanwhile is a conflict that names what stands now', () => {
    const first = entry(open.site, 'air-read', { body: { airC: 10 } })
    const second = entry(open.site, 'air-read', { body: { airC: 12 }, corrects: first.id, reason: 'misread' })
    open.append([first, second])
    const late = entry(open.site, 'air-read', { body: { airC: 13 }, corrects: first.id, reason: 'misread' })
    expect(thrownBy(() => open.append(late))).toMatchObject({ name: 'CorrectionConflict', entry: second.id })
    expect(factOf(first.id)!.body).toEqual({ airC: 12 })
  })

  it.each([
    ['without a reason', (id: string) => entry(open.site, 'air-read', { corrects: id }), 'reason'],
    [
      'with another kind',
      (id: string) => entry(open.site, 'wet-event-noted', { corrects: id, reason: 'why' }),
      'kind',
    ],
    [
      'for another bay',
      (id: string) =>
        entry(open.site, 'air-read', { subject: open.site.otherBay, corrects: id, reason: 'why' }),
      'subject',
    ],
  ])('COR-3: a correction %s is refused', (_, make, field) => {
    const first = entry(open.site, 'air-read')
    open.append(first)
    expect(thrownBy(() => open.append(make(first.id)))).toMatchObject({ problems: [{ field }] })
    expect(factOf(first.id)!.versions).toHaveLength(1)
  })

  it('COR-4: a withdrawn fact keeps its words, is marked, and can be brought back by a correction', () => {
    const first = entry(open.site, 'air-read', { body: { airC: 10 } })
    const away = entry(open.site, 'entry-withdrawn', { corrects: first.id, reason: 'wrong bay' })
    open.append([first, away])
    expect(factOf(first.id)).toMatchObject({ withdrawn: true, body: { airC: 10 }, kind: 'air-read' })
    const again = entry(open.site, 'entry-withdrawn', { corrects: away.id, reason: 'once more' })
    expect(thrownBy(() => open.append(again))).toMatchObject({ name: 'CorrectionConflict' })
    const back = entry(open.site, 'air-read', {
      body: { airC: 11 },
      corrects: away.id,
      reason: 'right bay after all',
    })
    open.append(back)
    expect(factOf(first.id)).toMatchObject({ withdrawn: false, body: { airC: 11 } })
    expect(factOf(first.id)!.versions.map((one) => one.kind)).toEqual([
      'air-read',
      'entry-withdrawn',
      'air-read',
    ])
  })

  it('COR-4: a withdrawal needs the entry it withdraws', () => {
    expect(thrownBy(() => open.append(entry(open.site, 'entry-withdrawn')))).toMatchObject({
      problems: [{ field: 'corrects' }],
    })
  })

  it('COR-5: a thing on which entries stand cannot be withdrawn under them; an unused one can', () => {
    const away = (id: string) =>
      entry(open.site, 'entry-withdrawn', { corrects: id, reason: 'never existed' })
    open.append(entry(open.site, 'air-read'))
    for (const used of [
      open.site.project,
      open.site.person,
      open.site.floor,
      open.site.zone,
      open.site.bay,
    ]) {
      expect(thrownBy(() => open.append(away(used)))).toMatchObject({ problems: [{ field: 'corrects' }] })
    }
    open.append(away(open.site.otherBay))
    const { bays } = projectOutline(open.record.read, open.site.project as ProjectId)
    expect(bays.map((bay) => bay.id)).toEqual([open.site.bay])
    const onIt = entry(open.site, 'air-read', { subject: open.site.otherBay })
    expect(thrownBy(() => open.append(onIt))).toMatchObject({ name: 'UnknownId', what: 'bay' })
  })

  it('COR-5: a project in which nothing but its people stands can be withdrawn, takes nothing more, and can come back', () => {
    const site = newSite()
    open.append(opening(site).slice(0, 2), morning)
    const away = entry(site, 'entry-withdrawn', {
      subject: site.project,
      corrects: site.project,
      reason: 'a trial',
    })
    open.append(away)
    expect(projectSummaries(open.record.read).map((one) => one.id)).toEqual([open.site.project])
    expect(thrownBy(() => open.append(entry(site, 'floor-added')))).toMatchObject({
      what: 'standing project',
    })
    const back = entry(site, 'project-opened', {
      subject: site.project,
      corrects: away.id,
      reason: 'no trial',
    })
    open.append(back)
    expect(projectSummaries(open.record.read)).toHaveLength(2)
    expect(open.append(entry(site, 'floor-added'))).toHaveLength(1)
  })

  it('COR-6: the lists follow a correction of a thing', () => {
    const body = { ...sampleBody(open.site, 'bay-planned'), name: 'B1 north' }
    open.append(
      entry(open.site, 'bay-planned', {
        subject: open.site.bay,
        body,
        corrects: open.site.bay,
        reason: 'name',
      }),
    )
    const { bays } = projectOutline(open.record.read, open.site.project as ProjectId)
    expect(bays.map((bay) => [bay.id, bay.body.name])).toEqual([
      [open.site.bay, 'B1 north'],
      [open.site.otherBay, 'B2'],
    ])
  })
})

describe('the ledger on disk', () => {
  it.each([
    ["update ledger set body = '{}' where seq = 1", /never changed/],
    ['delete from ledger where seq = 8', /never deleted/],
    ['insert or replace into ledger select * from ledger where seq = 2', /never replaced/],
    ['update files set bytes = 1', /never changed/],
    ['delete from files', /never deleted/],
    ['insert or replace into files select * from files', /never replaced/],
    ['update series set subject = 1', /never changed/],
    ['update series set sealed = 0', /never changed/],
    ['delete from series', /never deleted/],
    ['insert or replace into series select * from series', /never replaced/],
    ['update readings set value = 1', /never changed/],
    ['delete from readings', /never deleted/],
    ['insert or replace into readings select series, at, 5 from readings', /takes no more|never deleted/],
    ['insert into readings select series, max(at) + 1, 5 from readings', /takes no more/],
  ])('LED-7: %s is refused by the file itself', async (sql, words) => {
    const { importLogger } = await import('./logger.ts')
    importLogger(open)
    expect(() => open.record.write!.sqlite.exec(sql)).toThrow(words)
  })

  it('LED-8: a record opened for reading says why it cannot be written, and reads what was written', () => {
    const reader = openRecord(open.file, { now: morning, readOnly: true })
    const refused = thrownBy(() =>
      appendEntries(reader, [entry(open.site, 'air-read')], { recordedAt: morning }),
    )
    expect(refused).toMatchObject({ name: 'RecordError', state: 'read-only' })
    open.append(entry(open.site, 'air-read'))
    expect(projectSummaries(reader.read)[0]!.entries).toBe(8)
    closeRecord(reader)
  })

  it('LED-9: a record is never made over something that is there', () => {
    const refused = thrownBy(() => createRecord(open.file, { now: morning }))
    expect(refused).toMatchObject({ name: 'RecordError', state: 'foreign' })
    expect(entriesIn()).toBe(7)
  })
})
