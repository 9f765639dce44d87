import { spawn, spawnSync } from 'node:child_process'
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { FolderInUse, takeFolder } from '#electron/data-folder/lock.ts'
import { isAlive, processBirth } from '#electron/data-folder/process-birth.ts'
import { root } from '#scripts/root.ts'
import { tempFolder } from '../temp-folder.ts'

const now = Date.UTC(2026, 10, 24, 7, 15)

/** Another process that takes the folder, says so, and waits until it is ended. */
async function otherHolder(file: string) {
  const words = `const { takeFolder } = await import('#electron/data-folder/lock.ts');
    takeFolder(${JSON.stringify(file)}, ${now}); console.log('taken'); setInterval(() => {}, 1000)`
  const child = spawn(process.execPath, ['--input-type=module', '-e', words], {
    cwd: root,
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  await new Promise((resolve) => child.stdout.once('data', resolve))
  const gone = new Promise((resolve) => child.once('exit', resolve))
  return {
    pid: child.pid,
    kill: async () => {
      child.kill('SIGKILL')
      await gone
    },
  }
}

describe('one Bayledger a data folder', () => {
  it('LOCK-1: a folder is taken, and free again when it was given back', () => {
    const file = join(tempFolder(), 'in-use.json')
    const giveBack = takeFolder(file, now)
    expect(JSON.parse(readFileSync(file, 'utf8'))).toMatchObject({
      pid: process.pid,
      since: '2026-11-24T07:15:00.000Z',
    })
    giveBack()
    expect(existsSync(file)).toBe(false)
    takeFolder(file, now)()
  })

  it('LOCK-2: a folder that a living process holds is refused with a sentence; when that one was killed it is free', async () => {
    const file = join(tempFolder(), 'in-use.json')
    const other = await otherHolder(file)
    const before = readFileSync(file, 'utf8')
    expect(() => takeFolder(file, now)).toThrow(FolderInUse)
    expect(() => takeFolder(file, now)).toThrow(
      new RegExp(`process ${other.pid}.*Close that one first, or choose another folder`),
    )
    expect(readFileSync(file, 'utf8')).toBe(before)
    await other.kill()
    expect(existsSync(file)).toBe(true)
    takeFolder(file, now)()
    expect(readdirSync(join(file, '..'))).toEqual([])
  })

  it.skipIf(process.platform !== 'linux')(
    'LOCK-3: a later process with the number of the one that crashed does not hold its lock (skipped where the system tells no start time)',
    () => {
      const file = join(tempFolder(), 'in-use.json')
      writeFileSync(
        file,
        JSON.stringify({ pid: 1, birth: 'another boot:1', since: '2026-11-24T07:15:00.000Z' }),
      )
      takeFolder(file, now)()
      writeFileSync(
        file,
        JSON.stringify({ pid: 1, birth: processBirth(1), since: '2026-11-24T07:15:00.000Z' }),
      )
      expect(() => takeFolder(file, now)).toThrow(FolderInUse)
    },
  )

  it.each(['', '{"pid":', '{}', '"text"'])(
    'LOCK-4: a lock that was never completely written (%s) is stale',
    (text) => {
      const file = join(tempFolder(), 'in-use.json')
      writeFileSync(file, text)
      takeFolder(file, now)()
    },
  )

  it('LOCK-5: giving back leaves a lock alone that is not ours', () => {
    const file = join(tempFolder(), 'in-use.json')
    const giveBack = takeFolder(file, now)
    writeFileSync(file, 'of somebody else')
    giveBack()
    expect(readFileSync(file, 'utf8')).toBe('of somebody else')
  })

  it('LOCK-6: a process is alive until it has ended', () => {
    expect(isAlive(process.pid, processBirth(process.pid))).toBe(true)
    const { pid } = spawnSync(process.execPath, ['-e', ''])
    expect(isAlive(pid, null)).toBe(false)
  })
})
