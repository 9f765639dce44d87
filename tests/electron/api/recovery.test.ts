import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { safe } from '@orpc/client'
import { describe, expect, it } from 'vitest'
import { contract } from '#model/contract/index.ts'
import type { ProjectId } from '#model/record/ids.ts'
import { day, entry, morning } from '#tests/db/site.ts'
import { contractRoutes } from '../hosts/contract-routes.ts'
import { tempFolder } from '../temp-folder.ts'
import { opened, openedWithSite } from './opened.ts'

const garbage = 'This is no database. '.repeat(400)

async function openedOnGarbage() {
  const data = tempFolder()
  writeFileSync(join(data, 'record.sqlite'), garbage)
  return opened(data)
}

describe('a record that cannot be opened', () => {
  it('RECOVER-1: Bayledger starts, says why in a sentence, and touches nothing', async () => {
    const { client, data } = await openedOnGarbage()
    const { recordState } = await client.host.info()
    expect(recordState).toMatchObject({
      state: 'recovery',
      reason: expect.stringMatching(/record\.sqlite.*\.$/),
    })
    expect(readFileSync(join(data, 'record.sqlite'), 'utf8')).toBe(garbage)
    expect(readdirSync(data).sort()).toEqual(['in-use.json', 'record.sqlite', 'uploads'])
  })

  it('RECOVER-2: only the calls of recovery answer; every other one says STORAGE', async () => {
    const { client } = await openedOnGarbage()
    expect(await client.record.backups()).toEqual({ backups: [] })
    expect(contractRoutes()).toContain('/rpc/record/append')
    const refused = [
      client.projects.list(),
      client.projects.today({ project: '019ab000-0000-7000-8000-000000000001' }),
      client.record.backUp(),
      client.bays.life({ bay: '019ab000-0000-7000-8000-000000000001' }),
      client.record.list({ project: '019ab000-0000-7000-8000-000000000001' }),
    ]
    for (const call of refused) {
      const { error } = await safe(call as Promise<unknown>)
      expect(error).toMatchObject({ code: 'STORAGE' })
    }
    expect(Object.keys(contract.recovery)).toEqual(['moveAside'])
  })

  it('RECOVER-3: moving aside renames the file, never deletes it, and an empty record begins', async () => {
    const { client, data, stop } = await openedOnGarbage()
    const { movedTo } = await client.recovery.moveAside()
    expect(readFileSync(movedTo, 'utf8')).toBe(garbage)
    expect(movedTo.startsWith(join(data, 'record.sqlite.aside-'))).toBe(true)
    expect((await client.host.info()).recordState).toEqual({ state: 'open' })
    expect((await client.projects.list()).projects).toEqual([])
    await stop()
    const again = await opened(data)
    expect((await again.client.host.info()).recordState).toEqual({ state: 'open' })
    expect(existsSync(movedTo)).toBe(true)
  })

  it('RECOVER-4: a record that is gone while its backups are there is not quietly begun anew', async () => {
    const { client, data, stop } = await openedWithSite()
    const { backup } = await client.record.backUp()
    await stop()
    rmSync(join(data, 'record.sqlite'))
    const again = await opened(data)
    expect((await again.client.host.info()).recordState).toMatchObject({ state: 'recovery', code: 'missing' })
    expect(existsSync(join(data, 'record.sqlite'))).toBe(false)
    expect(await again.client.record.backups()).toEqual({ backups: [backup] })
    expect(await again.client.recovery.moveAside()).toEqual({ movedTo: '' })
    expect((await again.client.host.info()).recordState).toEqual({ state: 'open' })
  })

  it('RECOVER-5: a record of another program is left alone', async () => {
    const data = tempFolder()
    const { default: Sqlite } = await import('better-sqlite3')
    const foreign = new Sqlite(join(data, 'record.sqlite'))
    foreign.exec('create table theirs (a); insert into theirs values (1)')
    foreign.close()
    const before = readFileSync(join(data, 'record.sqlite'))
    const { client } = await opened(data)
    expect((await client.host.info()).recordState).toMatchObject({ state: 'recovery', code: 'foreign' })
    expect(readFileSync(join(data, 'record.sqlite')).equals(before)).toBe(true)
  })
})

describe('automatic backup', () => {
  async function startedAt(data: string, now: number) {
    const { startUp } = await import('#electron/start-up.ts')
    const { services, stop } = await startUp({ host: 'browser', version: '0.1.0', data, clock: () => now })
    await stop()
    return services.folder.backups
  }

  it('BACKUP-1: at start when the last one is older than a day, and not before', async () => {
    const { client, data, stop, site, services } = await openedWithSite()
    await client.record.append({ entries: [entry(site, 'air-read', { at: morning })] })
    const count = () =>
      existsSync(services.folder.backups) ? readdirSync(services.folder.backups).length : 0
    expect(count()).toBe(0)
    // Who stops before the first look gets the backup while stopping.
    await stop()
    expect(count()).toBe(1)
    await startedAt(data, morning + day)
    expect(count()).toBe(1)
    await startedAt(data, morning + day + 1)
    expect(count()).toBe(2)
    const again = await opened(data)
    const kept = (await again.client.record.backups()).backups
    expect(kept.map(({ verified }) => verified)).toEqual([true, true])
    expect((await again.client.projects.outline({ project: site.project as ProjectId })).bays).toHaveLength(2)
  })

  it('BACKUP-3: without anybody asking, seconds after the start', async () => {
    const { client } = await openedWithSite()
    await expect
      .poll(async () => (await client.record.backups()).backups.length, { timeout: 15_000, interval: 200 })
      .toBe(1)
  })

  it('BACKUP-2: an empty record is not backed up, and one in recovery is not either', async () => {
    const empty = tempFolder()
    expect(existsSync(await startedAt(empty, morning))).toBe(false)
    const broken = tempFolder()
    writeFileSync(join(broken, 'record.sqlite'), garbage)
    expect(existsSync(await startedAt(broken, morning))).toBe(false)
  })
})
