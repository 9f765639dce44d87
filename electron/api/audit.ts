import { projectOutline } from '#db/index.ts'
import { amendedSince, clockJumps, lateSince } from '#db/queries/amended.ts'
import {
  amendmentsOf,
  auditOfBay,
  type BayAudit,
  decisiveKinds,
  hoursLate,
  questionsBetweenBays,
} from '#model/audit/index.ts'
import type { AuditLine, EntryLabel, LateLine } from '#model/contract/audit.ts'
import type { StoryEntry } from '#model/record/entry.ts'
import type { ProjectId } from '#model/record/ids.ts'
import type { BayStory } from '#model/record/story.ts'
import { calls } from './base.ts'
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

function watchedBays({ record, watch }: Services, project: ProjectId): Watched[] {
  const { bays } = projectOutline(record.current().read, project)
  return bays.map(({ id }) => watch.now(id))
}

export const sheet = calls.audit.sheet.handler(({ context, input }) => {
  const since = input.since === undefined ? null : Date.parse(input.since)
  const lines = watchedBays(context, input.project).map((bay) => lineOf(bay, since))
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

export const open = calls.audit.open.handler(({ context, input }) => {
  const bays = watchedBays(context, input.project)
  const each = <T>(list: (bay: Watched) => readonly T[]) =>
    bays.flatMap((one) => list(one).map((item) => ({ ...item, bay: one.story.bay.id as string })))
  return {
    at: new Date(context.clock()).toISOString(),
    tests: each((one) => auditOf(one).tests).sort((a, b) => b.at - a.at),
    alerts: each((one) => one.alerts()).sort((a, b) => b.since - a.since),
    holds: each((one) =>
      auditOf(one).holds.filter(
        ({ state, passedBy, findings }) =>
          state === 'open' || state === 'held' || passedBy.length > 0 || findings.length > 0,
      ),
    ),
    nonconformances: each((one) => auditOf(one).nonconformances).sort((a, b) => b.raisedAt - a.raisedAt),
  }
})

export const questions = calls.audit.questions.handler(({ context, input }) => {
  const bays = watchedBays(context, input.project)
  const jumps = clockJumps(context.record.current().read, input.project)
  const between = questionsBetweenBays(
    bays.map(({ story }) => story),
    jumps,
  )
  return {
    at: new Date(context.clock()).toISOString(),
    questions: [...between, ...bays.flatMap((one) => auditOf(one).questions)],
  }
})
