import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { dataFolderAt, usualDataFolder } from '#electron/data-folder/place.ts'
import type { StartOptions } from './options.ts'

export interface ChosenData {
  path: string
  /** Removes a demonstration's folder; does nothing to a real one. */
  clear: () => void
}

/** Returns the folder to work in. A demonstration is made afresh in a temporary folder. */
export async function chooseData({ demo, data }: StartOptions, now: number): Promise<ChosenData> {
  if (!demo) {
    const path = data === null ? usualDataFolder(process.platform, process.env) : resolve(data)
    return { path, clear: () => undefined }
  }
  const path = mkdtempSync(join(tmpdir(), 'bayledger-demo-'))
  const clear = () => rmSync(path, { recursive: true, force: true })
  try {
    const { makeDemo } = await import('../demo/make.ts')
    process.stderr.write('Making the demonstration …\n')
    await makeDemo(dataFolderAt(path).record, { now })
  } catch (cause) {
    clear()
    throw cause
  }
  return { path, clear }
}
