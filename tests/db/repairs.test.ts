import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { bayStory } from '#db/index.ts'
import { entriesOf } from '#model/record/story.ts'
import {
  bayOf,
  entry,
  hour,
  morning,
  nextId,
  type OpenSite,
  openSite,
  sampleBody,
  temporaryFolder,
} from './site.ts'

let folder: ReturnType<typeof temporaryFolder>
let open: OpenSite
beforeEach(() => {
  folder = temporaryFolder()
  open = openSite(folder.folder)
})
afterEach(() => {
  open.close()
  folder.forget()
})

/** Common practice: no repair without a diagnosis. */
describe('REPAIR: what the ledger keeps of a repair', () => {
  const count = () => open.record.read.sqlite.prepare('select count(*) from ledger').pluck().get()

  it('REPAIR-1: a repair on the diagnosis of another defect is refused with a sentence, and nothing is written', () => {
    const [defect, other, diagnosis] = [nextId(), nextId(), nextId()]
    const { site } = open
    open.append([
      entry(site, 'defect-found', { id: defect }),
      entry(site, 'defect-found', { id: other }),
      entry(site, 'cause-named', {
        id: diagnosis,
        body: { ...sampleBody(site, 'cause-named'), defects: [{ defect: other }] },
      }),
    ])
    const before = count()
    const repair = (of: string) =>
      entry(site, 'repair-done', {
        at: morning + hour,
        body: { ...sampleBody(site, 'repair-done'), defect: of, diagnosis },
      })
    expect(() => open.append(repair(defect))).toThrow(
      /is not a diagnosis of this defect: name its cause first/,
    )
    expect(count()).toBe(before)
    open.append(repair(other))
    expect(count()).toBe(Number(before) + 1)
  })

  it('REPAIR-2: a diagnosis that a repair stands on cannot be withdrawn under it', () => {
    const [defect, diagnosis] = [nextId(), nextId()]
    const { site } = open
    open.append([
      entry(site, 'defect-found', { id: defect }),
      entry(site, 'cause-named', {
        id: diagnosis,
        body: { ...sampleBody(site, 'cause-named'), defects: [{ defect }] },
      }),
      entry(site, 'repair-done', { body: { ...sampleBody(site, 'repair-done'), defect, diagnosis } }),
    ])
    const withdraw = entry(site, 'entry-withdrawn', {
      subject: site.bay,
      corrects: diagnosis,
      reason: 'typed twice',
      body: {},
    })
    expect(() => open.append(withdraw)).toThrow(/stands on it/)
  })

  it('REPAIR-3: the story of a bay carries the project’s rates and weights', () => {
    const { site } = open
    open.append([entry(site, 'repair-rates-set'), entry(site, 'cause-weights-set')])
    const story = bayStory(open.record.read, bayOf(site))
    expect(entriesOf(story, 'repair-rates-set')).toHaveLength(1)
    expect(entriesOf(story, 'cause-weights-set')).toHaveLength(1)
  })
})
