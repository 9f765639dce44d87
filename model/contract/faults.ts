import { eventIterator, oc, type } from '@orpc/contract'
import { z } from 'zod'
import type { NewScreedDrying } from '../drying/forecast-shape.ts'
import { mostDaysLeft } from '../faults/repair/ask.ts'
import type { RepairDecision, RepairOption, RepairRates } from '../faults/repair/shapes.ts'
import type { CauseWeights, Diagnosis, Movement } from '../faults/shapes.ts'
import type { StoryEntryOf } from '../record/entry.ts'
import type { NamedCause } from '../record/faults.ts'
import { type BayId, type EntryId, idOf } from '../record/ids.ts'
import type { BodyOf, KindName } from '../record/kinds.ts'
import type { SymptomCode } from '../record/words.ts'
import { callErrors } from './errors.ts'

/** How far a fault has come. A repair that failed its re-test is not repaired. */
export type FaultState = 'open' | 'cause named' | 'repaired' | 're-test failed' | 're-tested' | 'closed'

/** A fault: one or more symptoms found at one place in one look. */
export interface FaultLine {
  /** The entry of the main symptom; the fault goes by it. */
  id: EntryId
  /** Every entry that found a symptom of it, the main one first. */
  defects: EntryId[]
  bay: BayId
  symptoms: SymptomCode[]
  firstSeenOn: string
  /** Epoch milliseconds. */
  foundAt: number
  state: FaultState
  /** When it came into this state. Epoch milliseconds. */
  since: number
  /** Of a crack, by its gauge; null for what is no crack. */
  movement: Movement['verdict'] | null
  cause: NamedCause | null
  lengthM: number | null
  areaM2: number | null
  widthMm: number | null
}

export interface FaultList {
  /** Not closed first, then the newest found first. */
  faults: FaultLine[]
}

/** A fact about a fault, as far as its page needs it. */
export type FaultFact<K extends KindName> = Pick<StoryEntryOf<K>, 'id' | 'happenedAt' | 'person' | 'body'>

/** All about one fault, as of an instant: what is seen, why, what can be done, what was done. */
export interface FaultPage {
  asOf: number
  fault: FaultLine
  bay: BodyOf<'bay-planned'>
  place: { floor: string; zone: string }
  defects: FaultFact<'defect-found'>[]
  measured: FaultFact<'defect-measured'>[]
  gauged: FaultFact<'crack-gauged'>[]
  noted: FaultFact<'fault-evidence-noted'>[]
  movement: Movement
  diagnosis: Diagnosis
  weights: Pick<CauseWeights, 'version' | 'reason' | 'entry'>
  named: FaultFact<'cause-named'> | null
  decision: RepairDecision
  options: RepairOption[]
  rates: RepairRates
  /** As it was asked; null while nobody says how many days the programme has left. */
  daysLeft: number | null
  /** As it was asked; null while new screed is planned by the rule of thumb. */
  newScreedDays: { p50: number; p90: number } | null
  currency: string
  repairs: FaultFact<'repair-done'>[]
  retests: FaultFact<'repair-retested'>[]
  closed: FaultFact<'defect-closed'>[]
  /** Seals over the evidence, oldest first. */
  frozen: FaultFact<'evidence-frozen'>[]
}

export type NewScreedEvent =
  | { kind: 'progress'; done: number; of: number }
  | { kind: 'done'; drying: NewScreedDrying }

export type FreezeStep = 'report' | 'bundle'
export type FreezeEvent =
  | { kind: 'progress'; step: FreezeStep; done: number; of: number }
  | { kind: 'done'; entry: EntryId }

/** As many as one set of evidence names. */
export const mostFrozenBays = 200

const call = oc.errors(callErrors)

export const faultCalls = {
  list: call.input(z.strictObject({ project: idOf('project') })).output(type<FaultList>()),
  /** By the entry of any of its symptoms. */
  page: call
    .input(
      z.strictObject({
        defect: idOf('entry'),
        asOf: z.iso.datetime({ offset: true }).optional(),
        /** Days that the programme has left before the covering: the question of the options, not a fact of the record. */
        daysLeft: z.number().int().min(0).max(mostDaysLeft).optional(),
        /** What `newScreed` gave: days from laying until new screed keeps its limit. The rule of thumb when left out. */
        newScreedDays: z
          .strictObject({
            p50: z.number().min(0).max(mostDaysLeft),
            p90: z.number().min(0).max(mostDaysLeft),
          })
          .optional(),
      }),
    )
    .output(type<FaultPage>()),
  /** How long new screed in place of the bay's own would dry, laid now in the room as it stands; it takes seconds. */
  newScreed: call
    .input(z.strictObject({ defect: idOf('entry') }))
    .output(eventIterator(type<NewScreedEvent>())),
  /**
   * Freezes the evidence of bays as it stands: makes a report and a signed bundle, keeps both, and writes the entry that
   * names them with their hashes. Asking again with the same entry writes nothing twice.
   */
  freeze: call
    .input(
      z.strictObject({
        entry: idOf('entry'),
        defect: idOf('entry'),
        project: idOf('project'),
        person: idOf('person'),
        bays: z.array(idOf('bay')).min(1, 'must name at least one bay').max(mostFrozenBays),
        reason: z.string().trim().min(1, 'must say why').max(1000),
      }),
    )
    .output(eventIterator(type<FreezeEvent>())),
  /** A frozen file of this machine, after its hash was compared with the entry. */
  frozenFile: call
    .input(z.strictObject({ entry: idOf('entry'), what: z.enum(['bundle', 'report']) }))
    .output(type<{ name: string; file: Blob }>()),
}
