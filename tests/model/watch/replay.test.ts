// No measured values: a replay must know what was known, and nothing else. The demonstration's stories are our invention.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { bayStory, closeRecord, openRecord, projectOutline, projectSummaries } from '#db/index.ts'
import type { StoryEntry } from '#model/record/entry.ts'
import type { BayStory } from '#model/record/story.ts'
import { rulesOfProject } from '#model/rules/index.ts'
import { isOpen, watchBay } from '#model/watch/index.ts'
import { makeDemo } from '#scripts/demo/make.ts'

const now = Date.parse('2026-11-25T10:15:00Z')
const hour = 3_600_000
const day = 24 * hour
const stories = new Map<string, BayStory>()
const folder = mkdtempSync(path.join(tmpdir(), 'bayledger-replay-'))

beforeAll(async () => {
  const file = path.join(folder, 'demo.sqlite')
  await makeDemo(file, { seed: 20, now })
  const record = openRecord(file, { now, readOnly: true })
  const [project] = projectSummaries(record.read)
  for (const { id, body } of projectOutline(record.read, project!.id).bays) {
    stories.set(body.name, bayStory(record.read, id, { knownAt: now }))
  }
  closeRecord(record)
})
afterAll(() => rmSync(folder, { recursive: true }))

const alertsOf = (story: BayStory, asOf: number, knownAt?: number) =>
  watchBay(story, asOf, rulesOfProject(story.project.body), knownAt)

/** What somebody had in hand at that moment: written here once more and plainly, apart from the model's own cut. */
function inHandAt(story: BayStory, moment: number): BayStory {
  const entries: StoryEntry[] = []
  for (const entry of structuredClone(story.entries)) {
    const versions = entry.versions.filter(({ recordedAt }) => recordedAt <= moment)
    const facts = versions.filter(({ kind }) => kind !== 'entry-withdrawn')
    const last = facts[facts.length - 1]
    if (last === undefined || last.happenedAt > moment) continue
    const withdrawn = versions[versions.length - 1]!.kind === 'entry-withdrawn'
    const { happenedAt, recordedAt, person, source, body } = last
    entries.push({
      ...entry,
      versions,
      withdrawn,
      happenedAt,
      recordedAt,
      person,
      source,
      body,
    } as StoryEntry)
  }
  const files = entries.filter(({ withdrawn }) => !withdrawn).map(({ id }) => id)
  const series = structuredClone(story.series)
    .filter(({ entry }) => files.includes(entry))
    .map((one) => {
      const rows = one.at.filter((at) => at <= moment).length
      return { ...one, at: one.at.slice(0, rows), value: one.value.slice(0, rows) }
    })
  return { ...structuredClone(story), entries, series }
}

describe('REPLAY: alerts of the past', () => {
  it('REPLAY-1: at any past moment they are those of the story as it was in hand then', () => {
    const names = [...stories.keys()]
    const moments = fc.record({
      name: fc.constantFrom(...names),
      hoursAgo: fc.integer({ min: 0, max: 120 * 24 }),
      minute: fc.integer({ min: 0, max: 59 }),
    })
    let compared = 0
    fc.assert(
      fc.property(moments, ({ name, hoursAgo, minute }) => {
        const story = stories.get(name)!
        const moment = now - hoursAgo * hour - minute * 60_000
        const then = alertsOf(inHandAt(story, moment), moment)
        compared += then.length
        expect(alertsOf(story, moment, moment)).toEqual(then)
      }),
      { numRuns: 400, seed: 43 },
    )
    expect(compared).toBeGreaterThan(100)
  })

  it('REPLAY-2: an alert once raised is the same when it is asked for again, whatever was written since', () => {
    const story = stories.get('F1')!
    const frost = alertsOf(story, now).find(({ rule }) => rule === 'A03')
    expect(frost).toBeDefined()
    const moments = Array.from({ length: 40 }, (_, i) => now - i * day).filter(
      (at) => at > frost!.since + 8 * day,
    )
    expect(moments.length).toBeGreaterThan(30)
    for (const moment of moments) {
      expect(alertsOf(story, moment, moment).find(({ id }) => id === frost!.id)).toMatchObject({
        since: frost!.since,
        severity: 'stop',
      })
    }
  })

  it('REPLAY-3: the cut of this test is not blind: knowing more changes what is said of the past', () => {
    const differ = [...stories.values()].some((story) =>
      [30, 45, 58, 60].some((days) => {
        const moment = now - days * day
        const known = alertsOf(inHandAt(story, moment), moment)
        return JSON.stringify(known) !== JSON.stringify(alertsOf(story, moment))
      }),
    )
    expect(differ).toBe(true)
  })

  it.each(['G1', 'G3', 'F4', 'S1', 'S2', 'S3', 'G4'])(
    'REPLAY-4: %s, on which everything was done well, has no open alert that says stop or act',
    (name) => {
      const pressing = alertsOf(stories.get(name)!, now)
        .filter(isOpen)
        .filter(({ severity }) => severity === 'stop' || severity === 'act')
      expect(pressing.map(({ rule, title }) => `${rule} ${title}`)).toEqual([])
    },
  )
})
