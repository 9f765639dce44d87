import type { BodyOf } from '#model/record/kinds.ts'
import { nowMs } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { useRecorder } from '../../app/recorder.ts'
import { type Trouble, troubleOf } from '../../app/trouble.ts'
import { useFact } from '../../app/use-fact.ts'
import { siteIso } from '../../parts/site-time.ts'

type ProjectBody = BodyOf<'project-opened'>

export interface ProjectChange {
  body: ProjectBody
  isPending: boolean
  isSaving: boolean
  trouble: Trouble | null
  /** Writes the project's facts anew with these parts changed, as a correction of the version that stands. */
  save: (part: Partial<ProjectBody>, reason: string) => Promise<void>
}

/** Changing the project is correcting the entry that opened it: the old rules stay readable in its history. */
export function useProjectChange(): ProjectChange {
  const { outline, zone } = useJob()
  const { id, body } = outline.project
  const { fact, error, isPending } = useFact(id)
  const recorder = useRecorder()
  const failed = recorder.error ?? error
  return {
    body,
    isPending,
    isSaving: recorder.isPending,
    trouble: failed === null ? null : troubleOf(failed),
    save: async (part, reason) => {
      const version = fact?.versions.at(-1)
      if (version === undefined) return
      await recorder.mutateAsync([
        {
          kind: 'project-opened',
          subject: id,
          happenedAt: siteIso(nowMs(), zone),
          body: { ...body, ...part },
          corrects: version.id,
          reason,
          answers: version.answers,
        },
      ])
    },
  }
}
