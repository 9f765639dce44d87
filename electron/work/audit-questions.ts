import { bayStory, closeRecord, openRecord, projectOutline } from '#db/index.ts'
import { clockJumps } from '#db/queries/amended.ts'
import { comparedBays, type Question, questionsOfBay } from '#model/audit/index.ts'
import type { ProjectId } from '#model/record/ids.ts'
import { storyAsOf } from '#model/record/story.ts'
import { rulesOfProject } from '#model/rules/index.ts'
import { factsOf } from '#model/watch/facts/index.ts'
import type { Report } from './jobs.ts'

export interface AuditQuestion {
  recordFile: string
  project: ProjectId
  /** [epoch ms] */
  asOf: number
}

/**
 * Returns what the record of a project may be asked, between bays first, through a reading connection of this thread. One
 * bay is in memory at a time. @throws UnknownId, RecordError
 */
export async function auditQuestions(
  { recordFile, project, asOf }: AuditQuestion,
  onProgress: Report,
): Promise<Question[]> {
  const record = openRecord(recordFile, { now: asOf, readOnly: true, skipLook: true })
  try {
    const { bays } = projectOutline(record.read, project)
    const compared = comparedBays()
    const ofBays: Question[] = []
    for (const [i, { id }] of bays.entries()) {
      onProgress(i, bays.length)
      const story = bayStory(record.read, id)
      compared.add(story)
      ofBays.push(
        ...questionsOfBay(factsOf(storyAsOf(story, asOf), asOf, rulesOfProject(story.project.body))),
      )
    }
    return [...compared.questions(clockJumps(record.read, project)), ...ofBays]
  } finally {
    closeRecord(record)
  }
}
