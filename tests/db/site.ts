import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { appendEntries, closeRecord, createRecord, keepPhoto, type RecordFile, sha256Hex } from '#db/index.ts'
import { type CheckedEntry, newEntry } from '#model/record/entry.ts'
import type { Field, FieldSet } from '#model/record/fields.ts'
import { type BayId, type Id, uuidV7From } from '#model/record/ids.ts'
import { type KindName, kinds } from '#model/record/kinds.ts'

/** A morning on an invented site. */
export const morning = Date.parse('2026-11-02T07:00:00Z')
export const hour = 3_600_000
export const day = 24 * hour

let lastId = 0
/** Ids that are new in this process and the same in every run. */
export function nextId<T extends string = 'entry'>(at = morning): Id<T> {
  lastId += 1
  const random = new Uint8Array(10)
  new DataView(random.buffer).setUint32(6, lastId)
  return uuidV7From<T>(at, random)
}

/** A folder of its own for one test; `forget` removes it with all that the test left in it. */
export function temporaryFolder(): { folder: string; forget: () => void } {
  const folder = mkdtempSync(path.join(tmpdir(), 'bayledger-test-'))
  return { folder, forget: () => rmSync(folder, { recursive: true, force: true }) }
}

export interface Site {
  project: string
  person: string
  floor: string
  zone: string
  bay: string
  otherBay: string
  instrument: string
}

export function newSite(): Site {
  return {
    project: nextId(),
    person: nextId(),
    floor: nextId(),
    zone: nextId(),
    bay: nextId(),
    otherBay: nextId(),
    instrument: nextId(),
  }
}

export interface Noting {
  id?: string
  subject?: string
  at?: number
  body?: Record<string, unknown>
  answers?: { field: string; value: number; answer: string }[]
  corrects?: string
  reason?: string
}

/** An entry of this kind with a body that can be kept, unless the test says otherwise. */
export function entry(site: Site, kind: KindName, noting: Noting = {}): CheckedEntry {
  const id = noting.id ?? nextId()
  return newEntry.parse({
    id,
    project: site.project,
    subject: noting.subject ?? (kinds[kind].begins === true ? id : subjectFor(site, kind)),
    kind,
    happenedAt: new Date(noting.at ?? morning).toISOString(),
    zone: 'Europe/London',
    person: site.person,
    source: 'typed',
    body: noting.body ?? sampleBody(site, kind),
    ...(noting.answers === undefined ? {} : { answers: noting.answers }),
    ...(noting.corrects === undefined ? {} : { corrects: noting.corrects, reason: noting.reason }),
  })
}

function subjectFor(site: Site, kind: KindName): string {
  const { about } = kinds[kind]
  return about === 'defect' ? site.bay : site[about]
}

/** The entries that bring the site into being: project, person, floor, heated zone, two bays, instrument. */
export function opening(site: Site): CheckedEntry[] {
  return [
    entry(site, 'project-opened', { id: site.project }),
    entry(site, 'person-added', { id: site.person }),
    entry(site, 'floor-added', { id: site.floor }),
    entry(site, 'zone-added', { id: site.zone }),
    entry(site, 'bay-planned', { id: site.bay }),
    entry(site, 'bay-planned', {
      id: site.otherBay,
      body: { ...sampleBody(site, 'bay-planned'), name: 'B2' },
    }),
    entry(site, 'instrument-added', { id: site.instrument }),
  ]
}

export interface OpenSite {
  record: RecordFile
  site: Site
  file: string
  append: (entries: CheckedEntry | CheckedEntry[], recordedAt?: number) => ReturnType<typeof appendEntries>
  close: () => void
}

/** Stands for the bytes of a photo: what they show does not matter to the record. */
export const samplePhoto = Buffer.from('the bytes of a photo')

/** A record in this folder with the site in it, and the sample photo beside it. */
export function openSite(folder: string, name = 'record.bayledger'): OpenSite {
  const site = newSite()
  const file = path.join(folder, name)
  const record = createRecord(file, { now: morning, deviceName: 'Test' })
  appendEntries(record, opening(site), { recordedAt: morning })
  keepPhoto(file, samplePhoto, 'image/jpeg')
  return {
    record,
    site,
    file,
    append: (entries, recordedAt = morning + day) =>
      appendEntries(record, Array.isArray(entries) ? entries : [entries], { recordedAt }),
    close: () => closeRecord(record),
  }
}

export function bayOf(site: Site): BayId {
  return site.bay as BayId
}

/** A body of this kind that the ledger keeps: every needed field in the middle of its usual range. */
export function sampleBody(site: Site, kind: KindName): Record<string, unknown> {
  return { ...sampleOf(kinds[kind].fields, site), ...togetherness(site)[kind] }
}

/** What a kind asks of fields that belong together. */
function togetherness(site: Site): Partial<Record<KindName, Record<string, unknown>>> {
  return {
    'project-opened': { name: 'Test hall', timeZone: 'Europe/London', currency: 'GBP' },
    'zone-added': { heated: true },
    'bay-planned': {
      name: 'B1',
      minThicknessMm: 50,
      designThicknessMm: 65,
      outline: [
        { x: 0, y: 0 },
        { x: 5, y: 0 },
        { x: 5, y: 4 },
      ],
    },
    'weather-forecast-noted': { from: iso(morning), until: iso(morning + day), lowestC: -2, highestC: 6 },
    'edge-strip-fitted': { complete: true },
    'lift-laid': { startedAt: iso(morning - 2 * hour), finishedAt: iso(morning - hour) },
    'bay-finished': { startedAt: iso(morning - 3 * hour) },
    'heating-noted': { state: 'running', flowC: 25 },
    'moisture-read': { method: 'carbide', point: 'P1', cmPercent: 2.1 },
    'defect-found': { symptom: 'S04' },
    'defect-closed': { defect: site.bay },
    'crack-gauged': { defect: site.bay },
    'defect-measured': { defect: site.bay, weakToMm: 4 },
    'repair-done': { lengthM: 2 },
    'evidence-frozen': { contentHash: 'a'.repeat(64) },
    'device-key-published': { publicKey: 'a'.repeat(64) },
    'cause-weights-set': { version: 2 },
    'nonconformance-closed': { raised: site.bay },
    'photo-added': {
      quarterTurns: 0,
      bytes: samplePhoto.length,
      sha256: sha256Hex(samplePhoto),
      originalSha256: sha256Hex(samplePhoto),
    },
    'photo-marked': { photo: site.bay, fromX: 10, fromY: 10, toX: 40, toY: 50 },
    'bay-decided': { decision: 'accepted', verdictShown: 'ready' },
  }
}

export function iso(at: number): string {
  return new Date(at).toISOString()
}

function sampleOf(fields: FieldSet, site: Site): Record<string, unknown> {
  const needed = Object.entries(fields).filter(([, field]) => field.required)
  return Object.fromEntries(needed.map(([name, field]) => [name, sampleOfField(field, site)]))
}

function sampleOfField(field: Field, site: Site): unknown {
  switch (field.input) {
    case 'number': {
      const [low, high] = field.soft ?? field.hard ?? [0, 1]
      const middle = (low + high) / 2
      return field.schema.safeParse(middle).success ? middle : Math.ceil(low)
    }
    case 'text':
    case 'long text':
      return 'text'.slice(0, 3)
    case 'choice':
      return Object.keys(field.options ?? {})[0]
    case 'yes or no':
      return true
    case 'instant':
      return iso(morning)
    case 'day':
      return '2026-11-02'
    case 'reference':
      return site[field.pointsAt as keyof Site] ?? site.bay
    case 'list':
      return [sampleOf(field.item ?? {}, site)]
  }
}
