import { existsSync, mkdirSync, readdirSync, renameSync, rmSync } from 'node:fs'
import path from 'node:path'
import type { ProjectPart } from '#model/contract/parts.ts'
import { InputError } from '#model/errors.ts'
import type { BayId, PersonId, ProjectId } from '#model/record/ids.ts'
import { stampOf, syncToDisk } from '../disk.ts'
import { onDisk, UnknownId } from '../errors.ts'
import { prepared, type ReadHandle, type Sqlite } from '../handles.ts'
import { type RecordFile, writing } from '../open.ts'
import { missingIn, partOf } from '../queries/part-of.ts'
import { deviceKey } from '../signing/device-key.ts'
import { publishKey } from '../signing/publish-key.ts'
import { type BundleScope, bundleEnding } from './format.ts'
import { contentsOf } from './record-contents.ts'
import { select } from './select.ts'
import { type BundleWritten, writeBundle } from './write-bundle.ts'

export interface BundleAsked {
  project: ProjectId
  /** Who makes it. */
  person: PersonId
  scope: { kind: 'record' | 'project' } | { kind: 'bays'; bays: readonly BayId[] }
  /** Only what was recorded up to then [epoch ms]; null: everything. */
  asOf: number | null
  reason: string | null
}

export interface MakingPlace {
  /** Where bundles go, and where the keys of this data folder lie. */
  bundles: string
  keys: string
  program: string
  /** [epoch ms] */
  now: number
}

export interface BundleMade extends BundleWritten {
  file: string
}

/**
 * Makes a signed bundle of the record as it stands, or stood at a time. The file gets its name only when it is complete
 * and on the disk. The key of this device is published in the project first, if it was not yet.
 * @throws UnknownId for a project, person or bay that is not here; RecordError read-only, full, corrupt
 */
export function makeBundle(
  record: RecordFile,
  asked: BundleAsked,
  { bundles, keys, program, now }: MakingPlace,
  onProgress?: (done: number, of: number) => void,
): BundleMade {
  const { write, device } = writing(record)
  const { project, person, asOf, reason } = asked
  requireHeld(record.read, asked)
  const names = namesOf(write.sqlite, asked)
  const key = deviceKey(keys, device.id)
  publishKey(record, key, { project, person, timeZone: names.timeZone, now })
  const part = partOf(record.read, project)
  const scope: BundleScope = {
    kind: asked.scope.kind,
    project,
    projectName: names.project,
    bays: names.bays,
    asOf: asOf === null ? null : new Date(asOf).toISOString(),
    reason,
    ...scopeOfBays(record.read, asked, part),
  }
  const made = {
    at: new Date(now).toISOString(),
    by: names.person,
    program,
    device: device.id,
    deviceName: device.name,
  }
  return onDisk(bundles, () => {
    mkdirSync(bundles, { recursive: true, mode: 0o700 })
    removeHalfMade(bundles)
    const file = freeName(bundles, `${plain(names.project)}-${stampOf(now)}`)
    const building = `${file}.part`
    const { sqlite } = record.read
    try {
      const written = sqlite.transaction(() => {
        const selection = select(sqlite, { ...asked.scope, project }, asOf)
        const contents = contentsOf(sqlite, record.file, project, selection)
        return writeBundle(building, contents, { made, scope, key }, onProgress)
      })()
      renameSync(building, file)
      syncToDisk(bundles)
      return { ...written, file }
    } finally {
      rmSync(building, { force: true })
    }
  })
}

/**
 * Of some bays the bundle says how many there are. What a record that holds a part can give is some bays again, even when
 * the whole project is asked for.
 */
function scopeOfBays(
  { sqlite }: ReadHandle,
  { scope, project }: BundleAsked,
  part: ProjectPart | null,
): Partial<BundleScope> {
  if (part === null && scope.kind !== 'bays') return {}
  const here = prepared<{ count: number }>(
    sqlite,
    'select count(*) as count from bays where project = ? and withdrawn = 0',
  ).get(project)!.count
  const baysOfProject = part === null ? here : part.ofBays
  return {
    kind: 'bays',
    ...(part === null || scope.kind === 'bays' ? {} : { bays: part.held }),
    ...(baysOfProject === null ? {} : { baysOfProject }),
  }
}

/** A bay of which only the plan is here cannot be given, and a record that holds a part cannot be given as a whole. */
function requireHeld(read: ReadHandle, { scope, project }: BundleAsked): void {
  if (scope.kind === 'record' && missingIn(read.sqlite).missing.size > 0) {
    throw new InputError(
      'scope',
      'This record holds a part of a project: a bundle of the whole record can only come from a machine that has the whole. Make a bundle of one project, which then says what it is a part of.',
    )
  }
  const named = partOf(read, project)?.named ?? []
  const asked = scope.kind === 'bays' ? named.find(({ id }) => scope.bays.includes(id)) : undefined
  if (asked === undefined) return
  throw new InputError(
    'bays',
    `Bay ${asked.name} is only planned in this record: what was recorded of it is not here. Ask for it where the whole record is.`,
  )
}

/** What a stopped making left behind; it never had the name of a bundle. */
function removeHalfMade(folder: string): void {
  for (const name of readdirSync(folder)) {
    if (name.endsWith(`${bundleEnding}.part`)) rmSync(path.join(folder, name))
  }
}

function namesOf(sqlite: Sqlite, { project, person, scope }: BundleAsked) {
  const named = (what: string, id: string, of: string, table: string) => {
    const row = prepared<{ name: string }>(
      sqlite,
      `select name from ${table} where id = ? and ${of} = ?`,
    ).get(id, project)
    if (row === undefined) throw new UnknownId(what, id)
    return row.name
  }
  const timeZone = prepared<{ timeZone: string }>(sqlite, 'select timeZone from projects where id = ?').get(
    project,
  )?.timeZone
  if (timeZone === undefined) throw new UnknownId('project', project)
  const bays = scope.kind === 'bays' ? [...new Set(scope.bays)] : []
  return {
    timeZone,
    project: named('project', project, 'id', 'projects'),
    person: named('person', person, 'project', 'people'),
    bays: bays.map((id) => ({ id, name: named('bay', id, 'project', 'bays') })),
  }
}

/** A project's name as the beginning of a file name that every system takes. */
function plain(name: string): string {
  const kept = name.normalize('NFKD').replace(/[^A-Za-z0-9]+/g, '-')
  return kept.replace(/^-+|-+$/g, '').slice(0, 60) || 'record'
}

function freeName(folder: string, wanted: string): string {
  let free = path.join(folder, wanted + bundleEnding)
  for (let next = 2; existsSync(free); next++) free = path.join(folder, `${wanted}-${next}${bundleEnding}`)
  return free
}
