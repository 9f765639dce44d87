import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { bayStory, listFacts, projectOutline, projectSummaries, subjectOf } from '#db/index.ts'
import type { BayId, ProjectId } from '#model/record/ids.ts'
import { storyAsOf } from '#model/record/story.ts'
import { everyKind } from './every-kind.ts'
import { importLogger, minute, roomReadings } from './logger.ts'
import {
  bayOf,
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
beforeEach(() => {
  const temporary = temporaryFolder()
  forget = temporary.forget
  open = openSite(temporary.folder)
})
afterEach(() => {
  open.close()
  forget()
})
const project = () => open.site.project as ProjectId

describe('the story of a bay', () => {
  it('STO-1: it holds the bay, where it stands, and everything that happened there, by time', () => {
    open.append(everyKind(open.site), morning + 2 * day)
    const otherBays = entry(open.site, 'air-read', { subject: open.site.otherBay })
    open.append(otherBays)
    const story = bayStory(open.record.read, bayOf(open.site))
    expect(story).toMatchObject({
      storyVersion: 1,
      timeZone: 'Europe/London',
      project: { id: open.site.project, body: { name: 'Test hall' } },
      floor: { id: open.site.floor },
      zone: { id: open.site.zone, body: { heated: true } },
      bay: { id: open.site.bay, body: { name: 'B1' } },
      neighbours: [{ id: open.site.otherBay, body: { name: 'B2' } }],
    })
    const times = story.entries.map((one) => one.happenedAt)
    expect(times).toEqual([...times].sort((a, b) => a - b))
    const kinds = new Set(story.entries.map((one) => one.kind))
    for (const kind of [
      'bay-planned',
      'zone-added',
      'floor-added',
      'weather-forecast-noted',
      'heating-noted',
    ] as const) {
      expect(kinds).toContain(kind)
    }
    expect(story.entries.some((one) => one.id === (otherBays.id as string))).toBe(false)
    expect(story.entries.find((one) => one.kind === 'air-read')).toMatchObject({ withdrawn: true })
    expect(JSON.parse(JSON.stringify(story))).toEqual(story)
  })

  it('STO-2: an instrument comes into the story when an entry of the bay names it, with its checks', () => {
    open.append(entry(open.site, 'instrument-checked'))
    expect(bayStory(open.record.read, bayOf(open.site)).entries.map((one) => one.kind)).not.toContain(
      'instrument-checked',
    )
    open.append(entry(open.site, 'air-read', { body: { airC: 12, instrument: open.site.instrument } }))
    const kinds = bayStory(open.record.read, bayOf(open.site)).entries.map((one) => one.kind)
    expect(kinds).toContain('instrument-added')
    expect(kinds).toContain('instrument-checked')
  })

  it('STO-3: readings older than 30 days before laying are not of the life of the bay', () => {
    const long = roomReadings(90, morning - 60 * day, day)
    importLogger(open, long)
    expect(bayStory(open.record.read, bayOf(open.site)).series[0]!.at).toHaveLength(90)
    open.append(
      entry(open.site, 'bay-finished', {
        body: { startedAt: iso(morning), finish: 'float' },
        at: morning + hour,
      }),
    )
    const [air] = bayStory(open.record.read, bayOf(open.site)).series
    expect(air!.at[0]).toBe(morning - 30 * day)
    expect(air!.value).toHaveLength(air!.at.length)
    expect(air!.at).toHaveLength(60)
  })

  it('STO-4: the story told as of an earlier time knows nothing later', () => {
    const read = entry(open.site, 'air-read', { at: morning, body: { airC: 10 } })
    open.append(read, morning + hour)
    const better = entry(open.site, 'air-read', {
      at: morning,
      body: { airC: 12 },
      corrects: read.id,
      reason: 'misread',
    })
    open.append(better, morning + 5 * hour)
    const story = bayStory(open.record.read, bayOf(open.site))
    const then = storyAsOf(story, morning + 2 * hour, morning + 2 * hour)
    const now = storyAsOf(story, morning + 6 * hour)
    expect(then.entries.find((one) => one.kind === 'air-read')!.body).toEqual({ airC: 10 })
    expect(now.entries.find((one) => one.kind === 'air-read')!.body).toEqual({ airC: 12 })
  })

  it('STO-5: a bay that is not in the record is unknown', () => {
    expect(() => bayStory(open.record.read, nextId<'bay'>())).toThrow(/knows no bay/)
  })

  it('STO-6: the large tables are searched by index, never walked', () => {
    const plans = [
      'select at from readings where series = 1 and at >= 0 order by at',
      "select * from facts where subject = 'x' order by happenedAt, seq",
      "select * from facts where project = 'x' order by happenedAt desc, seq desc limit 5",
      "select * from series where subject = 'x' and lastAt >= 0",
      "select * from ledger where id = 'x'",
      "select * from ledger where device = 'x' order by deviceSeq desc limit 1",
      "select * from imports where sha256 = 'x'",
    ].map((sql) => open.record.read.sqlite.prepare(`explain query plan ${sql}`).all() as { detail: string }[])
    for (const plan of plans) {
      expect(plan.map((one) => one.detail).join('; ')).toMatch(/^SEARCH /)
    }
  })
})

describe('lists', () => {
  it('LIST-1: pages of facts join without gap or repetition, newest happening first', () => {
    const reads = Array.from({ length: 23 }, (_, i) =>
      entry(open.site, 'air-read', { at: morning + (i % 7) * minute }),
    )
    open.append(reads)
    const seen: { id: string; happenedAt: number }[] = []
    let pages = 0
    for (let before: number | undefined; ; pages++) {
      const page = listFacts(open.record.read, { project: project(), kinds: ['air-read'], limit: 5, before })
      seen.push(...page.entries)
      if (page.next === null) break
      before = page.next
    }
    expect(pages).toBe(4)
    expect(new Set(seen.map((one) => one.id))).toEqual(new Set(reads.map((one) => one.id)))
    expect(seen).toHaveLength(23)
    const times = seen.map((one) => one.happenedAt)
    expect(times).toEqual([...times].sort((a, b) => b - a))
  })

  it('LIST-2: subject, kind and span of time narrow the list, ends included', () => {
    open.append([0, 1, 2, 3].map((i) => entry(open.site, 'air-read', { at: morning + i * hour })))
    open.append(entry(open.site, 'air-read', { subject: open.site.otherBay, at: morning + 2 * hour }))
    const list = (filter: object) =>
      listFacts(open.record.read, { project: project(), limit: 50, ...filter }).entries
    const span = { from: iso(morning + hour), to: iso(morning + 2 * hour) }
    expect(list({ kinds: ['air-read'], ...span })).toHaveLength(3)
    expect(list({ subject: open.site.bay, kinds: ['air-read'], ...span })).toHaveLength(2)
    expect(list({ kinds: ['sheet-on'] })).toEqual([])
    expect(() => list({ before: 999 })).toThrow(/knows no page/)
  })

  it('LIST-3: projects are listed with what is in them, and their outlines are in order', () => {
    const other = newSite()
    open.append(opening(other), morning)
    open.append(entry(open.site, 'instrument-checked'), morning + day)
    expect(projectSummaries(open.record.read)).toEqual([
      { id: open.site.project, name: 'Test hall', entries: 8, lastRecordedAt: iso(morning + day) },
      { id: other.project, name: 'Test hall', entries: 7, lastRecordedAt: iso(morning) },
    ])
    const outline = projectOutline(open.record.read, project())
    expect(outline).toMatchObject({
      project: { id: open.site.project },
      floors: [{ id: open.site.floor }],
      zones: [{ id: open.site.zone }],
      bays: [
        { id: open.site.bay, floor: open.site.floor, body: { name: 'B1' } },
        { id: open.site.otherBay, floor: open.site.floor, body: { name: 'B2' } },
      ],
      people: [{ id: open.site.person }],
      instruments: [{ id: open.site.instrument, lastCheckedAt: iso(morning), lastCheckPassed: true }],
    })
    expect(() => projectOutline(open.record.read, nextId<'project'>())).toThrow(/knows no project/)
  })

  it('LIST-4: a failed check of an instrument is told as failed, an unchecked one as unknown', () => {
    const instruments = () => projectOutline(open.record.read, project()).instruments
    expect(instruments()).toMatchObject([{ lastCheckedAt: null, lastCheckPassed: null }])
    const body = { ...sampleBody(open.site, 'instrument-checked'), passed: false }
    open.append(entry(open.site, 'instrument-checked', { body, at: morning + hour }))
    expect(instruments()).toMatchObject([{ lastCheckedAt: iso(morning + hour), lastCheckPassed: false }])
  })

  it('LIST-5: an id says what it stands for', () => {
    const of = (id: string) => subjectOf(open.record.read, id)
    expect(of(open.site.bay)).toEqual({
      id: open.site.bay,
      type: 'bay',
      project: project(),
      name: 'B1',
      withdrawn: false,
    })
    expect(of(open.site.zone)).toMatchObject({ type: 'zone' })
    expect(of(open.site.instrument)).toMatchObject({ type: 'instrument' })
    const read = entry(open.site, 'air-read')
    open.append(read)
    expect(of(read.id)).toBeNull()
    expect(of(nextId())).toBeNull()
  })
})

describe('two bays of one project', () => {
  it('STO-7: each story has its own entries and series only', () => {
    importLogger(open)
    const other = bayStory(open.record.read, open.site.otherBay as BayId)
    expect(other.series).toEqual([])
    expect(other.entries.map((one) => one.kind)).not.toContain('logger-imported')
  })
})
