import { checkBody, type FieldProblem, unansweredRanges } from '#model/record/check-body.ts'
import type { CheckedEntry } from '#model/record/entry.ts'
import type { BodyOf } from '#model/record/kinds.ts'
import { orderLooksAt, orderProblems } from '#model/record/order.ts'
import { requireCorrectable, requireSameReadings } from './admit-correction.ts'
import { requirePerson, requireProject, requireReferences, requireSubject } from './admit-links.ts'
import { requirePhoto } from './admit-photo.ts'
import { EntryRefused } from './errors.ts'
import type { WriteHandle } from './handles.ts'
import { storyEntriesOf } from './queries/story-entries.ts'

const clockSlackMs = 10 * 60_000

interface Circumstances {
  /** [epoch ms] */
  recordedAt: number
  company: ReadonlySet<string>
  readings: boolean
}

/**
 * Checks an entry against everything the record knows, and returns its body as it will be kept.
 * @throws EntryRefused, UnknownId, CorrectionConflict
 */
export function admit(
  write: WriteHandle,
  entry: CheckedEntry,
  circumstances: Circumstances,
): Record<string, unknown> {
  const { sqlite } = write
  const { body, problems } = checkBody(entry.kind, entry.body)
  const found = [...timeProblems(entry, circumstances.recordedAt), ...problems]
  if (body === null || found.length > 0) throw new EntryRefused(entry.id, found)
  const unanswered = unansweredRanges(entry.kind, body, entry.answers)
  if (unanswered.length > 0) throw new EntryRefused(entry.id, unanswered)

  requireProject(sqlite, entry)
  requirePerson(sqlite, entry, circumstances.company)
  if (entry.corrects === undefined) requireSubject(sqlite, entry)
  else requireCorrectable(sqlite, entry, entry.corrects)
  requireReferences(sqlite, entry, body)
  if (entry.kind === 'logger-imported' && !circumstances.readings) requireSameReadings(sqlite, entry, body)
  if (entry.kind === 'photo-added') requirePhoto(write, entry, body as BodyOf<'photo-added'>)

  const looksAt = orderLooksAt(entry.kind)
  const standing =
    looksAt.length === 0 ? [] : storyEntriesOf(write, { subject: entry.subject, kinds: looksAt })
  const outOfOrder = orderProblems({ ...entry, body }, standing)
  if (outOfOrder.length > 0) throw new EntryRefused(entry.id, outOfOrder)
  return body
}

function timeProblems(entry: CheckedEntry, recordedAt: number): FieldProblem[] {
  const problem = (field: string, value: string, message: string) => [{ field, value, message }]
  const happenedAt = Date.parse(entry.happenedAt)
  const future = happenedAt - recordedAt > clockSlackMs
  const now = new Date(recordedAt).toISOString()
  return [
    ...(future
      ? problem(
          'happenedAt',
          entry.happenedAt,
          `When it happened is ${entry.happenedAt}; it must not be later than now (${now}). Check day and clock.`,
        )
      : []),
    ...(isTimeZone(entry.zone)
      ? []
      : problem(
          'zone',
          entry.zone,
          `Time zone is "${entry.zone}"; it must be a known zone such as Europe/London.`,
        )),
    ...(entry.corrects !== undefined && entry.reason === undefined
      ? problem('reason', 'nothing', 'Reason is missing; a correction or a withdrawal must say why.')
      : []),
    ...(entry.corrects === undefined && entry.kind === 'entry-withdrawn'
      ? problem('corrects', 'nothing', 'Entry to withdraw is missing; name the entry that was made in error.')
      : []),
  ]
}

const knownZones = new Set<string>()

/** Asking for a zone's clock is slow and a record has few zones, so the answer "known" is kept. */
function isTimeZone(zone: string): boolean {
  if (knownZones.has(zone)) return true
  try {
    new Intl.DateTimeFormat('en', { timeZone: zone })
    knownZones.add(zone)
    return true
  } catch (cause) {
    if (cause instanceof RangeError) return false
    throw cause
  }
}
