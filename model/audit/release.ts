import { type BayStory, entriesOf } from '#model/record/story.ts'

/** How a bay was let go to be covered, by whoever decided last. */
export interface Release {
  at: number
  person: string
  entry: string
  how: 'released' | 'waived'
  /** The reason that was given; for a waiver there always is one. */
  because: string
}

/** The last decision that let the bay go and that nobody took back since; null when there is none. */
export function releaseOf(story: BayStory): Release | null {
  const decided = entriesOf(story, 'bay-decided').map(({ id, person, happenedAt, body }) => ({
    at: happenedAt,
    person,
    entry: id as string,
    how: { accepted: 'released', waived: 'waived', refused: null }[body.decision] as Release['how'] | null,
    because: (body.reasons ?? []).map(({ reason }) => reason).join(' '),
  }))
  const noted = entriesOf(story, 'hold-point-released')
    .filter(({ body }) => body.point === 'release')
    .map(({ id, person, happenedAt, body }) => ({
      at: happenedAt,
      person,
      entry: id as string,
      how: body.decision === 'held' ? null : body.decision,
      because: body.saw,
    }))
  const last = [...decided, ...noted].sort((a, b) => a.at - b.at).at(-1)
  return last === undefined || last.how === null ? null : { ...last, how: last.how }
}
