import { leastThickness } from '../../checks/thickness.ts'
import { InputError } from '../../errors.ts'
import { distanceToSegment, type Point } from '../../movement/polygon.ts'
import { entriesOf } from '../../record/story.ts'
import type { SymptomCode } from '../../record/words.ts'
import { judgedTests } from '../../watch/facts/moisture.ts'
import { measuresOf, movementOf } from '../from-story/measures.ts'
import { type Scene, sceneOf } from '../from-story/scene.ts'
import { soundnessOf } from '../from-story/tests.ts'
import { ratesOf } from '../rates.ts'
import type { Diagnosis, EvidenceQuestion } from '../shapes.ts'
import type { StructuralSign } from '../words.ts'
import type { RepairQuestion } from './shapes.ts'

/** A line that a saw can follow keeps a crack within this. Common practice [m]. */
const sawLineM = 0.02

/**
 * Returns the question of repair as far as the record answers it; what it does not say is null and will be asked for.
 *
 * @param question the defect and the instant.
 * @param diagnosis of the same defect at the same instant.
 * @throws InputError when no defect is named, or the story has none such.
 */
export function repairQuestionFromStory(
  question: EvidenceQuestion,
  diagnosis: Pick<Diagnosis, 'causes' | 'recordStrengthPercent' | 'evidence'>,
): RepairQuestion {
  const scene = sceneOf(question)
  const { story, defect, defects, rules, facts } = scene
  if (defect === null)
    throw new InputError('defect', 'defect is missing; name the entry that found the defect to be repaired.')
  const { screed, construction, designThicknessMm, minThicknessMm } = story.bay.body
  const zone = story.zone.body
  const measures = measuresOf(story, defects)
  const ids = defects.map(({ id }) => id as string)
  const named = entriesOf(story, 'cause-named').findLast(({ body }) =>
    body.defects.some(({ defect: id }) => ids.includes(id)),
  )?.body
  const measured = facts.thickness.map(({ mm }) => mm)
  const meanMm = measured.reduce((sum, mm) => sum + mm, 0) / measured.length
  const moisture = moistureOf(scene)
  const removed = named?.causeRemoved
  return {
    symptoms: scene.symptoms.length > 0 ? scene.symptoms : [defect.body.symptom as SymptomCode],
    causes: diagnosis.causes.map(({ id, probability, band }) => ({ id, probability, band })),
    recordStrengthPercent: diagnosis.recordStrengthPercent,
    causeNamed: named?.cause ?? null,
    causeRemoved: removed === 'yes' ? true : removed === 'no' ? false : null,
    extent: {
      bayAreaM2: facts.areaM2,
      areaM2: measures.areaM2 ?? (defects.some(({ body }) => body.extent === 'whole') ? facts.areaM2 : null),
      lengthM: measures.lengthM,
      widthMm: measures.widthMm,
      weakToMm: measures.weakToMm,
      stepMm: measures.stepMm,
      hollowM2: measures.hollowM2,
      rocks: measures.rocks,
      boundaryProven: measures.boundaryProven,
      pullOffMPa: measures.pullOffMPa,
      patches: null,
    },
    movement: movementOf(story, ids).verdict,
    straight: scene.place === null ? null : straight(scene.place),
    whereJointBelongs: jointBelongs(scene, diagnosis),
    structuralSigns: signOf(defects),
    construction,
    screed,
    thicknessMm: measured.length > 0 ? Math.round(meanMm) : designThicknessMm,
    minThicknessMm:
      minThicknessMm ?? leastThickness({ screed, construction, loading: zone.loading }, rules)?.value ?? null,
    heated: zone.heated,
    pipesLocated: measures.pipesLocated,
    covering: zone.covering,
    soundnessCategory: zone.soundness,
    soundness: soundnessOf(scene).verdict,
    moisture,
    leakActive: leakOf(scene),
    dryingEnded: moisture === 'dry' ? true : moisture === 'wet' ? false : null,
    surfaceSealed: entriesOf(story, 'sheet-on').some(({ body }) => body.material === 'compound')
      ? true
      : null,
    trialPassed: measures.trialPassed,
    programme: { daysLeft: null },
    rates: ratesOf(story),
  }
}

/** Any sign of movement in the structure stops all; "none seen" only where nobody saw one. */
function signOf(defects: Scene['defects']): StructuralSign | null {
  const said = defects.flatMap(({ body }) => body.structuralSigns ?? [])
  return said.find((sign) => sign !== 'none') ?? said[0] ?? null
}

/** Dry when the last valid test of the agreed covering keeps its limit. */
function moistureOf({ facts, story }: Scene): RepairQuestion['moisture'] {
  const last = judgedTests(facts, story.zone.body.covering).findLast(({ valid }) => valid)
  if (last === undefined) return 'not known'
  return last.acceptance.verdict === 'pass' ? 'dry' : 'wet'
}

function leakOf({ story }: Scene): boolean | null {
  const leaks = entriesOf(story, 'wet-event-noted').filter(
    ({ body }) => body.what === 'leak' || body.what === 'flood',
  )
  const last = leaks.at(-1)
  return last === undefined ? null : last.body.stopped !== true
}

/** At a door, over a base joint, or where the plan asks for one. */
function jointBelongs({ symptoms }: Scene, { evidence }: Pick<Diagnosis, 'evidence'>): boolean | null {
  if (symptoms.includes('S07')) return true
  const onJoint = evidence.find(({ id }) => id === 'E29')
  if (onJoint === undefined || onJoint.state === 'not examined') return null
  return onJoint.state === 'true'
}

function straight(place: readonly Point[]): boolean | null {
  if (place.length < 2) return null
  const [from, to] = [place[0]!, place.at(-1)!]
  const line = { fromX: from.x, fromY: from.y, toX: to.x, toY: to.y }
  return place.every((point) => distanceToSegment(point, line) <= sawLineM)
}
