import { listFacts, UnknownId } from '#db/index.ts'
import type { FaultLine } from '#model/contract/faults.ts'
import {
  diagnose,
  liveOrDormant,
  ratesOf,
  repairDecision,
  repairOptions,
  repairQuestionFromStory,
  weightsOf,
} from '#model/faults/index.ts'
import type { StoryEntry } from '#model/record/entry.ts'
import type { ProjectId } from '#model/record/ids.ts'
import { storyAsOf } from '#model/record/story.ts'
import { calls } from './base.ts'
import {
  asFact,
  bayOfDefect,
  type FaultFacts,
  factsOfFault,
  faultKinds,
  groupDefects,
  inOrder,
  lineOfFault,
} from './fault-groups.ts'
import type { Services } from './services.ts'

export { freeze, frozenFile } from './fault-freeze.ts'
export { newScreed } from './new-screed.ts'

export const list = calls.faults.list.handler(({ context, input }) => {
  const entries = allFacts(context, input.project)
  return { faults: inOrder(groupDefects(entries).map((defects) => lineOf(defects, entries))) }
})

export const page = calls.faults.page.handler(({ context, input }) => {
  const watched = context.watch.asOf(bayOfDefect(context.record.current().read, input.defect), input.asOf)
  const { rules, asOf } = watched
  const story = storyAsOf(watched.story, asOf)
  const defects = groupDefects(story.entries).find((group) => group.some(({ id }) => id === input.defect))
  if (defects === undefined) throw new UnknownId('defect', input.defect)
  const facts = factsOfFault(defects, story.entries)
  const movement = movementOf(facts)
  const fault = lineOfFault(defects, facts, movement)
  const diagnosis = diagnose({
    symptoms: fault.symptoms,
    story,
    defect: fault.id,
    further: fault.defects,
    neighbours: story.neighbours.map(({ id }) => context.watch.asOf(id, input.asOf).story),
    asOf,
    rules,
  })
  const asked = { defect: fault.id, further: fault.defects, story, asOf, rules, symptoms: fault.symptoms }
  const question = {
    ...repairQuestionFromStory(asked, diagnosis),
    movement: movement.verdict,
    programme: { daysLeft: input.daysLeft ?? null },
    newScreedDays: input.newScreedDays ?? null,
  }
  const { version, reason, entry } = weightsOf(story)
  return {
    asOf,
    fault,
    bay: story.bay.body,
    place: { floor: story.floor.body.name, zone: story.zone.body.name },
    defects: defects.map(asFact),
    measured: facts.measured.map(asFact),
    gauged: facts.gauged.map(asFact),
    noted: facts.noted.map(asFact),
    movement,
    diagnosis,
    weights: { version, reason, entry },
    named: facts.named.map(asFact).at(-1) ?? null,
    decision: repairDecision(question),
    options: repairOptions(question),
    rates: ratesOf(story),
    daysLeft: input.daysLeft ?? null,
    newScreedDays: input.newScreedDays ?? null,
    currency: story.project.body.currency,
    repairs: facts.repairs.map(asFact),
    retests: facts.retests.map(asFact),
    closed: facts.closed.map(asFact),
    frozen: facts.frozen.map(asFact),
  }
})

function lineOf(defects: ReturnType<typeof groupDefects>[number], entries: readonly StoryEntry[]): FaultLine {
  const facts = factsOfFault(
    defects,
    entries.filter(({ subject }) => subject === defects[0]!.subject),
  )
  return lineOfFault(defects, facts, movementOf(facts))
}

function movementOf({ gauged }: FaultFacts) {
  return liveOrDormant(
    gauged.map(({ id, happenedAt, body }) => ({
      at: happenedAt,
      widthMm: body.widthMm,
      surfaceC: body.surfaceC ?? null,
      place: body.place,
      entry: id,
    })),
  )
}

/** Every standing fact of the project that tells of faults. */
function allFacts({ record }: Services, project: ProjectId): StoryEntry[] {
  const { read } = record.current()
  const found: StoryEntry[] = []
  let before: number | undefined
  do {
    const { entries, next } = listFacts(read, { project, kinds: [...faultKinds], limit: 500, before })
    found.push(...entries)
    before = next ?? undefined
  } while (before !== undefined)
  return found
}
