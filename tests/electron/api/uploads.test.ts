import { createHash } from 'node:crypto'
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { openUploads } from '#electron/api/uploads.ts'

let folder: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'bayledger-uploads-'))
})
afterEach(() => rmSync(folder, { recursive: true }))

async function* chunks(...texts: string[]): AsyncGenerator<Uint8Array> {
  for (const text of texts) yield Buffer.from(text)
}

async function* megabytes(count: number): AsyncGenerator<Uint8Array> {
  const chunk = Buffer.alloc(1 << 20, 0x31)
  for (let i = 0; i < count; i++) yield chunk
}

describe('uploads', () => {
  it('UPL-1: an upload stands in the staging folder with its size and hash', async () => {
    const uploads = await openUploads({ folder })
    const upload = await uploads.receive(chunks('Time,', 'Temp\n'), 'room.csv')
    expect(upload.id).toMatch(/^[0-9a-f]{32}$/)
    expect(upload).toMatchObject({
      fileName: 'room.csv',
      bytes: 10,
      sha256: createHash('sha256').update('Time,Temp\n').digest('hex'),
    })
    expect(readFileSync(upload.path, 'utf8')).toBe('Time,Temp\n')
    expect(uploads.find(upload.id)).toEqual(upload)
  })

  it.each(['../../etc/passwd', 'C:\\Users\\x\\..\\room.csv', '/abs/room.csv', '\u0000\u202e', ''])(
    'UPL-2: the name %j never becomes a path',
    async (name) => {
      const uploads = await openUploads({ folder })
      const upload = await uploads.receive(chunks('x'), name)
      expect(dirname(upload.path)).toBe(folder)
      expect(upload.fileName).toMatch(/^(passwd|room\.csv|unnamed file)$/)
    },
  )

  it('UPL-3: 301 MB are refused while they come in, and nothing is left', async () => {
    const uploads = await openUploads({ folder })
    await expect(uploads.receive(megabytes(301), 'huge.csv')).rejects.toThrow(/larger than 300 MB; split it/)
    expect(readdirSync(folder)).toEqual([])
  })

  it('UPL-4: exactly the limit is taken', async () => {
    const uploads = await openUploads({ folder, mostBytes: 5 })
    await expect(uploads.receive(chunks('12345'), 'a.csv')).resolves.toMatchObject({ bytes: 5 })
    await expect(uploads.receive(chunks('12345', '6'), 'a.csv')).rejects.toThrow(/larger/)
  })

  it('UPL-5: an upload that is stopped, or whose sender fails, leaves nothing behind', async () => {
    const uploads = await openUploads({ folder })
    const stop = new AbortController()
    async function* slow(): AsyncGenerator<Uint8Array> {
      yield Buffer.from('begin')
      stop.abort(new Error('stopped'))
      yield Buffer.from('end')
    }
    await expect(uploads.receive(slow(), 'a.csv', stop.signal)).rejects.toThrow('stopped')
    async function* broken(): AsyncGenerator<Uint8Array> {
      yield Buffer.from('begin')
      throw new Error('connection lost')
    }
    await expect(uploads.receive(broken(), 'a.csv')).rejects.toThrow('connection lost')
    expect(readdirSync(folder)).toEqual([])
  })

  it('UPL-6: an unknown id, a path for an id and a removed upload are not found', async () => {
    const uploads = await openUploads({ folder })
    const { id } = await uploads.receive(chunks('x'), 'a.csv')
    await uploads.remove(id)
    for (const asked of [id, 'f'.repeat(32), '../secret', '__proto__']) {
      expect(() => uploads.find(asked)).toThrow('This file is no longer waiting; choose it again.')
    }
  })

  it('UPL-7: closing removes all uploads; a leftover of a crash goes at the next start, other files stay', async () => {
    const first = await openUploads({ folder })
    const { path } = await first.receive(chunks('x'), 'a.csv')
    writeFileSync(join(folder, 'notes.txt'), 'mine')
    await openUploads({ folder })
    expect(existsSync(path)).toBe(false)
    const third = await openUploads({ folder })
    await third.receive(chunks('x'), 'a.csv')
    await third.close()
    expect(readdirSync(folder)).toEqual(['notes.txt'])
  })

  it('UPL-8: the oldest upload makes room for the newest', async () => {
    const uploads = await openUploads({ folder, mostFiles: 2 })
    const [first, , third] = [
      await uploads.receive(chunks('1'), '1.csv'),
      await uploads.receive(chunks('2'), '2.csv'),
      await uploads.receive(chunks('3'), '3.csv'),
    ]
    expect(() => uploads.find(first.id)).toThrow(/no longer waiting/)
    expect(uploads.find(third.id)).toEqual(third)
    expect(readdirSync(folder)).toHaveLength(2)
  })
})
