import { randomBytes } from 'node:crypto'
import { readFileSync, statSync } from 'node:fs'
import os from 'node:os'
import { uuidV7From } from '#model/record/ids.ts'
import type { Sqlite } from './handles.ts'
import { sha256Hex } from './hash.ts'

export interface Device {
  id: string
  name: string
}

/**
 * The device that writes this file here. Its id stands in the file together with the home it was given in: this
 * machine and this very file on its disk. A copy of the file, on another machine or on this one, has another home and
 * gets an id of its own, so that two copies can never continue one chain in two ways.
 */
export function deviceHere(sqlite: Sqlite, file: string, now: number, name = os.hostname()): Device {
  const home = homeOf(file)
  const known = sqlite
    .prepare<[string], Device>('select id, name from device where home = ? order by firstSeenAt desc')
    .get(home)
  if (known !== undefined) return known
  const id = uuidV7From<'device'>(now, randomBytes(10))
  sqlite
    .prepare('insert into device (id, name, home, firstSeenAt) values (?, ?, ?, ?)')
    .run(id, name, home, now)
  return { id, name }
}

/** Makes the devices of a copy homeless, so that whoever opens it gets an id of its own. */
export function forgetHomes(sqlite: Sqlite): void {
  sqlite.prepare("update device set home = ''").run()
}

function homeOf(file: string): string {
  const { ino } = statSync(file, { bigint: true })
  return sha256Hex(`${machineId()}|${os.hostname()}|${ino}`)
}

function machineId(): string {
  try {
    return readFileSync('/etc/machine-id', 'utf8').trim()
  } catch (cause) {
    // Only some systems keep such a file; the host name and the place on the disk still tell machines apart.
    if (cause instanceof Error) return ''
    throw cause
  }
}
