import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { safe } from '@orpc/client'
import { describe, expect, it } from 'vitest'
import { hashPin, isPin, usualCost } from '#electron/api/pin-hash.ts'
import { pinRules } from '#model/people/index.ts'
import type { PersonId } from '#model/record/ids.ts'
import { day, entry, hour, morning, nextId } from '#tests/db/site.ts'
import { inName, openedTimed, openedWithCrew } from './crew.ts'

const pin = '482139'
const wrong = '482138'
const minute = 60_000
const later = { at: morning + 80 * day }
const released = {
  ...later,
  body: { point: 'soundness', decision: 'released', saw: 'Every point within the category' },
}
const dataOf = (error: unknown) => (error as { data?: Record<string, unknown> } | null)?.data ?? {}

async function withPin() {
  const opened = await openedWithCrew()
  const manager = opened.crew['quality manager']
  await opened.client.people.setPin({ person: manager, pin })
  await opened.client.people.lock({})
  const tries = (count: number, what = wrong, client = opened.client) =>
    Array.from({ length: count }).reduce<Promise<unknown>>(async (before) => {
      await before
      return (await safe(client.people.prove({ person: manager, pin: what }))).error
    }, Promise.resolve(null))
  const standing = async (client = opened.client) =>
    (await client.people.status({ project: opened.project })).people.find(({ person }) => person === manager)!
  return { ...opened, manager, tries, standing }
}

describe('signing with a PIN', () => {
  it('SIGN-1: where nobody ever set one, names are taken at their word; from the first PIN on a signature needs it', async () => {
    const { client, write, crew, project } = await openedWithCrew()
    expect((await client.people.status({ project })).binds).toBe(false)
    await write('quality manager', ['hold-point-released', released])
    await client.people.setPin({ person: crew.tester, pin })
    expect((await client.people.status({ project })).binds).toBe(true)
    const { error } = await safe(write('quality manager', ['hold-point-released', released]))
    expect(error).toMatchObject({ code: 'NOT_ALLOWED', status: 403 })
    expect(dataOf(error)).toMatchObject({ reason: 'pin not set', person: crew['quality manager'] })
    await client.people.setPin({ person: crew['quality manager'], pin })
    await write('quality manager', ['hold-point-released', released])
  })

  it('SIGN-2: every signed act asks for it and is written after the proof; a site fact never asks', async () => {
    const { client, write, site, crew, manager } = await withPin()
    const air = nextId()
    await write('tester', ['air-read', { ...later, id: air }])
    await write('quality manager', ['batch-mixed', later])
    const signed = [
      ['hold-point-released', released],
      ['air-read', { ...later, corrects: air, reason: 'Misread' }],
      ['entry-withdrawn', { ...later, subject: site.bay, body: {}, corrects: air, reason: 'Twice' }],
      ['project-opened', { ...later, subject: site.project, corrects: site.project, reason: 'Own value' }],
      ['person-added', { ...later, body: { name: 'Another', role: 'tester' } }],
      [
        'bay-decided',
        {
          ...later,
          body: {
            decision: 'refused',
            covering: 'vinyl',
            verdictShown: 'ready',
            reasons: [{ reason: 'Dust' }],
          },
        },
      ],
    ] as const
    for (const [kind, noting] of signed) {
      const { error } = await safe(write('quality manager', [kind, noting]))
      expect(dataOf(error), kind).toMatchObject({ reason: 'pin needed', person: manager })
    }
    expect(await client.people.prove({ person: manager, pin })).toMatchObject({ isSet: true, wrongTries: 0 })
    for (const [kind, noting] of signed) {
      if (kind === 'entry-withdrawn') continue
      expect((await write('quality manager', [kind, noting])).entries, kind).toHaveLength(1)
    }
    // The proof is of one person: another who signs is asked for theirs.
    const { error } = await safe(write('second manager', ['hold-point-released', released]))
    expect(dataOf(error)).toMatchObject({ reason: 'pin not set', person: crew['second manager'] })
  })

  it('SIGN-3: the proof ends when nobody signs for a while, with "lock", and with the program; the clock has no say', async () => {
    const { client, write, time, manager, data, stop, standing } = await withPin()
    const signs = async () =>
      (await safe(write('quality manager', ['hold-point-released', released]))).error === null
    await client.people.prove({ person: manager, pin })
    time.elapsed += pinRules.idleMs - 1
    expect(await signs()).toBe(true)
    time.elapsed += pinRules.idleMs - 1
    expect(await signs()).toBe(true)
    time.now -= 40 * day
    expect((await standing()).provenForMs).toBe(pinRules.idleMs)
    time.now += 40 * day
    time.elapsed += pinRules.idleMs
    expect(await signs()).toBe(false)
    await client.people.prove({ person: manager, pin })
    expect(await client.people.lock({})).toEqual({ locked: 1 })
    expect(await signs()).toBe(false)
    await client.people.prove({ person: manager, pin })
    await stop()
    const again = await openedTimed(data, time)
    expect((await standing(again.client)).provenForMs).toBeNull()
  })
})

describe('wrong tries', () => {
  it('LOCK-1: five wrong tries are told apart, then nobody is let in for a minute, not even with the right PIN', async () => {
    const { client, time, manager, tries, standing } = await withPin()
    expect(dataOf(await tries(4))).toMatchObject({
      reason: 'wrong pin',
      detail: expect.stringMatching(/1 more try before/),
    })
    expect(dataOf(await tries(1))).toMatchObject({ reason: 'locked', waitMs: minute })
    expect(dataOf(await tries(1, pin))).toMatchObject({ reason: 'locked' })
    expect(await standing()).toMatchObject({ wrongTries: 5, provenForMs: null })
    time.elapsed += minute
    expect(await client.people.prove({ person: manager, pin })).toMatchObject({ wrongTries: 0, waitMs: 0 })
  })

  it('LOCK-2: each further wrong try doubles the wait; only the right PIN sets the count back', async () => {
    const { time, tries } = await withPin()
    await tries(5)
    for (const minutes of [2, 4, 8, 16, 32, 60, 60]) {
      time.elapsed += 3_600_000
      expect(dataOf(await tries(1))).toMatchObject({ reason: 'locked', waitMs: minutes * minute })
    }
  })

  it('LOCK-3: the wait survives closing and opening again, and so does the count below it', async () => {
    const { data, time, stop, tries, standing } = await withPin()
    await tries(3)
    await stop()
    const second = await openedTimed(data, { ...time, elapsed: 0 })
    expect(await standing(second.client)).toMatchObject({ wrongTries: 3, waitMs: 0 })
    expect(dataOf(await tries(2, wrong, second.client))).toMatchObject({ reason: 'locked' })
    await second.stop()
    const third = await openedTimed(data, { ...time, elapsed: 0 })
    expect(dataOf(await tries(1, pin, third.client))).toMatchObject({ reason: 'locked', waitMs: minute })
  })

  it.each([
    ['forward', 400 * day],
    ['back', -400 * day],
  ])(
    'LOCK-4: setting the clock %s shortens the wait by nothing and lengthens it by nothing, running or closed',
    async (_, by) => {
      const { data, time, stop, tries, standing } = await withPin()
      await tries(5)
      time.now += by
      expect((await standing()).waitMs).toBe(minute)
      time.elapsed += 20_000
      expect((await standing()).waitMs).toBe(40_000)
      await stop()
      time.now += by
      const again = await openedTimed(data, time)
      expect((await standing(again.client)).waitMs).toBe(40_000)
      time.elapsed += 40_000
      expect(await tries(1, pin, again.client)).toBeNull()
    },
  )

  it('LOCK-5: a try that was cut off before its answer has counted', async () => {
    const { data, manager, client } = await withPin()
    const trying = safe(client.people.prove({ person: manager, pin: wrong }))
    await Promise.resolve()
    await expect
      .poll(() => JSON.parse(readFileSync(join(data, 'pins.json'), 'utf8')).people[manager].wrongTries)
      .toBe(1)
    await trying
  })

  it('LOCK-6: tries at once are counted one by one', async () => {
    const { client, manager, standing } = await withPin()
    await Promise.all(
      Array.from({ length: 8 }, () => safe(client.people.prove({ person: manager, pin: wrong }))),
    )
    expect((await standing()).wrongTries).toBe(5)
  })
})

describe('setting a PIN', () => {
  it('SET-1: each setting is an entry without the secret, by whom and on what ground', async () => {
    const { client, crew, project, data, manager } = await withPin()
    await client.people.setPin({ person: manager, pin: '771204', old: pin })
    await client.people.setPin({ person: crew.tester, pin: '903318' })
    await client.people.setPin({ person: crew.tester, pin: '118822', by: manager })
    const { entries } = await client.record.list({ project, kinds: ['pin-set'] })
    expect(entries.map(({ subject, person, body }) => [subject, person, body]).toReversed()).toEqual([
      [manager, manager, { how: 'first' }],
      [manager, manager, { how: 'changed' }],
      [crew.tester, crew.tester, { how: 'first' }],
      [crew.tester, manager, { how: 'reset' }],
    ])
    const record = readFileSync(join(data, 'record.sqlite')).toString('latin1')
    for (const secret of [pin, '771204', '903318', '118822', 'scrypt']) expect(record).not.toContain(secret)
    const kept = readFileSync(join(data, 'pins.json'), 'utf8')
    for (const secret of [pin, '771204', '903318', '118822']) expect(kept).not.toContain(secret)
    expect(statSync(join(data, 'pins.json')).mode & 0o077).toBe(0)
  })

  it('SET-2: a PIN is changed knowing the old one or by a quality manager who has proven theirs, and by nobody else', async () => {
    const { client, crew, manager } = await withPin()
    await client.people.setPin({ person: crew.tester, pin: '903318' })
    const change = (input: { old?: string; by?: PersonId }) =>
      safe(client.people.setPin({ person: crew.tester, pin: '118822', ...input }))
    expect(dataOf((await change({})).error)).toMatchObject({ reason: 'pin needed' })
    expect(dataOf((await change({ old: '903319' })).error)).toMatchObject({ reason: 'wrong pin' })
    expect(dataOf((await change({ by: crew.supervisor })).error)).toMatchObject({ reason: 'role' })
    expect(dataOf((await change({ by: manager })).error)).toMatchObject({
      reason: 'pin needed',
      person: manager,
    })
    await client.people.prove({ person: manager, pin })
    expect((await change({ by: manager })).error).toBeNull()
    expect((await client.people.prove({ person: crew.tester, pin: '118822' })).wrongTries).toBe(0)
  })

  it('SET-3: a second quality manager is let in by the first, not by themselves', async () => {
    const { client, crew, manager } = await withPin()
    const second = { person: crew['second manager'], pin: '903318' }
    expect(dataOf((await safe(client.people.setPin(second))).error)).toMatchObject({ reason: 'role' })
    await client.people.prove({ person: manager, pin })
    expect(await client.people.setPin({ ...second, by: manager })).toMatchObject({
      isSet: true,
      provenForMs: null,
    })
  })

  it('SET-4: a PIN that cannot be used is refused in a sentence that does not repeat it', async () => {
    const { client, crew, project } = await openedWithCrew()
    for (const bad of ['123456', '12', 'abcdef', '']) {
      const { error } = await safe(client.people.setPin({ person: crew.tester, pin: bad }))
      expect(error).toMatchObject({ code: 'INPUT_OUT_OF_RANGE' })
      if (bad !== '') expect(JSON.stringify(error)).not.toContain(`"${bad}"`)
    }
    expect((await client.people.status({ project })).binds).toBe(false)
    expect((await client.record.list({ project, kinds: ['pin-set'] })).entries).toEqual([])
  })

  it('SET-5: nobody writes "PIN set" by hand', async () => {
    const { client, site, crew } = await openedWithCrew()
    const asked = inName(entry(site, 'pin-set', later), crew['quality manager'])
    await expect(client.record.append({ entries: [asked] })).rejects.toThrow(
      'Nobody may write down “PIN set”.',
    )
  })

  it('SET-6: PINs go into no backup; a record whose PINs are gone still binds, and a new first PIN is an entry', async () => {
    const { client, data, stop, services, time, project, manager } = await withPin()
    await client.record.backUp()
    await stop()
    const backups = readdirSync(services.folder.backups).map((name) => join(services.folder.backups, name))
    expect(backups.length).toBeGreaterThan(0)
    const { hash, salt } = JSON.parse(readFileSync(join(data, 'pins.json'), 'utf8')).people[manager]
    for (const file of backups)
      for (const kept of [hash, salt]) expect(readFileSync(file).toString('latin1')).not.toContain(kept)
    expect(existsSync(join(data, 'pins.json'))).toBe(true)
    writeFileSync(join(data, 'pins.json'), JSON.stringify({ version: 1, people: {} }))
    const again = await openedTimed(data, time)
    expect((await again.client.people.status({ project })).binds).toBe(true)
    await again.client.people.setPin({ person: manager, pin: '903318' })
    expect((await again.client.record.list({ project, kinds: ['pin-set'] })).entries).toHaveLength(2)
  })

  it('SET-7: a damaged file of PINs passes for none: signing is refused in a sentence, site facts go on', async () => {
    const { data, stop, time, site, crew } = await withPin()
    await stop()
    writeFileSync(join(data, 'pins.json'), '{"version":1,"people":{"x":{}}}')
    const again = await openedTimed(data, time)
    const append = (kind: 'hold-point-released' | 'batch-mixed', noting: object) =>
      safe(
        again.client.record.append({ entries: [inName(entry(site, kind, noting), crew['quality manager'])] }),
      )
    expect((await append('hold-point-released', released)).error).toMatchObject({
      code: 'STORAGE',
      data: { state: 'corrupt', detail: expect.stringMatching(/pins\.json cannot be read/) },
    })
    expect((await append('batch-mixed', { at: morning + hour })).error).toBeNull()
    expect(readFileSync(join(data, 'pins.json'), 'utf8')).toContain('"x"')
  })
})

describe('the cost of a try', () => {
  it('COST-1: the usual cost is N = 2^17, r = 8, p = 1, each PIN with a salt of its own', async () => {
    expect(usualCost).toBe(131_072)
    const [a, b] = [await hashPin(pin), await hashPin(pin)]
    expect(a).toMatchObject({ n: 131_072, r: 8, p: 1 })
    expect(a.salt).not.toBe(b.salt)
    expect(a.hash).not.toBe(b.hash)
    expect(await isPin(pin, a)).toBe(true)
    expect(await isPin(wrong, a)).toBe(false)
  })

  it('COST-2: the hash is scrypt as RFC 7914 publishes it', async () => {
    // RFC 7914 section 12, third test vector: "pleaseletmein", "SodiumChloride", N = 16384, r = 8, p = 1 (from memory).
    const salt = Buffer.from('SodiumChloride').toString('hex')
    const hash =
      '7023bdcb3afd7348461c06cd81fd38ebfda8fbba904f8e3ea9b543f6545da1f2d5432955613f0fcf62d49705242a9af9e61e85dc0d651e40dfcf017b45575887'
    expect(await isPin('pleaseletmein', { n: 16_384, r: 8, p: 1, salt, hash })).toBe(true)
    expect(await isPin('pleaseletmeim', { n: 16_384, r: 8, p: 1, salt, hash })).toBe(false)
  })
})
