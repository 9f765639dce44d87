import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import {
  bayStory,
  closeRecord,
  openRecord,
  projectOutline,
  projectSummaries,
  type RecordFile,
} from '#db/index.ts'
import { companyOf } from '#db/queries/people.ts'
import { actOf, madeFrom, makerProblem, roleProblem, rolesInForce } from '#model/people/index.ts'
import { type BayStory, entriesOf } from '#model/record/index.ts'
import { rulesOfProject } from '#model/rules/index.ts'
import { isOpen, watchBay } from '#model/watch/index.ts'
import { makeDemo } from '#scripts/demo/make.ts'

const now = Date.parse('2026-11-25T10:15:00Z')
const folder = mkdtempSync(path.join(tmpdir(), 'bayledger-demo-'))
const stories = (record: RecordFile): Map<string, BayStory> => {
  const [project] = projectSummaries(record.read)
  return new Map(
    projectOutline(record.read, project!.id)!.bays.map((bay) => [
      bay.body.name,
      bayStory(record.read, bay.id)!,
    ]),
  )
}

describe('DEMO: the demonstration project', () => {
  let record: RecordFile
  let bays: Map<string, BayStory>
  beforeAll(async () => {
    await makeDemo(path.join(folder, 'one.bayledger'), { seed: 20, now })
    record = openRecord(path.join(folder, 'one.bayledger'), { now, readOnly: true })
    bays = stories(record)
  })
  afterAll(() => {
    closeRecord(record)
    rmSync(folder, { recursive: true })
  })

  it('DEMO-1: has fifteen bays on three floors, some heated', () => {
    expect(bays.size).toBe(15)
    expect(new Set([...bays.values()].map((story) => story.floor.id)).size).toBe(3)
    expect([...bays.values()].filter((story) => story.zone.body.heated).length).toBeGreaterThanOrEqual(4)
  })

  it('DEMO-2: the same seed and moment tell the same story', async () => {
    await makeDemo(path.join(folder, 'two.bayledger'), { seed: 20, now })
    const other = openRecord(path.join(folder, 'two.bayledger'), { now, readOnly: true })
    expect(stories(other)).toEqual(bays)
    closeRecord(other)
    await makeDemo(path.join(folder, 'three.bayledger'), { seed: 21, now })
    const third = openRecord(path.join(folder, 'three.bayledger'), { now, readOnly: true })
    expect(stories(third)).not.toEqual(bays)
    closeRecord(third)
  })

  it('DEMO-3: every series and every moisture reading says that it was made and not measured', () => {
    for (const [name, story] of bays) {
      for (const series of story.series) expect(series.madeBy, name).toMatch(/not measured/)
      for (const test of entriesOf(story, 'moisture-read'))
        expect(test.body.note, name).toMatch(/not measured/)
    }
  })

  it('DEMO-4: nothing has happened after the moment at which it stands', () => {
    for (const story of bays.values()) {
      for (const entry of story.entries) expect(entry.recordedAt).toBeLessThanOrEqual(now)
      for (const batch of entriesOf(story, 'batch-mixed')) {
        if (batch.body.laidAt !== undefined) expect(Date.parse(batch.body.laidAt)).toBeLessThanOrEqual(now)
      }
      for (const series of story.series) expect(series.at.at(-1)).toBeLessThanOrEqual(now)
    }
  })

  it('DEMO-5: the frost reaches one bay only, in its second night', () => {
    const coldest = [...bays].map(([name, story]) => {
      const series = story.series.find((one) => one.quantity === 'screedC')
      return [name, series === undefined ? null : Math.min(...series.value)] as const
    })
    const frozen = coldest.filter(([, lowest]) => lowest !== null && lowest <= 0).map(([name]) => name)
    expect(frozen).toEqual(['F1'])
    for (const [name, lowest] of coldest)
      if (lowest !== null && name !== 'F1') expect(lowest, name).toBeGreaterThan(5)
  })

  it('DEMO-6: one bay went uncovered for a day, one bore a ladder, one sheet was lifted', () => {
    const firstCover = (name: string) => {
      const story = bays.get(name)!
      return entriesOf(story, 'sheet-on')[0]!.happenedAt - entriesOf(story, 'bay-finished')[0]!.happenedAt
    }
    expect(firstCover('F2')).toBeGreaterThan(24 * 3_600_000)
    expect(firstCover('F4')).toBeLessThan(2 * 3_600_000)
    expect(entriesOf(bays.get('F3')!, 'traffic-seen')[0]!.body.traffic).toBe('ladder')
    expect(entriesOf(bays.get('F5')!, 'sheet-off').map((entry) => entry.body.why)).toContain('lifted')
  })

  it('DEMO-7: probe readings of an undisturbed bay fall from test to test, within their noise', () => {
    const readings = entriesOf(bays.get('F4')!, 'moisture-read').map(
      (test) => test.body.readings!.at(-1)!.rhPercent,
    )
    expect(readings.length).toBeGreaterThanOrEqual(4)
    expect(readings.at(-1)!).toBeLessThan(readings[0]! - 2)
  })
  it.each(['2026-11-25T06:30:00Z', '2027-03-30T14:00:00Z', '2027-07-01T12:00:00Z'])(
    'DEMO-8: made at %s, a bay that went well has no open alert, and one that went wrong has',
    async (moment) => {
      const at = Date.parse(moment)
      const file = path.join(folder, `${at}.bayledger`)
      await makeDemo(file, { seed: 20, now: at })
      const made = openRecord(file, { now: at, readOnly: true })
      const open = new Map(
        [...stories(made)].map(([name, story]) => [
          name,
          watchBay(story, at, rulesOfProject(story.project.body))
            .filter(isOpen)
            .map(({ rule }) => rule),
        ]),
      )
      closeRecord(made)
      for (const good of ['G1', 'G3', 'G4', 'F4', 'S1', 'S2', 'S3']) expect(open.get(good), good).toEqual([])
      expect(open.get('F1')).toContain('A03')
      expect(open.get('F2')).toContain('A25')
      expect(open.get('F3')).toContain('A29')
      expect(open.get('G2')).toContain('A38')
    },
  )

  it('DEMO-8: everybody writes only what their role lets them, and nobody lets their own test go', () => {
    const [project] = projectSummaries(record.read)
    const company = companyOf(record.read, project!.id)
    let checked = 0
    for (const story of bays.values()) {
      const made = madeFrom(story.entries)
      for (const { kind, versions } of story.entries) {
        for (const [i, version] of versions.entries()) {
          const act = actOf(version, i === 0 ? null : versions[i - 1]!)
          const inForce = rolesInForce(version.person, company)
          const problem =
            roleProblem({ kind, act, body: version.body }, inForce) ??
            makerProblem({ kind, person: version.person, body: version.body }, made)
          expect(problem, `${story.bay.body.name}: ${kind}, ${act}`).toBeNull()
          checked += 1
        }
      }
    }
    expect(checked).toBeGreaterThan(500)
  })
})
