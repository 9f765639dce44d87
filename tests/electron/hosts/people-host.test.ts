import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { appendEntries } from '#db/index.ts'
import type { CheckedEntry } from '#model/record/entry.ts'
import { day, entry, morning, newSite, nextId, opening } from '#tests/db/site.ts'
import { inName } from '../api/crew.ts'
import { type Answered, type RunningHost, runningHost } from './running-host.ts'

/** The same rules as seen from outside: over HTTP, on the host that a browser talks to. */
describe('people and PINs over the real server', () => {
  let host: RunningHost
  const site = newSite()
  const [tester, manager] = [nextId<'person'>(), nextId<'person'>()]
  const call = async (
    name: string,
    input: unknown,
  ): Promise<{ status: number; data: Record<string, unknown>; text: string }> => {
    const body = JSON.stringify({ json: input })
    const answer: Answered = await host.ask({
      method: 'POST',
      path: `/rpc/${name}`,
      headers: host.ours,
      body,
    })
    const { json } = JSON.parse(answer.text) as { json: { data?: Record<string, unknown> } }
    return { status: answer.status, data: json.data ?? {}, text: answer.text }
  }
  const append = (one: CheckedEntry) => call('record/append', { entries: [one] })
  const released = () =>
    inName(
      entry(site, 'hold-point-released', {
        at: morning + 9 * day,
        body: { point: 'soundness', decision: 'released', saw: 'Every point within the category' },
      }),
      manager,
    )

  beforeAll(async () => {
    host = await runningHost()
    const joins = [
      entry(site, 'person-added', { id: tester, body: { name: 'Tester', role: 'tester' } }),
      entry(site, 'person-added', { id: manager, body: { name: 'Manager', role: 'quality manager' } }),
    ]
    appendEntries(host.services.record.current(), [...opening(site), ...joins], { recordedAt: morning })
  })
  afterAll(() => host.stop())

  it('PEOPLE-1: an entry that the role may not write is a 403 with its sentence, and nothing is written', async () => {
    const before = host.written()
    const answer = await append(inName(entry(site, 'batch-mixed', { at: morning + day }), tester))
    expect(answer.status).toBe(403)
    expect(answer.data).toMatchObject({ reason: 'role', person: tester })
    expect(answer.text).toContain(
      'A tester may not write down “Batch mixed”. Let a site supervisor or quality manager do it.',
    )
    expect(host.written()).toEqual(before)
  })

  it('PEOPLE-2: a PIN is set, a wrong one refused without being repeated, and the signature follows the proof', async () => {
    expect((await call('people/setPin', { person: manager, pin: '482139' })).status).toBe(200)
    expect((await call('people/lock', {})).status).toBe(200)
    expect((await append(released())).data).toMatchObject({ reason: 'pin needed', person: manager })
    const wrong = await call('people/prove', { person: manager, pin: '771204' })
    expect([wrong.status, wrong.data.reason]).toEqual([403, 'wrong pin'])
    expect(wrong.text).not.toContain('771204')
    expect((await append(released())).status).toBe(403)
    expect((await call('people/prove', { person: manager, pin: '482139' })).status).toBe(200)
    expect((await append(released())).status).toBe(200)
  })

  it('PEOPLE-3: what is no PIN and what is nobody are told as such', async () => {
    expect((await call('people/setPin', { person: tester, pin: 'x'.repeat(65) })).status).toBe(422)
    expect((await call('people/prove', { person: nextId(), pin: '482139' })).status).toBe(404)
    expect((await call('people/prove', { person: tester, pin: '482139' })).data.reason).toBe('pin not set')
  })
})
