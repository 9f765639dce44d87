import { InputError } from '../errors.ts'
import { entriesOf } from '../record/story.ts'
import { type SymptomCode, symptoms as symptomWords } from '../record/words.ts'
import { type EvidenceId, evidenceIds, evidenceItem } from './evidence.ts'
import { curingAnswers, evaporationAnswers, fumeAnswers } from './from-story/curing.ts'
import { frostAnswers } from './from-story/frost.ts'
import { heatAndLoadAnswers } from './from-story/heat-and-load.ts'
import { layingAnswers } from './from-story/laying.ts'
import { mixAnswers } from './from-story/mix.ts'
import { moistureAnswers } from './from-story/moisture.ts'
import { type Answer, no, type Scene, sceneOf, unseen } from './from-story/scene.ts'
import { shapeAnswers } from './from-story/shape.ts'
import { testAnswers } from './from-story/tests.ts'
import type { Evidence, EvidenceFinding, EvidenceQuestion, TypedEvidence } from './shapes.ts'
import { type LookMethod, lookMethods } from './words.ts'

/**
 * Returns all 64 items of evidence as the record of a bay answers them, each with its numbers in words and its entries.
 *
 * What the record shows by itself is read from it; what a person noted for any symptom of this fault comes over it, and where the two
 * differ both are told. An item that nothing answers is "not examined", with why not: never good, never bad.
 *
 * @param question.story the whole story; it is cut at `asOf`.
 * @param question.defect the entry that found it, or null for the bay as a whole.
 * @param question.further the entries of the other symptoms of the same fault; an answer names the symptom it was noted of.
 * @throws InputError when the instant is not one, or the story has no such defect by then.
 * @provenance limits as the rules in force say; where evidence begins is our judgement
 */
export function evidenceFromStory(question: EvidenceQuestion): Evidence[] {
  return evidenceOfScene(sceneOf(question))
}

/** The same for a story that was read already. */
export function evidenceOfScene(scene: Scene): Evidence[] {
  return impliedFalse(withPeople(scene, fromRecord(scene)))
}

/**
 * The same answers with others over them that are not (yet) entries.
 * @throws InputError for an unknown item.
 */
export function withTests(evidence: readonly Evidence[], tests: readonly TypedEvidence[]): Evidence[] {
  for (const { id } of tests) {
    if (!evidenceIds.includes(id)) throw new InputError('tests', `${id} is not an item of evidence.`)
  }
  const over = evidence.map((item) => {
    const typed = tests.findLast(({ id }) => id === item.id)
    if (typed === undefined) return item
    return answeredByPerson(item, {
      state: typed.state,
      because: typed.because ?? 'Said by the person who asks.',
      entries: typed.entries ?? [],
      method: typed.method ?? null,
      located: typed.located ?? false,
      defect: null,
    })
  })
  return impliedFalse(over)
}

function fromRecord(scene: Scene): Evidence[] {
  const answers: Partial<Record<EvidenceId, Answer>> = {
    ...mixAnswers(scene),
    ...layingAnswers(scene),
    ...frostAnswers(scene),
    ...curingAnswers(scene),
    ...evaporationAnswers(scene),
    ...fumeAnswers(scene),
    ...shapeAnswers(scene),
    ...heatAndLoadAnswers(scene),
    ...testAnswers(scene),
    ...moistureAnswers(scene),
  }
  return evidenceIds.map((id) => {
    const { group, text, from, where } = evidenceItem(id)
    const answer =
      answers[id] ??
      unseen(from === 'test' ? `Nobody has looked (${where}).` : `The record says nothing of it (${where}).`)
    return {
      id,
      group,
      text,
      ...answer,
      source: 'record',
      method: null,
      located: false,
      contradicted: null,
      defect: null,
    }
  })
}

interface Said {
  state: EvidenceFinding
  because: string
  entries: string[]
  method: LookMethod | null
  located: boolean
  defect: string | null
}

/** A person who looked last is heard; what they contradict stays visible. */
function answeredByPerson(item: Evidence, said: Said): Evidence {
  const differs = item.state !== 'not examined' && said.state !== 'not examined' && item.state !== said.state
  if (said.state === 'not examined' && item.state !== 'not examined') return item
  return {
    ...item,
    ...said,
    applies: true,
    entries: [...new Set([...said.entries, ...(differs ? item.entries : [])])],
    source: 'person',
    contradicted: differs
      ? `${item.source === 'record' ? 'The record says' : 'Before, it was said'}: ${item.because}`
      : null,
  }
}

function withPeople({ story, defects }: Scene, evidence: Evidence[]): Evidence[] {
  const symptomOf = new Map(defects.map(({ id, body }) => [id as string, body.symptom as SymptomCode]))
  const notes = entriesOf(story, 'fault-evidence-noted').filter(({ body }) => symptomOf.has(body.defect))
  // With one symptom there is nothing to mix up.
  const symptomText = (id: string) =>
    symptomOf.size > 1 ? `${symptomWords[symptomOf.get(id)!] ?? 'Symptom'} – ` : ''
  return evidence.map((item) =>
    notes
      .filter(({ body }) => body.evidence === item.id)
      .reduce((held, { id, body }) => {
        const by = body.lookedBy === undefined ? '' : ` by ${body.lookedBy}`
        const where = body.place === undefined ? '' : `, ${body.place}`
        const note = body.note === undefined ? '' : `: ${body.note}`
        const found = body.found === 'not able to tell' ? 'not able to tell' : `found ${body.found}`
        return answeredByPerson(held, {
          state: body.found === 'not able to tell' ? 'not examined' : body.found,
          because: `${symptomText(body.defect)}${lookMethods[body.method]}${by}${where}: ${found}${note}`,
          entries: [id],
          method: body.method,
          located: body.place !== undefined || (body.x !== undefined && body.y !== undefined),
          defect: body.defect,
        })
      }, item),
  )
}

/** Items that cannot both be true: when one is shown, the others have been examined too. */
const exclusive: readonly (readonly EvidenceId[])[] = [
  ['E01', 'E02'],
  ['E03', 'E04'],
  ['E05', 'E06', 'E07'],
  ['E08', 'E09'],
  ['E10', 'E11'],
  ['E12', 'E13'],
  ['E14', 'E15'],
  ['E17', 'E19'],
  ['E18', 'E19'],
  ['E20', 'E21'],
  ['E22', 'E23'],
  ['E25', 'E26'],
  ['E27', 'E28'],
  ['E29', 'E30'],
  ['E31', 'E32'],
  ['E35', 'E36'],
  ['E37', 'E38'],
  ['E39', 'E40'],
  ['E45', 'E64'],
  ['E46', 'E47', 'E48'],
  ['E49', 'E50'],
  ['E51', 'E52'],
  ['E53', 'E54'],
  ['E55', 'E56'],
  ['E57', 'E58'],
  ['E59', 'E60'],
]

function impliedFalse(evidence: readonly Evidence[]): Evidence[] {
  const state = new Map(evidence.map((item) => [item.id, item]))
  return evidence.map((item) => {
    if (item.state !== 'not examined') return item
    const shown = exclusive
      .filter((set) => set.includes(item.id))
      .flat()
      .map((id) => state.get(id)!)
      .find((other) => other.id !== item.id && other.state === 'true')
    return shown === undefined
      ? item
      : {
          ...item,
          ...no(`Shown by its opposite: ${shown.because}`, shown.entries),
          source: shown.source,
          method: shown.method,
          defect: shown.defect,
        }
  })
}
