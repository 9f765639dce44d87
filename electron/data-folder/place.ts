import { homedir } from 'node:os'
import { isAbsolute, join, resolve } from 'node:path'

/** The folder of one record and everything that belongs to it. */
export interface DataFolder {
  path: string
  record: string
  backups: string
  uploads: string
  logs: string
  lock: string
  settings: string
  pins: string
}

/** Returns where the parts of a data folder lie. */
export function dataFolderAt(path: string): DataFolder {
  const folder = resolve(path)
  return {
    path: folder,
    record: join(folder, 'record.sqlite'),
    backups: join(folder, 'backups'),
    uploads: join(folder, 'uploads'),
    logs: join(folder, 'logs'),
    lock: join(folder, 'in-use.json'),
    settings: join(folder, 'settings.json'),
    pins: join(folder, 'pins.json'),
  }
}

/**
 * Returns the folder in which this system keeps the data of applications: Application Support on macOS, AppData on
 * Windows, and XDG_DATA_HOME or `~/.local/share` elsewhere.
 * @source XDG Base Directory Specification 0.8: a relative XDG_DATA_HOME is invalid and ignored.
 * @provenance from memory
 */
export function usualDataFolder(platform: NodeJS.Platform, environment: NodeJS.ProcessEnv): string {
  const home = homedir()
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'Bayledger')
  if (platform === 'win32') return join(environment.APPDATA ?? join(home, 'AppData', 'Roaming'), 'Bayledger')
  const xdg = environment.XDG_DATA_HOME ?? ''
  return join(isAbsolute(xdg) ? xdg : join(home, '.local', 'share'), 'bayledger')
}
