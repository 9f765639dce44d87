import { spawn } from 'node:child_process'
import { writeFileSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { closeRecord, openRecord, verify } from '#db/index.ts'
import { entry, morning, openSite, temporaryFolder } from '#tests/db/site.ts'

const writer = fileURLToPath(new URL('writer.ts', import.meta.url))

interface Killed {
  acknowledged: string[]
  kept: Set<string>
  verified: boolean
  /** Entries that were written as pairs and of which only one is there. */
  torn: number
}

/** Lets a program write, kills it after so many acknowledgements (kill -9), and looks at what is there. */
async function killWriter(mode: 'appending' | 'control', after: number): Promise<Killed> {
  const { folder, forget } = temporaryFolder()
  try {
    const open = openSite(folder)
    const asked = Array.from({ length: 400 }, () => entry(open.site, 'air-read'))
    open.close()
    const askedFile = path.join(folder, 'asked.json')
    writeFileSync(askedFile, JSON.stringify(asked))
    const acknowledged = await acknowledgedUntilKilled([writer, open.file, mode, askedFile], after)
    const record = openRecord(open.file, { now: morning })
    const kept = new Set(record.read.sqlite.prepare('select id from ledger').pluck().all() as string[])
    const { ok } = await verify(record.read)
    closeRecord(record)
    const torn = asked.filter(
      (one, i) => i % 2 === 0 && kept.has(one.id) !== kept.has(asked[i + 1]!.id),
    ).length
    return { acknowledged, kept, verified: ok, torn }
  } finally {
    forget()
  }
}

function acknowledgedUntilKilled(args: string[], after: number): Promise<string[]> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'inherit'] })
    let said = ''
    child.stdout.setEncoding('utf8').on('data', (more: string) => {
      said += more
      if (said.split('\n').length > after) child.kill('SIGKILL')
    })
    child.on('error', reject)
    child.on('close', (code, signal) => {
      if (signal !== 'SIGKILL')
        reject(new Error(`the writer ended by itself with ${code} after: ${said.slice(-200)}`))
      else resolve(said.split('\n').slice(0, -1))
    })
  })
}

describe('a program killed while it writes', () => {
  it('KILL-1: in twenty rounds nothing that was acknowledged is lost, nothing is half written, and the record agrees', async () => {
    let acknowledgements = 0
    for (let first = 0; first < 20; first += 4) {
      const rounds = [0, 1, 2, 3].map((i) => killWriter('appending', 1 + (((first + i) * 37) % 190)))
      for (const { acknowledged, kept, verified, torn } of await Promise.all(rounds)) {
        acknowledgements += acknowledged.length
        expect(acknowledged.filter((id) => !kept.has(id))).toEqual([])
        expect(torn).toBe(0)
        expect(verified).toBe(true)
      }
    }
    expect(acknowledgements).toBeGreaterThan(500)
  }, 180_000)

  it('KILL-2: control: a writer that acknowledges before the commit loses, and this test sees it', async () => {
    const rounds = await Promise.all([50, 50, 50].map((after) => killWriter('control', after)))
    for (const { acknowledged, kept } of rounds) {
      expect(acknowledged.length).toBeGreaterThan(40)
      expect(acknowledged.filter((id) => kept.has(id))).toEqual([])
    }
  }, 60_000)
})
