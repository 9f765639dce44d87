import { crackWidths } from '../crack-widths.ts'
import type { RepairOptionId } from '../words.ts'
import { type Asked, depths, shares } from './ask.ts'
import type { RepairRule } from './shapes.ts'

/** What a rule says of one option: fits, does not fit, or cannot be told before something is measured. */
export interface Judgement {
  verdict: 'allowed' | 'excluded' | 'measure first'
  rule: RepairRule | null
  because: string
  /** Set for "measure first". */
  measure: string | null
}

const fits = (rule: RepairRule | null, because: string): Judgement => ({
  verdict: 'allowed',
  rule,
  because,
  measure: null,
})
const out = (rule: RepairRule | null, because: string): Judgement => ({
  verdict: 'excluded',
  rule,
  because,
  measure: null,
})
const first = (rule: RepairRule | null, because: string, measure: string): Judgement => ({
  verdict: 'measure first',
  rule,
  because,
  measure,
})

const gaugeTest = 'Crack gauge with the surface temperature at marked places for 14 days.'
const depthTest = 'Grind a 200 mm patch in 1 mm steps, or take a core, and note where it is sound.'
const dropTest = 'Drop-weight soundness test on a grid.'
const trialTest =
  'Trial on 0.5 m²: then a core that shows resin to the full weak depth, and the drop weight within its limit.'
const thinCoverings = ['resilient', 'vinyl', 'linoleum', 'rubber', 'cork', 'resin']

/** Judges each repair for itself; the caller has settled R01 to R03 before. */
export const judgements: Record<RepairOptionId, (asked: Asked) => Judgement> = {
  leave,
  'remove skin': removeSkin,
  fill,
  consolidate,
  patch,
  replace,
  'turn into joint': turnIntoJoint,
}

function leave({ question, weak, crack, crazing, hollow, curl, sinking }: Asked): Judgement {
  const { extent, movement, covering, soundness } = question
  const width = extent.widthMm ?? null
  const step = extent.stepMm ?? null
  if (sinking) return out(null, 'It sinks under load: left alone it breaks under the covering.')
  if (weak)
    return out(
      extent.weakToMm === null || extent.weakToMm === undefined ? null : 'R07',
      'Weak screed does not carry a covering.',
    )
  if (soundness === 'fail') return out(null, 'The body fails the soundness test.')
  if (step !== null && step > 1) return out('R08', `A step of ${step} mm shows through.`)
  if (hollow) {
    if (extent.rocks === true) return out('R09', 'It rocks under foot.')
    const area = extent.hollowM2 ?? extent.areaM2 ?? null
    if (area === null || extent.rocks === undefined || extent.rocks === null)
      return first(
        'R09',
        'Whether a small hollow patch may stay depends on its size and on whether it rocks.',
        'Tap it out, mark it on the plan, and walk over it.',
      )
    if (question.soundnessCategory !== 'C')
      return out(
        'R09',
        `A hollow may stay under light use only, and this is category ${question.soundnessCategory}.`,
      )
    return area < 0.25
      ? fits('R09', `Hollow over ${area} m², stable, light use: leave it and keep it in the record.`)
      : out('R09', `Hollow over ${area} m²; only a stable patch below 0.25 m² may stay.`)
  }
  if (curl) {
    if (question.dryingEnded !== true)
      return out('R10', 'The edges still move while the bay dries; judge them after drying has ended.')
    return step === null
      ? first(
          'R10',
          'Whether the covering hides the lip depends on its height.',
          'Straightedge over the lip: step and gap.',
        )
      : fits('R10', `Drying has ended and the lip is ${step} mm: within what a covering hides.`)
  }
  if (!crack && !crazing) return out(null, 'Nothing in the record says that it may stay.')
  if (movement === 'live') return out('R08', 'The crack moves: it would come through the covering.')
  if (movement === 'not known' && crack) return first('R08', 'Whether it moves is not known.', gaugeTest)
  if (crazing && !crack && width === null) {
    return soundness === 'pass'
      ? fits('R08', 'Hairline crazing of the surface, body sound: generally no technical defect.')
      : first('R08', 'Crazing may stay on a sound body.', dropTest)
  }
  if (width === null)
    return first('R08', 'The width is not measured.', 'Width at five places or more with a crack gauge.')
  if (width >= crackWidths.hairlineMm)
    return out('R08', `${width} mm wide; a still crack may stay below ${crackWidths.hairlineMm} mm.`)
  if (soundness === 'not known') return first('R08', 'A hairline may stay on a body that passes.', dropTest)
  return covering !== null && thinCoverings.includes(covering)
    ? fits(
        'R08',
        `Hairline of ${width} mm, still; smooth it over so that it does not show through the thin covering.`,
      )
    : fits('R08', `Hairline of ${width} mm, still, no step, body sound.`)
}

function removeSkin(asked: Asked): Judgement {
  const { question, weak, crazing, curl } = asked
  const { extent, thicknessMm, minThicknessMm } = question
  const depth = extent.weakToMm ?? null
  if (curl) {
    return question.dryingEnded === true
      ? fits('R10', 'Drying has ended: grind the lip and fill under the edge.')
      : out('R10', 'Grinding a lip before drying has ended is done twice: the edge still moves.')
  }
  if (!weak && !crazing) return out(null, 'There is no weak skin to remove.')
  if (depth === null) return first(null, 'How deep it is weak decides.', depthTest)
  if (depth > depths.skin) return out('R07', `Weak down to ${depth} mm; a skin is up to ${depths.skin} mm.`)
  const left = thicknessMm - depth
  if (minThicknessMm !== undefined && minThicknessMm !== null && left < minThicknessMm)
    return out(
      'R07',
      `${left} mm would be left of the ${minThicknessMm} mm that are asked for; a skim does not count as screed.`,
    )
  if (question.soundness === 'fail') return out('R07', 'Below the skin the body fails the soundness test.')
  if (question.soundness === 'not known' && extent.pullOffMPa === undefined)
    return first(
      'R07',
      'Whether it is sound below the skin is not shown.',
      'Pull-off or scratch on the ground patch, or a drop-weight test.',
    )
  const pull = extent.pullOffMPa ?? null
  return fits(
    'R07',
    `A skin of ${depth} mm, sound below${pull === null ? '' : `, pull-off ${pull} N/mm² after grinding`}.`,
  )
}

function fill({ question, crack, weak, fullDepth }: Asked): Judgement {
  const { extent, movement, moisture } = question
  const width = extent.widthMm ?? null
  if (!crack) return out(null, 'There is no crack to fill.')
  if (movement === 'live') return out('R08', 'It moves: rigid filler cracks again. Make it a joint.')
  if (weak && fullDepth) return out('R08', 'The sides of the crack are friable: resin does not hold on them.')
  if (question.whereJointBelongs === true && movement !== 'dormant')
    return out('R08', 'A joint belongs here: filled, it cracks again beside the filler.')
  if (movement === 'not known')
    return first('R08', 'Rigid filling needs a crack that is shown to be still.', gaugeTest)
  if (width === null)
    return first('R08', 'The width is not measured.', 'Width at five places or more with a crack gauge.')
  if (width < crackWidths.resinReachMm)
    return out('R08', `${width} mm wide: below ${crackWidths.resinReachMm} mm resin does not get in.`)
  if (width > crackWidths.widestFilledMm)
    return out('R08', `${width} mm wide: beyond ${crackWidths.widestFilledMm} mm it is cut out, not filled.`)
  if (moisture === 'wet') return out('R08', 'The screed is damper than the resin bears.')
  const step = extent.stepMm ?? null
  if (step !== null && step > crackWidths.stepMm)
    return fits('R08', `Still, ${width} mm wide, step of ${step} mm: grind or level it and tie across.`)
  return fits('R08', `Still, ${width} mm wide, sides firm.`)
}

function consolidate(asked: Asked): Judgement {
  const { question, weak, hollow, fullDepth } = asked
  const { extent, symptoms, soundnessCategory, moisture, surfaceSealed, trialPassed } = question
  const depth = extent.weakToMm ?? null
  if (!weak) return out(null, 'The screed is not weak.')
  if (symptoms.includes('S03')) return out('R06', 'A hard top keeps the resin from the weak part below.')
  if (hollow) return out('R06', 'Resin in the surface does not bind a hollow screed to its base.')
  if (soundnessCategory === 'A')
    return out('R06', 'Category A asks for more than consolidated screed carries.')
  if (depth === null) return first(null, 'How deep it is weak decides.', depthTest)
  if (fullDepth) return out('R04', 'Weak through its full depth: no resin reaches the bottom.')
  if (depth > depths.repeatedFlooding)
    return out(
      'R06',
      `Weak down to ${depth} mm; repeated flooding has been seen to reach ${depths.repeatedFlooding} mm.`,
    )
  if (question.causes[0]?.id === 'FROST' && (question.causes[0].probability ?? 0) >= 0.75)
    return out('R06', 'Frost splits screed into layers that resin does not join.')
  if (surfaceSealed === true)
    return out('R06', 'A sealer or curing compound keeps the resin out; grind it off first, then ask again.')
  if (moisture === 'wet') return out('R06', 'Wet pores do not take resin; dry it first.')
  if (trialPassed === false) return out('R06', 'The trial failed.')
  if (moisture === 'not known')
    return first('R06', 'Whether the pores are dry is not known.', 'Moisture reading by a valid method.')
  if (trialPassed !== true)
    return first('R06', 'Only a trial shows how deep the resin goes in this screed.', trialTest)
  const deep = depth > depths.consolidant ? ', by repeated flooding' : ''
  return fits('R06', `Weak down to ${depth} mm and the trial reached it${deep}.`)
}

function patch(asked: Asked): Judgement {
  const { question, weak, crack, hollow, sinking, fullDepth, percentOfBay } = asked
  const { extent } = question
  const depth = extent.weakToMm ?? null
  const broken = sinking || symptomBroken(asked)
  if (weak && depth === null) return first(null, 'How deep it is weak decides.', depthTest)
  const needed = fullDepth || broken || hollow || (weak && depth! > depths.skin)
  if (!needed) {
    if (crack) return out('R05', 'The body is sound; a crack alone is no reason to cut out.')
    return out('R05', 'The body is sound below the surface.')
  }
  const area = hollow ? (extent.hollowM2 ?? extent.areaM2 ?? null) : (extent.areaM2 ?? null)
  if (area === null)
    return first(
      'R05',
      'How much of the bay is affected is not measured.',
      'Mark the boundary by tapping, scratch or drop weight, and measure it.',
    )
  const percent = hollow ? Math.min(100, (100 * area) / extent.bayAreaM2) : percentOfBay!
  if (percent > shares.patchMost && extent.boundaryProven !== true)
    return out(
      'R04',
      `${Math.round(percent)} % of the bay is affected; beyond ${shares.patchMost} % a patch needs a ring of tests that shows sound screed around it.`,
    )
  if ((extent.patches ?? 1) > 5)
    return out('R05', `${extent.patches} patches in one bay; above five the whole bay is replaced.`)
  if (question.heated && question.pipesLocated !== true)
    return question.pipesLocated === false
      ? out('R05', 'The pipes cannot be located, so nobody may cut here.')
      : first(
          'R05',
          'Heated: the pipes must be located before anything is cut.',
          'Thermal image while heating up, or a pipe locator.',
        )
  if (extent.boundaryProven === false)
    return out('R05', 'The screed around it is not sound either: the boundary is not found.')
  if (extent.boundaryProven !== true)
    return first(
      'R05',
      'Where it becomes sound is not shown.',
      'A ring of drop-weight or scratch tests around it.',
    )
  return fits(
    fullDepth ? 'R05' : hollow ? 'R09' : 'R06',
    `${area} m² (${Math.round(percent)} % of the bay), sound around it.`,
  )
}

function symptomBroken({ question }: Asked): boolean {
  return question.symptoms.some((code) => code === 'S12' || code === 'S16')
}

function replace(asked: Asked): Judgement {
  const { question, weak, hollow, fullDepth, percentOfBay } = asked
  const { extent } = question
  const depth = extent.weakToMm ?? null
  if (weak && depth === null) return first(null, 'How deep it is weak decides.', depthTest)
  if (hollow) {
    const area = extent.hollowM2 ?? extent.areaM2 ?? null
    if (area === null)
      return first('R09', 'How much is hollow is not measured.', 'Tap it out and mark it on the plan.')
    const percent = Math.min(100, (100 * area) / extent.bayAreaM2)
    return percent > shares.patchMost
      ? fits('R04', `The bond has failed over ${Math.round(percent)} % of the bay.`)
      : out('R04', `The bond has failed over ${Math.round(percent)} % of the bay only.`)
  }
  if (fullDepth) {
    if (percentOfBay === null)
      return first(
        'R04',
        'How much of the bay is affected is not measured.',
        'Drop weight or scratch on a grid over the bay.',
      )
    return percentOfBay > shares.patchMost
      ? fits('R04', `Weak through its full depth over ${Math.round(percentOfBay)} % of the bay.`)
      : out('R05', `Only ${Math.round(percentOfBay)} % of the bay is weak through: a patch will do.`)
  }
  if ((extent.patches ?? 0) > 5) return fits('R05', `${extent.patches} patches would be needed.`)
  if (question.trialPassed === false && weak && (percentOfBay ?? 0) > shares.patchMost)
    return fits(
      'R06',
      `The trial of consolidation failed, and ${Math.round(percentOfBay!)} % of the bay is affected.`,
    )
  return out('R04', 'The body is not weak through its full depth.')
}

function turnIntoJoint({ question, crack }: Asked): Judgement {
  const { movement, straight, whereJointBelongs } = question
  if (!crack) return out(null, 'There is no crack.')
  if (movement === 'dormant')
    return whereJointBelongs === true
      ? fits('R08', 'Still now, but a joint belongs here.')
      : out('R08', 'The crack is still and no joint belongs here.')
  if (movement === 'not known' && whereJointBelongs !== true)
    return first('R08', 'Only a crack that moves, or one where a joint belongs, becomes a joint.', gaugeTest)
  const wandering =
    straight === false
      ? ' It wanders more than 20 mm from a line: saw a line beside it and fill the old crack.'
      : ''
  return fits(
    'R08',
    `${movement === 'live' ? 'It moves' : 'A joint belongs here'}${movement === 'live' && whereJointBelongs === true ? ', and a joint belongs here' : ''}.${wandering}`,
  )
}
