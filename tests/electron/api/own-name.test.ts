import { describe, expect, it } from 'vitest'
import { day, entry, morning, nextId } from '#tests/db/site.ts'
import { inName, openedWithCrew } from './crew.ts'

const later = { at: morning + 80 * day }

describe('names at the host', () => {
  it('NAME-4: a name that is taken is refused when somebody is added, renamed or brought back, and nothing is written', async () => {
    const { site, client, crew, write } = await openedWithCrew()
    const join = (id: string, name: string) =>
      write('quality manager', ['person-added', { ...later, id, body: { name, role: 'tester' } }])
    await expect(join(nextId(), 'the  TESTER')).rejects.toThrow(/“The tester” is somebody of this project/)
    const renamed = { ...later, subject: crew.viewer, corrects: crew.viewer, reason: 'Spelt wrongly' }
    await expect(
      write('quality manager', [
        'person-added',
        { ...renamed, body: { name: 'The tester', role: 'viewer' } },
      ]),
    ).rejects.toThrow(/is somebody of this project already/)
    const twice = [nextId(), nextId()].map((id) =>
      inName(
        entry(site, 'person-added', { ...later, id, body: { name: 'Same', role: 'tester' } }),
        crew['quality manager'],
      ),
    )
    await expect(client.record.append({ entries: twice })).rejects.toThrow(/“Same” is somebody/)

    const withdrawal = nextId()
    const gone = { ...later, id: withdrawal, body: {}, subject: crew.tester, corrects: crew.tester }
    await write('quality manager', ['entry-withdrawn', { ...gone, reason: 'Left the site' }])
    expect((await join(nextId(), 'The tester')).entries).toHaveLength(1)
    const back = { ...later, subject: crew.tester, corrects: withdrawal, reason: 'Came back' }
    await expect(
      write('quality manager', ['person-added', { ...back, body: { name: 'The tester', role: 'tester' } }]),
    ).rejects.toThrow(/write the name so that the two can be told apart/)
  })

  it('NAME-5: who wrote something cannot be withdrawn under it, and the sentence says what to do', async () => {
    const { crew, write } = await openedWithCrew()
    await write('tester', ['air-read', later])
    const leaves = {
      ...later,
      body: {},
      subject: crew.tester,
      corrects: crew.tester,
      reason: 'Left the site',
    }
    await expect(write('quality manager', ['entry-withdrawn', leaves])).rejects.toThrow(
      '1 other entry stands under this name or on it, and they keep it. So that this person writes no more, change the role to “Viewer”.',
    )
  })
})
