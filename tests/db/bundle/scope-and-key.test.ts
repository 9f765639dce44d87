import { chmodSync, existsSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { EntryLines } from '#db/bundle/entry-lines.ts'
import { members } from '#db/bundle/format.ts'
import { makeBundle } from '#db/bundle/make-bundle.ts'
import { nodeHashing } from '#db/bundle/node-hashing.ts'
import { checkBundle } from '#db/bundle/take-in.ts'
import { appendEntries, closeRecord, RecordError, UnknownId } from '#db/index.ts'
import { photoFile } from '#db/photos.ts'
import { deviceKey } from '#db/signing/device-key.ts'
import { keysOfDevice } from '#db/signing/publish-key.ts'
import type { BayId, PersonId, ProjectId } from '#model/record/ids.ts'
import { day, entry, morning, nextId, type OpenSite, samplePhoto, temporaryFolder } from '../site.ts'
import { takenApart } from './forge.ts'
import { bundleOf, emptyRecord, fullSite, madeAt, takenInto } from './site-bundle.ts'

let folder: string
let forget: () => void
let open: OpenSite
beforeAll(() => {
  ;({ folder, forget } = temporaryFolder())
  open = fullSite(path.join(folder, 'site'))
})
afterAll(() => {
  open.close()
  forget()
})

const linesOf = (file: string) =>
  takenApart(readFileSync(file))
    .files.find(({ name }) => name === members.entries)!
    .bytes.toString()
    .split('\n')
    .slice(0, -1)
    .map((line) => JSON.parse(line) as string | { subject: string; kind: string; body: { name?: string } })

describe('what goes into a bundle', () => {
  it('SCO-1: a bundle of a bay gives what is about it and what that refers to; of the other bay only hashes', async () => {
    const whole = bundleOf(open)
    const scope = { kind: 'bays' as const, bays: [open.site.otherBay as BayId] }
    const some = bundleOf(open, { scope, reason: 'crack at the door' })
    expect(some.head.root).toBe(whole.head.root)
    const given = linesOf(some.file).filter((line) => typeof line !== 'string')
    // Of the other bay only its plan: the places at which a bay is tested follow from the bays beside it.
    const ofOther = given.filter(({ subject }) => subject === open.site.bay)
    expect(new Set(ofOther.map(({ kind }) => kind))).toEqual(new Set(['bay-planned']))
    expect(some.manifest.scope.bays.map(({ name }) => name)).toEqual(['B2'])
    expect(some.manifest.scope.baysOfProject).toBe(2)
    for (const kind of [
      'project-opened',
      'person-added',
      'floor-added',
      'zone-added',
      'device-key-published',
    ])
      expect(given.map((line) => line.kind)).toContain(kind)
    expect(some.manifest.entries.leftOut).toBe(linesOf(some.file).length - given.length)
    expect(some.manifest.scope).toMatchObject({ kind: 'bays', reason: 'crack at the door' })
    expect((await checkBundle(some.file)).report.verdict).toBe('good')
  })

  it('SCO-2: evidence as of a moment holds nothing that was recorded later', async () => {
    open.append(entry(open.site, 'air-read', { at: morning + 6 * day }), madeAt + day)
    const frozen = bundleOf(open, { asOf: morning }, madeAt + 2 * day)
    const { report } = await checkBundle(frozen.file)
    expect(report).toMatchObject({ verdict: 'good', keyPublishedAt: null })
    expect(frozen.manifest.entries).toEqual({ given: 7, leftOut: 0 })
    expect(frozen.manifest.scope.asOf).toBe(new Date(morning).toISOString())
  })

  it('SCO-3: a photo that is not on this machine is listed as missing; one with other bytes stops the making', async () => {
    const file = open.record.read.sqlite
      .prepare("select body ->> '$.sha256' from ledger where kind = 'photo-added'")
      .pluck()
      .get()
    const stored = photoFile(open.file, String(file), 'image/jpeg')
    writeFileSync(stored, Buffer.from(samplePhoto).fill(0x58))
    expect(() => bundleOf(open)).toThrow(/does not have the bytes that the record knows by its hash/)
    expect(
      readdirSync(path.join(folder, 'site', 'bundles')).filter((name) => name.endsWith('.part')),
    ).toEqual([])
    rmSync(stored)
    const without = bundleOf(open)
    expect(without.manifest.missing).toEqual([
      { name: `photos/${String(file)}`, why: expect.stringContaining('not on this machine') },
    ])
    expect((await checkBundle(without.file)).report.verdict).toBe('good')
    writeFileSync(stored, samplePhoto)
    expect((await checkBundle(bundleOf(open).file)).report.verdict).toBe('good')
  })

  it('SCO-4: an unknown bay, person or project is refused by name', () => {
    const unknown = nextId()
    const make = (project: string, person: string) => () =>
      makeBundle(
        open.record,
        {
          project: project as ProjectId,
          person: person as PersonId,
          scope: { kind: 'project' },
          asOf: null,
          reason: null,
        },
        { bundles: path.join(folder, 'b'), keys: path.join(folder, 'k'), program: 'test', now: madeAt },
      )
    expect(make(open.site.project, unknown)).toThrow(UnknownId)
    expect(make(unknown, open.site.person)).toThrow(UnknownId)
    expect(() => bundleOf(open, { scope: { kind: 'bays', bays: [unknown as unknown as BayId] } })).toThrow(
      UnknownId,
    )
    expect(existsSync(path.join(folder, 'k'))).toBe(false)
  })
})

describe('the key of a device', () => {
  it('KEY-1: the private key is a file for its owner alone, and no byte of it is in the record or in a bundle', () => {
    const made = bundleOf(open)
    const file = path.join(folder, 'site', 'keys', `${open.record.device!.id}.pem`)
    if (process.platform !== 'win32') expect(statSync(file).mode & 0o777).toBe(0o600)
    const secret = Buffer.from(readFileSync(file, 'utf8').split('\n')[1]!, 'base64').subarray(-32)
    for (const one of [open.file, `${open.file}-wal`, made.file]) {
      if (!existsSync(one)) continue
      const bytes = readFileSync(one)
      expect(bytes.includes(secret)).toBe(false)
      expect(bytes.includes(secret.toString('hex'))).toBe(false)
      expect(bytes.includes(secret.toString('base64').slice(0, 20))).toBe(false)
    }
  })

  it('KEY-2: it is published once, in the chain of its device, and stays the same key', () => {
    const device = open.record.device!.id
    const key = deviceKey(path.join(folder, 'site', 'keys'), device)
    // The record also holds a key that was written in another device's name; it does not count.
    expect(keysOfDevice(open.record.read, device).map(({ publicKey }) => publicKey)).toEqual([key.publicKey])
    expect(bundleOf(open).head.publicKey).toBe(key.publicKey)
  })

  it('KEY-4: in a bundle too, what another device says of a key counts for nothing', () => {
    const [device, publicKey] = ['the signing device', 'b'.repeat(64)]
    const published = (by: string, of = device) => {
      const lines = new EntryLines(nodeHashing)
      const said = {
        ...{ id: 'x', device: by, deviceSeq: 1, prevHash: '0'.repeat(64), corrects: null },
        ...{
          kind: 'device-key-published',
          recordedAt: '2026-11-02T07:00:00.000Z',
          body: { device: of, publicKey },
        },
      }
      lines.add(Buffer.from(JSON.stringify(said)))
      return lines.keyPublishedAt({ device, publicKey })
    }
    expect(published('another device')).toBeNull()
    expect(published(device, 'another device')).toBeNull()
    expect(published(device)).toBe('2026-11-02T07:00:00.000Z')
  })

  it('KEY-5: a key that another machine wrote in the name of this one comes in with a bundle and is not its key', async () => {
    const other = emptyRecord(path.join(folder, 'key-5'))
    await takenInto(other, bundleOf(open).file)
    const device = open.record.device!.id
    const body = { device, name: 'Test', algorithm: 'Ed25519', publicKey: 'c'.repeat(64) }
    appendEntries(other, [entry(open.site, 'device-key-published', { body })], { recordedAt: madeAt })
    const before = keysOfDevice(open.record.read, device)
    const there = { ...open, record: other, file: other.file }
    expect((await takenInto(open.record, bundleOf(there).file)).added).toBeGreaterThan(0)
    expect(keysOfDevice(open.record.read, device)).toEqual(before)
    closeRecord(other)
  })

  it('KEY-3: a file that others may read is closed to them again; one that holds no key is refused and kept', () => {
    const keys = path.join(folder, 'keys-3')
    const first = deviceKey(keys, 'one')
    const file = path.join(keys, 'one.pem')
    if (process.platform !== 'win32') {
      chmodSync(file, 0o644)
      expect(deviceKey(keys, 'one').publicKey).toBe(first.publicKey)
      expect(statSync(file).mode & 0o777).toBe(0o600)
    }
    writeFileSync(file, 'nothing')
    expect(() => deviceKey(keys, 'one')).toThrow(RecordError)
    expect(readFileSync(file, 'utf8')).toBe('nothing')
  })
})
