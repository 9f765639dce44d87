import { projectOutline } from '#db/index.ts'
import { amendedSince, lateSince } from '#db/queries/amended.ts'
import { lastSeq, touchedSince } from '#db/queries/touched-since.ts'
import {
  amendmentsOf,
  auditOfBay,
  type BayAudit,
  decisiveKinds,
  hoursLate,
  type Question,
} from '#model/audit/index.ts'
import type { AuditLine, AuditOpen, EntryLabel, LateLine } from '#model/contract/audit.ts'
import type { StoryEntry } from '#model/record/entry.ts'
import type { ProjectId } from '#model/record/ids.ts'
import type { BayStory } from '#model/record/story.ts'
import type { Workers } from '../work/pool.ts'
import { calls } from './base.ts'
import { eachBay } from './each-bay.ts'
import type { Services } from './services.ts'
import type { Watched } from './watched.ts'

const HOUR_MS = 3_600_000
/** More changed or late facts than this are not read at one sitting. */
const mostListed = 2000

/**
 * The audit of a story as of an hour, and as it was known before. It changes with the clock by days, and a story that is
 * touched is another story: so it is worked out once for each.
 */
const audits = new WeakMap<BayStory, Map<string, BayAudit>>()

function auditOf({ story, rules, asOf }: Watched): BayAudit {
  return kept(story, `now ${Math.floor(asOf / HOUR_MS)}`, () => auditOfBay(story, asOf, rules))
}

function auditAt({ story, rules }: Watched, since: number): BayAudit {
  return kept(story, `since ${since}`, () => auditOfBay(story, since, rules, since))
}

function kept(story: BayStory, key: string, work: () => BayAudit): BayAudit {
  const known = audits.get(story) ?? new Map<string, BayAudit>()
  const before = known.get(key)
  if (before !== undefined) return before
  const made = work()
  // One of now and one of an earlier day are asked for at a time.
  const [kind] = key.split(' ')
  for (const old of known.keys()) if (old.startsWith(`${kind} `)) known.delete(old)
  known.set(key, made)
  audits.set(story, known)
  return made
}

/** What a piece of work gives for each bay of a project as it stands now. */
function ofBays<T>(
  { record, watch }: Services,
  project: ProjectId,
  work: (bay: Watched) => T,
  signal: AbortSignal | undefined,
): Promise<T[]> {
  const { bays } = projectOutline(record.current().read, project)
  return eachBay(bays, (id) => work(watch.now(id)), signal)
}

export const sheet = calls.audit.sheet.handler(async ({ context, input, signal }) => {
  const since = input.since === undefined ? null : Date.parse(input.since)
  const lines = await ofBays(context, input.project, (bay) => lineOf(bay, since), signal)
  return {
    project: input.project,
    at: new Date(context.clock()).toISOString(),
    since: input.since ?? null,
    lines,
  }
})

function lineOf(bay: Watched, since: number | null): AuditLine {
  const { answers, met, applicable, failing, release } = auditOf(bay).completeness
  return {
    bay: bay.story.bay.id,
    cells: answers.map(({ id, state, notYet, answered }) => ({
      id,
      state,
      notYet,
      answered: answered !== null,
    })),
    met,
    applicable,
    failing,
    release,
    metBefore: since === null || !plannedBy(bay, since) ? null : auditAt(bay, since).completeness.met,
  }
}

function plannedBy({ story }: Watched, since: number): boolean {
  const planned = story.entries.find(
    ({ kind, subject }) => kind === 'bay-planned' && subject === story.bay.id,
  )
  return planned !== undefined && planned.versions[0]!.recordedAt <= since
}

export const bay = calls.audit.bay.handler(({ context, input }) => {
  const watched = context.watch.now(input.bay)
  const { completeness, corroboration, questions } = auditOf(watched)
  const { answers, ...rest } = completeness
  return {
    bay: input.bay,
    at: new Date(context.clock()).toISOString(),
    answers,
    completeness: rest,
    corroboration,
    questions,
    entries: labelsOf(watched.story, [
      ...answers.flatMap(({ entries }) => entries),
      ...corroboration.flatMap(({ entry, by }) => [entry, ...by.map((one) => one.entry)]),
    ]),
  }
})

function labelsOf({ entries }: BayStory, ids: readonly string[]): EntryLabel[] {
  const wanted = new Set(ids)
  return entries
    .filter(({ id }) => wanted.has(id))
    .map(({ id, kind, happenedAt }) => ({ id, kind, happenedAt }))
}

export const amendments = calls.audit.amendments.handler(({ context, input }) => {
  const { read } = context.record.current()
  const since = input.since === undefined ? 0 : Date.parse(input.since)
  const amended = amendedSince(read, input.project, since, mostListed)
  const late = lateSince(read, input.project, since, mostListed)
  return {
    since: input.since ?? null,
    amendments: amendmentsOf(amended, since),
    late: late.map(lateLineOf).sort((a, b) => Number(b.decisive) - Number(a.decisive) || b.hours - a.hours),
    more: amended.length === mostListed || late.length === mostListed,
  }
})

function lateLineOf(entry: StoryEntry): LateLine {
  const { id, kind, subject, happenedAt, versions } = entry
  const { person, recordedAt } = versions[0]!
  const hours = hoursLate(entry)
  return {
    entry: id,
    kind,
    subject,
    person,
    happenedAt,
    recordedAt,
    hours,
    decisive: decisiveKinds.includes(kind),
  }
}

export const open = calls.audit.open.handler(async ({ context, input, signal }) => {
  const bays = await ofBays(context, input.project, openIn, signal)
  return {
    at: new Date(context.clock()).toISOString(),
    tests: bays.flatMap(({ tests }) => tests).sort((a, b) => b.at - a.at),
    alerts: bays.flatMap(({ alerts }) => alerts).sort((a, b) => b.since - a.since),
    holds: bays.flatMap(({ holds }) => holds),
    nonconformances: bays
      .flatMap(({ nonconformances }) => nonconformances)
      .sort((a, b) => b.raisedAt - a.raisedAt),
  }
})

function openIn(watched: Watched): Omit<AuditOpen, 'at'> {
  const { tests, holds, nonconformances } = auditOf(watched)
  const here = { bay: watched.story.bay.id as string }
  return {
    tests: tests.map((one) => ({ ...one, ...here })),
    alerts: watched.alerts().map((one) => ({ ...one, ...here })),
    holds: holds
      .filter(
        ({ state, passedBy, findings }) =>
          state === 'open' || state === 'held' || passedBy.length > 0 || findings.length > 0,
      )
      .map((one) => ({ ...one, ...here })),
    nonconformances: nonconformances.map((one) => ({ ...one, ...here })),
  }
}

interface Asked {
  seq: number
  hour: number
  asked: Promise<Question[]>
}

/** Questions that were worked out, or that are being worked out, by host: the record of a call lives only as long as it. */
const askedOf = new WeakMap<Workers, Map<string, Asked>>()

export const questions = calls.audit.questions.handler(async ({ context, input }) => {
  const at = context.clock()
  return { at: new Date(at).toISOString(), questions: await questionsOf(context, input.project, at) }
})

/** Comparing every bay with every other takes seconds for a big job: a worker does it, once until the record changes. */
function questionsOf({ record, workers }: Services, project: ProjectId, asOf: number): Promise<Question[]> {
  const { read, file } = record.current()
  const known = askedOf.get(workers) ?? new Map<string, Asked>()
  askedOf.set(workers, known)
  const key = [file, project].join('|')
  const hour = Math.floor(asOf / HOUR_MS)
  const before = known.get(key)
  if (before?.hour === hour && !touchedSince(read, before.seq).some((touch) => touch.project === project))
    return before.asked
  const made: Asked = {
    seq: lastSeq(read),
    hour,
    asked: workers.run('ask the record', { recordFile: file, project, asOf }),
  }
  known.set(key, made)
  // What failed is asked again.
  made.asked.catch(() => {
    if (known.get(key) === made) known.delete(key)
  })
  return made.asked
}
