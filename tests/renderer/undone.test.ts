import { mkdirSync } from 'node:fs'
import path from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { bayStory, entryVersions, verify } from '#db/index.ts'
import type { BayId, EntryId } from '#model/record/ids.ts'
import { undoingOf } from '#renderer/app/undone.ts'
import {
  day,
  entry,
  hour,
  iso,
  morning,
  nextId,
  type OpenSite,
  openSite,
  temporaryFolder,
} from '../db/site.ts'

let forget: () => void
let open: OpenSite
beforeEach(() => {
  const temporary = temporaryFolder()
  forget = temporary.forget
  const folder = path.join(temporary.folder, 'site')
  mkdirSync(folder)
  open = openSite(folder)
})
afterEach(() => {
  open.close()
  forget()
})

const now = iso(morning + 2 * day)
const first = { airC: 12, rhPercent: 61 }

/** An air reading, and a chain of corrections of it; each returns the id of its version. */
function reading() {
  let head: string = nextId()
  const at = morning + hour
  const answers = [{ field: 'airC', value: 12, answer: 'read twice' }]
  open.append(entry(open.site, 'air-read', { id: head, at, body: first, answers }))
  const next = (kind: 'air-read' | 'entry-withdrawn', body: Record<string, unknown>, when = at) => {
    const id = nextId()
    const subject = open.site.bay
    open.append(
      entry(open.site, kind, { id, subject, at: when, body, corrects: head, reason: 'as it was' }),
      morning + 2 * day,
    )
    head = id
    return id
  }
  /** What the button does: writes what undoes the newest version. */
  const undo = () => {
    const undone = undoingOf(entryVersions(open.record.read, head as EntryId), head as EntryId, now)
    return next(undone.kind as 'air-read', undone.body, Date.parse(undone.happenedAt))
  }
  const standing = () => {
    const { entries } = bayStory(open.record.read, open.site.bay as BayId)
    const fact = entries.find(({ kind }) => kind === 'air-read')!
    const { body, withdrawn, happenedAt, versions } = fact
    return { body, withdrawn, happenedAt, versions: versions.length }
  }
  const undoing = () => undoingOf(entryVersions(open.record.read, head as EntryId), head as EntryId, now)
  return { next, undo, undoing, standing, at }
}

describe('undoing an entry', () => {
  it('UNDO-1: a first writing is withdrawn and stays readable', async () => {
    const { undo, standing } = reading()
    undo()
    expect(standing()).toMatchObject({ withdrawn: true, body: first, versions: 2 })
    expect(await verify(open.record.read)).toMatchObject({ ok: true })
  })

  it('UNDO-2: a correction is taken back: the fact counts as before, at its own time, with all its versions', async () => {
    const { next, undo, undoing, standing, at } = reading()
    next('air-read', { ...first, airC: 21 }, at + hour)
    expect(standing()).toMatchObject({ body: { airC: 21 }, happenedAt: at + hour })
    expect(undoing()).toEqual({
      kind: 'air-read',
      happenedAt: iso(at),
      body: first,
      answers: [{ field: 'airC', value: 12, answer: 'read twice' }],
      source: 'typed',
    })
    undo()
    expect(standing()).toEqual({ withdrawn: false, body: first, happenedAt: at, versions: 3 })
    expect(await verify(open.record.read)).toMatchObject({ ok: true })
  })

  it('UNDO-3: of several corrections the last one is taken back, not all of them; undoing twice brings it back', () => {
    const { next, undo, standing } = reading()
    next('air-read', { ...first, airC: 13 })
    next('air-read', { ...first, airC: 14 })
    undo()
    expect(standing().body).toMatchObject({ airC: 13 })
    undo()
    expect(standing()).toMatchObject({ body: { airC: 14 }, versions: 5, withdrawn: false })
  })

  it('UNDO-4: what brought a withdrawn fact back is undone by withdrawing it again', () => {
    const { next, undo, standing } = reading()
    next('entry-withdrawn', {})
    next('air-read', { ...first, airC: 15 })
    expect(standing()).toMatchObject({ withdrawn: false })
    undo()
    expect(standing()).toMatchObject({ withdrawn: true, versions: 4 })
  })
})
