import { useQuery } from '@tanstack/react-query'
import type { StoryEntryOf } from '#model/record/entry.ts'
import { orpc } from '../../app/client.ts'
import { useJob } from '../../app/job.tsx'

export type Photo = StoryEntryOf<'photo-added'>
export type PhotoMark = StoryEntryOf<'photo-marked'>

/** The photos of a thing, or only those that show one of these entries of it; newest first. */
export function usePhotos(subject: string, of?: string, also: readonly string[] = []) {
  const { id: project } = useJob()
  const { data, error, isPending } = useQuery(orpc.photos.list.queryOptions({ input: { project, subject } }))
  const all = data?.photos ?? []
  return {
    photos:
      of === undefined
        ? all
        : all.filter(({ body }) => body.of === of || (body.of !== undefined && also.includes(body.of))),
    marks: data?.marks ?? [],
    error,
    isPending,
  }
}
