import { spawnSync } from 'node:child_process'
import { readFileSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { members } from '#db/bundle/format.ts'
import { nodeHashing } from '#db/bundle/node-hashing.ts'
import { type BundleReport, readBundle } from '#db/bundle/read-bundle.ts'
import type { BayId } from '#model/record/ids.ts'
import { buildVerifier } from '#scripts/verifier/build.ts'
import { pageHashing } from '#scripts/verifier/page-hashing.ts'
import { temporaryFolder } from '../site.ts'
import { bundleOf, fullSite } from './site-bundle.ts'

const pythonTwin = fileURLToPath(new URL('verify_bundle.py', import.meta.url))
const hasPython = spawnSync('python3', ['--version']).status === 0

let folder: string
let forget: () => void
let good: Buffer
let partial: Buffer
let fingerprint: string
let verifier: string
beforeAll(async () => {
  ;({ folder, forget } = temporaryFolder())
  const open = fullSite(path.join(folder, 'site'))
  const made = bundleOf(open)
  good = readFileSync(made.file)
  fingerprint = made.fingerprint
  const scope = { kind: 'bays' as const, bays: [open.site.otherBay as BayId] }
  partial = readFileSync(bundleOf(open, { scope }).file)
  open.close()
  verifier = path.join(folder, 'verify.mjs')
  writeFileSync(verifier, (await buildVerifier())['verify.mjs'])
})
afterAll(() => forget())

async function* inPieces(bytes: Buffer, size = 1000): AsyncGenerator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size)
}

const checked = (bytes: Buffer, hashing = nodeHashing): Promise<BundleReport> =>
  readBundle(inPieces(bytes), hashing)

/** What the one-file verifier and the program in Python say of the same bytes. */
function outside(bytes: Buffer, ...noted: string[]) {
  const file = path.join(folder, 'judged.baybundle')
  writeFileSync(file, bytes)
  const node = spawnSync(process.execPath, [verifier, file, ...noted], { encoding: 'utf8' })
  const python = spawnSync('python3', [pythonTwin, file], { encoding: 'utf8' })
  return { node, python, pythonSays: hasPython ? JSON.parse(python.stdout) : null }
}

interface Region {
  name: string
  from: number
  bytes: number
}

/** Every region of a bundle: each header, each body, each padding, and the end. */
function regionsOf(bytes: Buffer): Region[] {
  const regions: Region[] = []
  for (let at = 0; at < bytes.length - 1024; ) {
    const name = bytes.toString('latin1', at, at + 100).replace(/\0.*$/s, '')
    const size = Number.parseInt(bytes.toString('latin1', at + 124, at + 135), 8)
    const padding = (512 - (size % 512)) % 512
    regions.push({ name: `header of ${name}`, from: at, bytes: 512 })
    regions.push({ name, from: at + 512, bytes: size })
    if (padding > 0) regions.push({ name: `padding of ${name}`, from: at + 512 + size, bytes: padding })
    at += 512 + size + padding
  }
  return [...regions, { name: 'end', from: bytes.length - 1024, bytes: 1024 }]
}

function changedAt(bytes: Buffer, at: number): Buffer {
  const changed = Buffer.from(bytes)
  changed[at] = bytes[at]! ^ 0x01
  return changed
}

describe('three checkers of one bundle', () => {
  it('TWIN-1: the checker, the one-file verifier and another program in Python find the same bundle good', async () => {
    for (const bytes of [good, partial]) {
      const report = await checked(bytes)
      expect(report).toMatchObject({ verdict: 'good', firstDifference: null })
      const { node, pythonSays } = outside(bytes)
      expect(node.status).toBe(0)
      const { fingerprint } = report
      const { leftOut } = report.manifest!.entries
      if (bytes === good) {
        expect(node.stdout).toMatch(/^GOOD\n/)
        expect(node.stdout).not.toMatch(/a part/i)
        if (hasPython) expect(pythonSays).toEqual({ good: true, fingerprint })
        continue
      }
      expect(node.stdout).toMatch(/^GOOD, A PART\n.*It is a part: 1 of 2 bays of the project\./)
      expect(node.stdout).toContain('neither good nor bad')
      expect(node.stdout).toContain('A part: 1 of 2 bays of the project')
      expect(leftOut).toBeGreaterThan(10)
      if (hasPython)
        expect(pythonSays).toEqual({ good: true, fingerprint, part: { bays: 1, of: 2, leftOut } })
    }
  })

  it.skipIf(!hasPython)(
    'TWIN-2: the signature check in Python agrees with the first vector of RFC 8032 (from memory)',
    () => {
      const { stdout } = spawnSync('python3', [pythonTwin, '--self-test'], { encoding: 'utf8' })
      expect(JSON.parse(stdout)).toEqual({ good: true })
    },
  )

  it('TWIN-3: one bit changed at the beginning, in the middle or at the end of any region is found by all three', async () => {
    const regions = regionsOf(good)
    expect(regions.length).toBeGreaterThan(20)
    for (const [i, { name, from, bytes }] of regions.entries()) {
      const places = [from, from + Math.floor(bytes / 2), from + bytes - 1]
      for (const at of places) {
        const report = await checked(changedAt(good, at))
        expect(report.verdict, `${name}, byte ${at}`).toBe('broken')
        expect(report.firstDifference, `${name}, byte ${at}`).toMatch(/^\S.*\.$/)
      }
      const { node, pythonSays } = outside(changedAt(good, places[i % 3]!))
      expect(node.status, name).toBe(1)
      expect(node.stdout, name).toMatch(/^NOT GOOD\nFirst difference: \S.*\.\n/)
      if (hasPython) expect(pythonSays.good, name).toBe(false)
    }
  }, 300_000)

  it('TWIN-4: every byte of an entry, of the head and of the signature counts', async () => {
    const wanted = regionsOf(good).filter(({ name }) =>
      [members.head, members.signature].includes(name as never),
    )
    const entries = regionsOf(good).find(({ name }) => name === members.entries)!
    const firstLine = good.indexOf(0x0a, entries.from) + 1 - entries.from
    for (const { name, from, bytes } of [...wanted, { ...entries, bytes: firstLine }]) {
      for (let at = from; at < from + bytes; at++) {
        expect((await checked(changedAt(good, at))).verdict, `${name}, byte ${at - from}`).toBe('broken')
      }
    }
  }, 120_000)

  it('TWIN-5: cut off anywhere, or with anything behind it, it is not good', async () => {
    for (const keep of [0, 1, 511, 512, 5000, good.length - 1025, good.length - 1024, good.length - 1]) {
      expect((await checked(good.subarray(0, keep))).verdict, `${keep} bytes`).toBe('broken')
      const { node, pythonSays } = outside(good.subarray(0, keep))
      expect(node.status).toBe(1)
      if (hasPython) expect(pythonSays.good).toBe(false)
    }
    const longer = Buffer.concat([good, Buffer.alloc(512)])
    expect((await checked(longer)).firstDifference).toBe('Something follows after the end of the bundle.')
    expect(outside(longer).node.status).toBe(1)
  })

  it('TWIN-6: the fingerprint that was noted tells this bundle from another good one', async () => {
    expect(outside(good, fingerprint.match(/.{4}/g)!.join(' ')).node.status).toBe(0)
    const other = outside(partial, fingerprint).node
    expect(other.stdout).toMatch(/^NOT THE ONE\n/)
    expect(other.status).toBe(1)
  })

  it('TWIN-7: the page checks by WebCrypto what Node checks; without Ed25519 the answer is a third one and not good', async () => {
    expect(await checked(good, pageHashing)).toEqual(await checked(good))
    const head = regionsOf(good).find(({ name }) => name === members.signature)!
    expect((await checked(changedAt(good, head.from), pageHashing)).signature).toBe('wrong')
    const without = { ...pageHashing, checkSignature: async () => 'cannot' as const }
    expect(await checked(good, without)).toMatchObject({
      verdict: 'signature not checked',
      firstDifference: null,
    })
  })

  it('TWIN-8: how the bytes are cut into pieces changes nothing', async () => {
    for (const size of [1, 7, 511, 513, 1_000_000]) {
      const report = await readBundle(inPieces(size === 1 ? partial : good, size), nodeHashing)
      expect(report.verdict, `${size}`).toBe('good')
    }
  })
})
