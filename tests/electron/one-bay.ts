import { join } from 'node:path'
import { appendEntries, createRecord, type RecordFile } from '#db/index.ts'
import { newEntry } from '#model/record/entry.ts'
import { type BayId, type EntryId, type PersonId, type ProjectId, uuidV7From } from '#model/record/ids.ts'
import { type BodyOf, type KindName, kinds } from '#model/record/kinds.ts'

let minted = 0
export function mint<T extends string>(): string & { readonly __points_at: T } {
  const random = new Uint8Array(10)
  new DataView(random.buffer).setUint32(6, ++minted)
  return uuidV7From<T>(1_760_000_000_000, random)
}

/** A record on disk with one project, one floor, one zone, one bay and one person. */
export interface OneBay {
  record: RecordFile
  file: string
  project: ProjectId
  bay: BayId
  person: PersonId
  /** Records a fact about the bay or, where the kind says so, about its zone; returns its id. */
  note: <K extends KindName>(kind: K, happenedAt: number, body: BodyOf<K>) => EntryId
}

const start = Date.UTC(2026, 0, 5, 7)

export function oneBay(folder: string, timeZone = 'Europe/London'): OneBay {
  const file = join(folder, 'record.sqlite')
  const record = createRecord(file, { now: start })
  const [project, person, floor, zone, bay] = [mint(), mint(), mint(), mint(), mint()]
  const write = (kind: KindName, id: string, subject: string, happenedAt: number, body: object) => {
    const entry = newEntry.parse({
      id,
      project,
      subject,
      kind,
      happenedAt: new Date(happenedAt).toISOString(),
      zone: timeZone,
      person,
      source: 'typed',
      body,
    })
    return entry
  }
  appendEntries(
    record,
    [
      write('project-opened', project, project, start, {
        name: 'Rope Walk',
        timeZone,
        currency: 'GBP',
        ruleSet: 'british',
      }),
      write('person-added', person, person, start, { name: 'R. Alder', role: 'supervisor' }),
      write('floor-added', floor, floor, start, { name: 'Ground', level: 0, base: 'ground slab' }),
      write('zone-added', zone, zone, start, {
        floor,
        name: 'North',
        loading: 'light',
        soundness: 'C',
        regularity: 'SR2',
        heated: false,
        covering: 'vinyl',
        moistureMethod: 'probe',
      }),
      write('bay-planned', bay, bay, start, {
        zone,
        name: 'N1',
        outline: [
          { x: 0, y: 0 },
          { x: 6, y: 0 },
          { x: 6, y: 5 },
          { x: 0, y: 5 },
        ],
        screed: 'cement-sand',
        construction: 'floating',
        designThicknessMm: 65,
      }),
    ],
    { recordedAt: start },
  )
  return {
    record,
    file,
    project: project as ProjectId,
    bay: bay as BayId,
    person: person as PersonId,
    note: (kind, happenedAt, body) => {
      const id = mint<'entry'>()
      const subject = kinds[kind].about === 'zone' ? zone : bay
      appendEntries(record, [write(kind, id, subject, happenedAt, body)], { recordedAt: happenedAt + 60_000 })
      return id as EntryId
    },
  }
}
