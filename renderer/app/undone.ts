import type { EntryVersion } from '#model/record/entry.ts'
import type { EntryId } from '#model/record/ids.ts'
import type { Fact } from './recorder.ts'

/** What undoes an entry, without its subject and reason, which the person gives. */
export type Undoing = Pick<Fact, 'kind' | 'happenedAt' | 'body' | 'answers' | 'source'>

/**
 * What has to be written so that a fact says again what it said before an entry. A first writing is withdrawn, and so is
 * what brought a withdrawn fact back; any other correction is taken back by one that says again what held before.
 * @param versions all versions of the fact, oldest first
 * @param entry the version to undo
 * @param now for a withdrawal: when it is written [ISO 8601 with offset]
 */
export function undoingOf(versions: readonly EntryVersion[], entry: EntryId, now: string): Undoing {
  const before = versions[versions.findIndex(({ id }) => id === entry) - 1]
  if (before === undefined || before.kind === 'entry-withdrawn')
    return { kind: 'entry-withdrawn', happenedAt: now, body: {} }
  const { kind, happenedAt, body, answers, source } = before
  return { kind, happenedAt: new Date(happenedAt).toISOString(), body, answers, source }
}
