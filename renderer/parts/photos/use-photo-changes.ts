import { nowMs } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { useRecorder } from '../../app/recorder.ts'
import { siteIso } from '../site-time.ts'
import type { Point } from './photo-surface.tsx'
import type { Photo } from './use-photos.ts'

/** Everything that can be said again of a photo, and what can be read off it. */
export function usePhotoChanges(photo: Photo) {
  const { zone } = useJob()
  const recorder = useRecorder()
  /** A correction: the photo stays, what is said of it is a new version with its reason. */
  const say = (change: Partial<Photo['body']>, reason: string) => {
    const standing = photo.versions.at(-1)!
    return recorder.mutateAsync([
      {
        kind: 'photo-added',
        subject: photo.subject,
        happenedAt: new Date(photo.happenedAt).toISOString(),
        body: { ...photo.body, ...change },
        answers: standing.answers,
        corrects: standing.id,
        reason,
        source: photo.source,
      },
    ])
  }
  const mark = (line: readonly [Point, Point], what: string, lengthMm: number) =>
    recorder.mutateAsync([
      {
        kind: 'photo-marked',
        subject: photo.subject,
        happenedAt: siteIso(nowMs(), zone),
        source: 'photo',
        body: { photo: photo.id, what, lengthMm, ...lineOf(line) },
        answers: [],
      },
    ])
  return { say, mark, error: recorder.error, isPending: recorder.isPending }
}

export function lineOf([from, to]: readonly [Point, Point]) {
  return { fromX: from.x, fromY: from.y, toX: to.x, toY: to.y }
}
