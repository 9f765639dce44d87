import { spawnSync } from 'node:child_process'
import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { members } from '#db/bundle/format.ts'
import { checkBundle, takeIn } from '#db/bundle/take-in.ts'
import { headerOf } from '#db/bundle/tar.ts'
import { closeRecord, type RecordFile, verify } from '#db/index.ts'
import { checkReceived, takeInReceived } from '#electron/work/bundle-jobs.ts'
import type { BayId } from '#model/record/ids.ts'
import { entry, type OpenSite, temporaryFolder } from '../site.ts'
import { archive, type Parts, putTogether, takenApart, withEntries } from './forge.ts'
import { bundleOf, emptyRecord, fullSite, madeAt, takenInto } from './site-bundle.ts'

const pythonTwin = fileURLToPath(new URL('verify_bundle.py', import.meta.url))
const hasPython = spawnSync('python3', ['--version']).status === 0

let folder: string
let forget: () => void
let open: OpenSite
let good: Buffer
let other: RecordFile
beforeAll(() => {
  ;({ folder, forget } = temporaryFolder())
  open = fullSite(path.join(folder, 'site'))
  good = readFileSync(bundleOf(open).file)
})
afterAll(() => {
  open.close()
  forget()
})
let turn = 0
beforeEach(() => {
  turn += 1
  other = emptyRecord(path.join(folder, `other-${turn}`))
  return () => closeRecord(other)
})

function onDisk(bytes: Buffer): string {
  const file = path.join(folder, `hostile-${turn}.baybundle`)
  writeFileSync(file, bytes)
  return file
}

const parts = (): Parts => takenApart(good)
const none = () => undefined

/** The check names the fault in a sentence, taking it in is refused, and the record beside it is as it was. */
async function expectRefused(bytes: Buffer, sentence: RegExp): Promise<void> {
  const file = onDisk(bytes)
  const before = { files: readdirSync(path.dirname(other.file), { recursive: true }), rows: rowsIn(other) }
  const asked = { recordFile: other.file, path: file, now: madeAt }
  const checked = await checkReceived(asked, none)
  const said = checked.firstDifference ?? checked.notJoined ?? 'nothing'
  expect(said).toMatch(sentence)
  expect(said).toMatch(/^[^\n]{10,400}\.$/)
  expect(checked.joining).toBeNull()
  const fingerprint = checked.fingerprint ?? '0'.repeat(64)
  await expect(takeInReceived({ ...asked, fingerprint }, none)).rejects.toThrow(sentence)
  expect(rowsIn(other)).toEqual(before.rows)
  expect(readdirSync(path.dirname(other.file), { recursive: true })).toEqual(before.files)
}

function rowsIn({ read }: RecordFile): unknown {
  const tables = ['ledger', 'files', 'series', 'readings', 'facts', 'bays']
  return tables.map((table) => read.sqlite.prepare(`select count(*) from ${table}`).pluck().get())
}

describe('a hostile bundle is refused in a sentence, and nothing is written', () => {
  it('HOS-0: control: the same parts put together again with nothing changed are good, and are taken in', async () => {
    const file = onDisk(putTogether(parts()))
    const checked = await checkReceived({ recordFile: other.file, path: file, now: madeAt }, none)
    expect(checked).toMatchObject({ verdict: 'good', notJoined: null, key: { trust: 'first seen' } })
    await takenInto(other, file)
    expect(await verify(other.read)).toMatchObject({ ok: true, firstDifference: null })
  })

  it.each([
    '../outside.txt',
    '/etc/outside',
    'files/../../outside',
    'photos\\outside',
    `files/${'A'.repeat(64)}`,
    'CON',
  ])('HOS-1: a name that leads elsewhere: %s', async (name) => {
    const { files, ...rest } = parts()
    await expectRefused(
      putTogether({ ...rest, files: [...files, { name, bytes: Buffer.from('x') }] }),
      /names .*, which no bundle may hold/,
    )
    expect(readdirSync(folder)).not.toContain('outside.txt')
  })

  it('HOS-2: a name that stands twice', async () => {
    const { files, ...rest } = parts()
    await expectRefused(putTogether({ ...rest, files: [...files, files[0]!] }), /names .* twice/)
  })

  it('HOS-3: a file that the list does not name, one that is missing, and two that changed places', async () => {
    const { files } = parts()
    const [manifest, head, signature] = front(good)
    const extra = [...files, { name: `files/${'a'.repeat(64)}`, bytes: Buffer.from('x') }]
    await expectRefused(
      archive([manifest!, head!, signature!, ...extra]),
      /after the last file of the signed list/,
    )
    await expectRefused(
      archive([manifest!, head!, signature!, ...files.slice(0, -1)]),
      /ends where the signed list has/,
    )
    await expectRefused(
      archive([manifest!, head!, signature!, files[1]!, files[0]!, ...files.slice(2)]),
      /"rules.json" stands where the signed list has README.txt/,
    )
  })

  it('HOS-4: sizes that are not there: a huge list, a huge member, a size below nothing', async () => {
    const huge = Buffer.concat([headerOf(members.manifest, 8 ** 11 - 1), good.subarray(512)])
    await expectRefused(huge, /manifest.json is said to have 8589934591 bytes; at most/)
    const listed = (bytes: unknown) =>
      putTogether(parts(), { list: (lines) => lines.map((line, i) => (i === 0 ? { ...line, bytes } : line)) })
    await expectRefused(listed(1e15), /that is too many/)
    await expectRefused(listed(-5), /not written as version 1 says/)
    await expectRefused(listed(8 ** 11 - 1), /header of README.txt/)
  })

  it('HOS-5: cut off, another kind of file, nothing at all', async () => {
    await expectRefused(good.subarray(0, Math.floor(good.length / 2)), /ends too early/)
    // Also when all that is missing is the end, in which nothing stands.
    for (const missing of [1, 512, 1023, 1024])
      await expectRefused(good.subarray(0, good.length - missing), /ends too early, at its end/)
    await expectRefused(Buffer.from('PK\u0003\u0004 something else'), /not a signed bundle of Bayledger/)
    await expectRefused(Buffer.alloc(0), /not a signed bundle of Bayledger/)
    await expectRefused(readFileSync(open.file).subarray(0, 8192), /not a signed bundle of Bayledger/)
  })

  it('HOS-6: a wrong hash: a file that is not what the list says, an entry changed inside its chain', async () => {
    const wrong = putTogether(parts(), {
      list: (lines) => lines.map((line, i) => (i === 0 ? { ...line, sha256: 'a'.repeat(64) } : line)),
    })
    await expectRefused(wrong, /README.txt was changed after it was signed/)
    const { files, ...rest } = parts()
    const changed = files.map((one) =>
      one.name === members.entries
        ? { ...one, bytes: Buffer.from(one.bytes.toString().replace('"airC":41', '"airC":14')) }
        : one,
    )
    await expectRefused(putTogether({ ...rest, files: changed }), /does not follow the entry before it/)
  })

  it('HOS-7: a wrong signature, and a head that names another key', async () => {
    const { files } = parts()
    const [manifest, head] = front(good)
    const signature = { name: members.signature, bytes: Buffer.alloc(64, 7) }
    await expectRefused(archive([manifest!, head!, signature, ...files]), /signature is wrong/)
    const other = putTogether(parts(), { head: (said) => ({ ...said, publicKey: 'd'.repeat(64) }) })
    await expectRefused(other, /signature is wrong/)
  })

  it('HOS-8: a newer version of the bundle, of the head, of an entry', async () => {
    await expectRefused(
      putTogether(parts(), { manifest: (said) => ({ ...said, version: 2 }) }),
      /newer Bayledger \(bundle version 2/,
    )
    await expectRefused(
      putTogether(parts(), { head: (said) => ({ ...said, version: 3 }) }),
      /newer Bayledger \(bundle version 3/,
    )
    const newer = withEntries(parts(), (entries) =>
      entries.map((one, i) => (i === 9 ? { ...one, kindVersion: 7 } : one)),
    )
    await expectRefused(putTogether(newer), /version 7, which this Bayledger does not know/)
  })

  it('HOS-9: JSON nested deep, or with names that mean something to JavaScript', async () => {
    const deep = `${'['.repeat(100_000)}${']'.repeat(100_000)}`
    await expectRefused(
      putTogether(parts(), { written: (text) => text.replace('"missing":[]', `"missing":${deep}`) }),
      /nested deeper|not JSON/,
    )
    await expectRefused(
      putTogether(parts(), { written: (text) => text.replace('{', '{"__proto__":{"x":1},') }),
      /not in canonical form|not written as version/,
    )
    const { files, ...rest } = parts()
    const nested = files.map((one) =>
      one.name === members.entries ? { ...one, bytes: Buffer.from(`${deep}\n`) } : one,
    )
    await expectRefused(putTogether({ ...rest, files: nested }), /nested deeper|not JSON/)
  })

  it('HOS-10: entries with good hashes that are no entries of this ledger', async () => {
    const odd = (change: (one: Record<string, unknown>) => Record<string, unknown>) =>
      putTogether(
        withEntries(parts(), (entries) =>
          entries.map((one) => (one.kind === 'air-read' ? change(one) : one)),
        ),
      )
    await expectRefused(
      odd((one) => ({ ...one, body: { airC: 'warm' } })),
      /has a body that no/,
    )
    await expectRefused(
      odd((one) => ({ ...one, kind: 'made-up' })),
      /kind made-up/,
    )
    await expectRefused(
      odd((one) => ({ ...one, extra: 1 })),
      /is not an entry/,
    )
    await expectRefused(
      odd((one) => ({ ...one, happenedAt: '2026-11-02T08:00:00+01:00' })),
      /happenedAt does not fit/,
    )
    await expectRefused(
      odd((one) => ({ ...one, subject: '0198f000-0000-7000-8000-00000000ffff' })),
      /stands on something that is not here: its subject/,
    )
    await expectRefused(
      odd((one) => ({ ...one, person: '0198f000-0000-7000-8000-00000000ffff' })),
      /its person/,
    )
  })

  it('HOS-11: readings that are not those of the entry, and a file that an entry names and nobody brought', async () => {
    const { files, ...rest } = parts()
    const lacking = files.filter(({ name }) => !name.startsWith('series/'))
    await expectRefused(
      putTogether({ ...rest, files: lacking }),
      /neither in the bundle nor listed as missing/,
    )
    const missing = files
      .filter(({ name }) => name.startsWith('series/'))
      .map(({ name }) => ({ name, why: 'lost' }))
    const listed = putTogether({ ...rest, files: lacking }, { manifest: (said) => ({ ...said, missing }) })
    await expectRefused(listed, /which an entry needs, is not in the bundle/)
  })

  it('HOS-12: a bundle of some bays is not joined where it would tear a chain that is whole', async () => {
    const scope = { kind: 'bays' as const, bays: [open.site.otherBay as BayId] }
    const early = bundleOf(open, { asOf: madeAt - 1 })
    await takenInto(other, early.file)
    const later = { at: madeAt + 1 }
    const about = (subject: string) => entry(open.site, 'air-read', { ...later, subject })
    open.append([about(open.site.bay), about(open.site.otherBay)], madeAt + 2)
    const bytes = readFileSync(bundleOf(open, { scope, reason: 'evidence for a fault' }).file)
    const file = onDisk(bytes)
    const { report, places } = await checkBundle(file)
    expect(report.verdict).toBe('good')
    expect(report.manifest!.entries.leftOut).toBeGreaterThan(10)
    await expectRefused(bytes, /its chain would get a gap here/)
    const again = { forGood: true, now: madeAt }
    expect(takeIn(open.record, file, places, again)).toMatchObject({ added: 0 })
  })

  it('HOS-13: one device that wrote two entries under one number is told, and neither record changes', async () => {
    await takenInto(other, onDisk(good))
    const forked = withEntries(parts(), (entries) =>
      entries.map((one, i) =>
        i === entries.length - 2 ? { ...one, recordedAt: '2026-11-03T07:00:01.000Z' } : one,
      ),
    )
    await expectRefused(putTogether(forked), /wrote two different entries under number/)
  })

  it('HOS-14: the limit that stays: a whole record written anew and signed with another key is good in itself; key and fingerprint tell it', async () => {
    await takenInto(other, onDisk(good))
    const anew = withEntries(parts(), (entries) => entries.slice(0, -1))
    const file = onDisk(putTogether(anew))
    const { report } = await checkBundle(file)
    expect(report).toMatchObject({ verdict: 'good', keyPublishedAt: null })
    expect(report.fingerprint).not.toBe((await checkBundle(onDisk(good))).report.fingerprint)
    writeFileSync(file, putTogether(anew))
    const checked = await checkReceived({ recordFile: other.file, path: file, now: madeAt }, none)
    expect(checked.key).toEqual({ trust: 'another', knownSince: new Date(madeAt).toISOString() })
  })

  it('HOS-15: a bundle other than the one that was looked at is not taken in', async () => {
    const asked = { recordFile: other.file, path: onDisk(good), now: madeAt, fingerprint: 'b'.repeat(64) }
    await expect(takeInReceived(asked, none)).rejects.toThrow(/another bundle than the one that was checked/)
    expect(rowsIn(other)).toEqual([0, 0, 0, 0, 0, 0])
  })

  it.skipIf(!hasPython)(
    'HOS-16: the program in Python refuses the forged ones too, and finds the control good',
    () => {
      const verdict = (bytes: Buffer) =>
        (
          JSON.parse(spawnSync('python3', [pythonTwin, onDisk(bytes)], { encoding: 'utf8' }).stdout) as {
            good: boolean
          }
        ).good
      const { files, ...rest } = parts()
      expect(verdict(putTogether(parts()))).toBe(true)
      const forged = [
        putTogether({ ...rest, files: [...files, { name: '../x', bytes: Buffer.from('x') }] }),
        putTogether({ ...rest, files: [...files, files[0]!] }),
        putTogether(parts(), { manifest: (said) => ({ ...said, version: 2 }) }),
        putTogether(parts(), { head: (said) => ({ ...said, publicKey: 'd'.repeat(64) }) }),
        putTogether({ ...rest, files: files.filter(({ name }) => !name.startsWith('series/')) }),
      ]
      for (const bytes of forged) expect(verdict(bytes)).toBe(false)
    },
    120_000,
  )
})

function front(bundle: Buffer): { name: string; bytes: Buffer }[] {
  const out: { name: string; bytes: Buffer }[] = []
  for (let at = 0; out.length < 3; ) {
    const size = Number.parseInt(bundle.toString('latin1', at + 124, at + 135), 8)
    out.push({
      name: [members.manifest, members.head, members.signature][out.length]!,
      bytes: bundle.subarray(at + 512, at + 512 + size),
    })
    at += 512 + Math.ceil(size / 512) * 512
  }
  return out
}
