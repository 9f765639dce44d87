import { homedir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { dataFolderAt, usualDataFolder } from '#electron/data-folder/place.ts'

describe('where the record lies', () => {
  it('PLACE-1: each system has its own folder for data of applications', () => {
    const home = homedir()
    expect(usualDataFolder('linux', {})).toBe(join(home, '.local', 'share', 'bayledger'))
    expect(usualDataFolder('linux', { XDG_DATA_HOME: '/srv/data' })).toBe('/srv/data/bayledger')
    expect(usualDataFolder('linux', { XDG_DATA_HOME: 'relative' })).toBe(
      join(home, '.local', 'share', 'bayledger'),
    )
    expect(usualDataFolder('darwin', {})).toBe(join(home, 'Library', 'Application Support', 'Bayledger'))
    expect(usualDataFolder('win32', { APPDATA: '/roaming' })).toBe(join('/roaming', 'Bayledger'))
  })

  it('PLACE-2: everything of a record lies in its folder', () => {
    const { path, ...parts } = dataFolderAt('/srv/site')
    expect(path).toBe('/srv/site')
    for (const part of Object.values(parts)) expect(part.startsWith('/srv/site/')).toBe(true)
    expect(new Set(Object.values(parts)).size).toBe(Object.keys(parts).length)
  })
})
