import { spawnSync } from 'node:child_process'
import { createHash, generateKeyPairSync, randomBytes, sign } from 'node:crypto'
import { createReadStream, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { BundleContents, MemberToWrite } from '#db/bundle/contents.ts'
import { lineOfRow } from '#db/bundle/line.ts'
import { nodeHashing } from '#db/bundle/node-hashing.ts'
import { readBundle } from '#db/bundle/read-bundle.ts'
import { fileBytes } from '#db/bundle/record-contents.ts'
import { writeBundle } from '#db/bundle/write-bundle.ts'
import { sha256Hex } from '#db/hash.ts'
import type { LedgerRow } from '#db/ledger-row.ts'
import { buildVerifier } from '../verifier/build.ts'
import type { Measured } from './measure.ts'

const entriesInAll = 1_000_000
const photosInAll = 200
const photoBytes = 10 * 1024 * 1024
const megabyte = 1024 * 1024
const thisFile = fileURLToPath(import.meta.url)
const atOnce = { highWaterMark: megabyte }

/**
 * A bundle of a million entries checked, by the app's own code and by the one-file verifier, beside a bare SHA-256 of
 * the same bytes; and a bundle of 2 GB of photos written and checked, with what that took of memory.
 */
export default async function bundleBench(): Promise<Measured[]> {
  const folder = mkdtempSync(join(tmpdir(), 'bayledger-bench-bundle-'))
  try {
    return [...(await manyEntries(folder)), ...(await manyPhotos(folder))]
  } finally {
    rmSync(folder, { recursive: true })
  }
}

async function manyEntries(folder: string): Promise<Measured[]> {
  const file = join(folder, 'entries.baybundle')
  write(file, { lines: () => chain(entriesInAll), files: [], missing: [], rules: '{}' })
  const bare = await timed(async () => {
    const hash = createHash('sha256')
    for await (const piece of createReadStream(file, atOnce)) hash.update(piece as Buffer)
    hash.digest()
  })
  const ours = await timed(() => checkedGood(file))
  const verifier = join(folder, 'verify.mjs')
  writeFileSync(verifier, (await buildVerifier())['verify.mjs'])
  const alone = await timed(async () => {
    const { status, stdout } = spawnSync(process.execPath, [verifier, file], { encoding: 'utf8' })
    if (status !== 0) throw new Error(stdout)
  })
  const size = `${(statSync(file).size / 1e6).toFixed(0)} MB`
  rmSync(file)
  const row = (name: string, seconds: number): Measured => ({
    name: `${name} (${entriesInAll.toLocaleString('en-GB')} entries, ${size})`,
    measured: seconds,
    unit: 's',
    yardstick: bare,
    ratio: seconds / bare,
    goal: '≤ 15 s',
    met: seconds <= 15,
  })
  return [row('Bundle checked', ours), row('Bundle checked by verify.mjs', alone)]
}

/**
 * The most memory that a process ever held (its own count, over its whole life) while it wrote and checked a bundle with
 * all photos, above the same with one photo. Each in a process of its own: in this one, what came before would hide it.
 */
async function manyPhotos(folder: string): Promise<Measured[]> {
  for (let i = 0; i < photosInAll; i++) writeFileSync(photoFile(folder, i), randomBytes(photoBytes))
  const [few, many] = [1, photosInAll].map((count) => {
    const { stdout, stderr } = spawnSync(process.execPath, [thisFile, folder, String(count)], {
      encoding: 'utf8',
    })
    const most = Number(stdout)
    if (!(most > 0)) throw new Error(stderr)
    return most
  })
  const bytes = many! - few!
  return [
    {
      name: `Memory for ${((photosInAll * photoBytes) / 1e9).toFixed(1)} GB of photos written and checked, above that for one`,
      measured: bytes / megabyte,
      unit: 'MB',
      yardstick: few! / megabyte,
      ratio: many! / few!,
      goal: '< 300 MB',
      met: bytes < 300 * megabyte,
    },
  ]
}

/** The process of its own: prints the most memory that it ever held [bytes]. */
async function photosHere(folder: string, count: number): Promise<void> {
  const files = Array.from({ length: count }, (_, i) => photo(photoFile(folder, i)))
  const file = join(folder, `photos-${count}.baybundle`)
  write(file, { lines: () => chain(1000), files, missing: [], rules: '{}' })
  await checkedGood(file)
  rmSync(file)
  process.stdout.write(String(process.resourceUsage().maxRSS * 1024))
}

function photoFile(folder: string, i: number): string {
  return join(folder, `photo-${i}`)
}

function photo(path: string): MemberToWrite {
  const hash = createHash('sha256')
  for (const piece of fileBytes(path)) hash.update(piece)
  const sha256 = hash.digest('hex')
  return { name: `photos/${sha256}`, bytes: photoBytes, sha256, open: () => fileBytes(path) }
}

function write(file: string, contents: BundleContents): void {
  const { publicKey, privateKey } = generateKeyPairSync('ed25519')
  const hex = publicKey.export({ type: 'spki', format: 'der' }).subarray(12).toString('hex')
  const at = '2026-11-25T12:00:00.000Z'
  const device = '0198f000-0000-7000-8000-000000000001'
  writeBundle(file, contents, {
    made: { at, by: 'Bench', program: 'Bayledger bench', device, deviceName: 'Bench' },
    scope: { kind: 'record', project: device, projectName: 'Bench', bays: [], asOf: null, reason: null },
    key: { device, publicKey: hex, sign: (message) => sign(null, message, privateKey) },
  })
}

/** Readings of the air as a ledger has them, each chained to the one before. */
function* chain(count: number) {
  let prevHash = '0'.repeat(64)
  for (let i = 1; i <= count; i++) {
    const at = Date.UTC(2026, 0, 5) + i * 60_000
    const row = {
      id: idOf(2, i),
      device: idOf(1, 1),
      deviceSeq: i,
      project: idOf(3, 1),
      subject: idOf(4, 1 + (i % 50)),
      kind: 'air-read',
      kindVersion: 1,
      happenedAt: at,
      zone: 'Europe/London',
      recordedAt: at + 5000,
      person: idOf(5, 1),
      source: 'typed',
      body: `{"airC":${18 + (i % 70) / 10},"openings":"closed","place":"room","rhPercent":${50 + (i % 300) / 10},"surfaceC":16}`,
      answers: '[]',
      corrects: null,
      reason: null,
      prevHash,
    }
    const line = lineOfRow(row as unknown as LedgerRow)
    prevHash = sha256Hex(line)
    yield { line, hash: prevHash, leftOut: false }
  }
}

function idOf(what: number, number: number): string {
  return `0198f00${what}-0000-7000-8000-${number.toString(16).padStart(12, '0')}`
}

async function checkedGood(file: string): Promise<void> {
  const report = await readBundle(createReadStream(file, atOnce), nodeHashing)
  if (report.verdict !== 'good') throw new Error(report.firstDifference ?? report.verdict)
}

/** [s] */
async function timed(work: () => Promise<void>): Promise<number> {
  const startedAt = performance.now()
  await work()
  return (performance.now() - startedAt) / 1000
}

if (process.argv[1] === thisFile) await photosHere(process.argv[2]!, Number(process.argv[3]))
