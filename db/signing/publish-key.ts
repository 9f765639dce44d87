import { randomBytes } from 'node:crypto'
import { newEntry } from '#model/record/entry.ts'
import { type PersonId, type ProjectId, uuidV7From } from '#model/record/ids.ts'
import { prepared, type ReadHandle } from '../handles.ts'
import { appendEntries } from '../ledger.ts'
import { type RecordFile, writing } from '../open.ts'
import type { DeviceKey } from './device-key.ts'

export interface KnownKey {
  publicKey: string
  /** When the device wrote it into its own chain [ISO 8601]. */
  at: string
}

/** The keys that a device has published in its own chain, oldest first; another device's word does not count. */
export function keysOfDevice(read: ReadHandle, device: string): KnownKey[] {
  return prepared<{ publicKey: string; recordedAt: number }>(
    read.sqlite,
    `select body ->> '$.publicKey' as publicKey, min(recordedAt) as recordedAt from ledger
     where kind = 'device-key-published' and device = @device and body ->> '$.device' = @device
     group by 1 order by 2`,
  )
    .all({ device })
    .map(({ publicKey, recordedAt }) => ({ publicKey, at: new Date(recordedAt).toISOString() }))
}

interface Publishing {
  project: ProjectId
  person: PersonId
  timeZone: string
  /** [epoch ms] */
  now: number
}

/**
 * Writes the public key of this device into a project, once. From then on the chain of the device says which key is its
 * own, and everybody who merged that chain can tell another key from it.
 * @throws what `appendEntries` throws
 */
export function publishKey(
  record: RecordFile,
  key: DeviceKey,
  { project, person, timeZone, now }: Publishing,
): void {
  const { write, device } = writing(record)
  const known = prepared(
    write.sqlite,
    `select 1 from ledger where kind = 'device-key-published' and device = ? and project = ? and body ->> '$.publicKey' = ?`,
  ).get(device.id, project, key.publicKey)
  if (known !== undefined) return
  const entry = newEntry.parse({
    id: uuidV7From(now, randomBytes(10)),
    project,
    subject: project,
    kind: 'device-key-published',
    happenedAt: new Date(now).toISOString(),
    zone: timeZone,
    person,
    source: 'typed',
    body: { device: device.id, name: device.name, algorithm: 'Ed25519', publicKey: key.publicKey },
  })
  appendEntries(record, [entry], { recordedAt: now })
}
