import { leastThickness } from '../../checks/thickness.ts'
import { metresToShape } from '../../movement/polygon.ts'
import { entriesOf } from '../../record/story.ts'
import { keepsLimit, limitText } from '../../rules/limit.ts'
import type { ThicknessPoint } from '../../watch/facts/thickness.ts'
import { type Answer, no, notAsked, type Scene, twoDigits, unseen, yes } from './scene.ts'

/** A thickness measured so near speaks for the defect. Our judgement. */
const nearM = 1.5

/** Answers how the layer was laid: lifts E12, E13, finishing E24, thickness E25, E26. */
export function layingAnswers(scene: Scene): Record<'E12' | 'E13' | 'E24' | 'E25' | 'E26', Answer> {
  return { ...lifts(scene), E24: finishing(scene), ...thickness(scene) }
}

function lifts(scene: Scene): Record<'E12' | 'E13', Answer> {
  const { story, facts, rules, cementBound } = scene
  if (story.bay.body.screed === 'calcium sulfate' || !cementBound) {
    const flows = notAsked('A flowing screed is not compacted in lifts.')
    return { E12: flows, E13: flows }
  }
  const laid = entriesOf(story, 'lift-laid')
  const entries = laid.map(({ id }) => id)
  if (laid.length === 0) {
    const none = unseen('No lift was written down.')
    return { E12: none, E13: none }
  }
  const single = rules.limits['thickness.singleLift'].value
  const measured = facts.thickness.map(({ mm }) => mm)
  const thickest = Math.max(...(measured.length > 0 ? measured : [story.bay.body.designThicknessMm]))
  const mm = laid.length === 1 ? Math.max(laid[0]!.body.thicknessMm, thickest) : thickest
  const count = new Set(laid.map(({ body }) => body.lift)).size
  const loose = laid.filter(({ body }) => body.compaction === 'none')
  const compacted = laid.map(({ body }) => body.compaction).join(', ')
  const E12 =
    count === 1 && mm > single
      ? yes(`${mm} mm laid in one lift; two are asked for above ${single} mm.`, entries)
      : no(`${count === 1 ? 'One lift' : `${count} lifts`} for ${mm} mm.`, entries)
  const E13 =
    count >= 2 && loose.length === 0
      ? yes(`${count} lifts, compacted (${compacted}), with their times.`, entries)
      : no(count < 2 ? 'One lift only.' : 'A lift was not compacted.', entries)
  return { E12, E13 }
}

function finishing({ facts }: Scene): Answer {
  const finish = facts.life.finish
  if (finish === null) return unseen('The finish was not written down.')
  const { splashed, finish: tool } = finish.body
  if (splashed === true) return yes('Water splashed or cement dusted on while finishing.', [finish.id])
  const trowelled = tool === 'steel' || tool === 'power'
  if (splashed === undefined) return unseen('Nobody wrote down whether water was splashed on.', [finish.id])
  return trowelled
    ? unseen(
        `Finished by ${tool} trowel, nothing splashed on; whether it was damp then is not in the record.`,
        [finish.id],
      )
    : no(`Finished by ${tool}, nothing splashed on.`, [finish.id])
}

function thickness(scene: Scene): Record<'E25' | 'E26', Answer> {
  const { story, rules, facts } = scene
  const { screed, construction, minThicknessMm, pipeCoverMm, designThicknessMm } = story.bay.body
  const limit =
    leastThickness({ screed, construction, loading: story.zone.body.loading }, rules)?.value ??
    minThicknessMm ??
    null
  const least = minThicknessMm === undefined ? limit : Math.max(minThicknessMm, limit ?? 0)
  if (facts.thickness.length === 0) return both(unseen('Nobody measured the thickness.'))
  if (least === null)
    return both(unseen('The least thickness is the maker’s to say and is not in the record.'))
  const { points, where } = pointsAt(scene)
  const values = points.map(({ mm }) => mm)
  const entries = points.map(({ entry }) => entry)
  const [low, high] = [Math.min(...values), Math.max(...values)]
  const shown = `${low === high ? low : `${low} to ${high}`} mm ${where}; at least ${least} mm is asked for`
  if (high < least) return { E25: yes(`${shown}.`, entries), E26: no(`${shown}.`, entries) }
  if (low < least)
    return both(unseen(`${shown}: thin in places, and nobody measured at the defect.`, entries))
  if (story.zone.body.heated && scene.symptoms.includes('S08')) {
    const cover = rules.limits['thickness.coverOverHeatingPipe']
    if (pipeCoverMm === undefined)
      return both(unseen(`${shown}, but the cover over the pipe was not measured.`, entries))
    const left = twoDigits(pipeCoverMm - (designThicknessMm - low))
    if (!keepsLimit(left, cover)) {
      const because = `Cover over the pipe about ${left} mm against ${limitText(cover)}, from the planned cover and the thickness measured.`
      return { E25: yes(because, entries), E26: no(because, entries) }
    }
  }
  return { E25: no(`${shown}.`, entries), E26: yes(`${shown}.`, entries) }
}

const both = (answer: Answer) => ({ E25: answer, E26: answer })

/** The points beside the defect where places are known, else all of the bay. */
function pointsAt({ facts, place }: Scene): { points: readonly ThicknessPoint[]; where: string } {
  const near =
    place === null
      ? []
      : facts.thickness.filter(
          ({ x, y }) => x !== undefined && y !== undefined && metresToShape(place, { x, y }) <= nearM,
        )
  return near.length > 0
    ? { points: near, where: `within ${nearM} m of the defect` }
    : { points: facts.thickness, where: `in ${facts.thickness.length} points of the bay` }
}
