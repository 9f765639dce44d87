import { thinBelowPercent } from '../diagnose.ts'
import { structuralSigns } from '../words.ts'
import { type Asked, askedOf, shares } from './ask.ts'
import type { RepairDecision, RepairQuestion } from './shapes.ts'

/**
 * Returns what decides before any repair is chosen, the first rule that applies: structural doubt stops it (R01), an unnamed
 * cause or a thin record asks for tests (R02), a leak is stopped first (R03); then the rule that leads the choice (R04 to R10).
 *
 * @throws InputError naming the field.
 * @provenance our judgement after common practice
 */
export function repairDecision(question: RepairQuestion): RepairDecision {
  return decide(askedOf(question))
}

export function decide(asked: Asked): RepairDecision {
  const { question } = asked
  const sign = question.structuralSigns ?? null
  if (sign !== null && sign !== 'none') {
    return {
      rule: 'R01',
      outcome: 'stop: engineer',
      because: `${structuralSigns[sign]}: the structure may move, and this record does not judge structure.`,
      next: 'Keep loads off and have a structural engineer look before anything is repaired.',
    }
  }
  const thin = question.recordStrengthPercent === null || question.recordStrengthPercent < thinBelowPercent
  if (question.causeNamed === null) {
    return {
      rule: 'R02',
      outcome: 'tests first',
      because: thin
        ? `The cause is not named, and the record is too thin to name one (below ${thinBelowPercent} % examined).`
        : 'The cause is not named: a repair without it may be the second of three.',
      next: 'Make the tests that the diagnosis asks for, then name the cause, or “not known, treated as …” with the reason.',
    }
  }
  if (thin && question.causeNamed !== 'unknown') {
    return {
      rule: 'R02',
      outcome: 'tests first',
      because: `A cause is named, but less than ${thinBelowPercent} % of what could tell was examined.`,
      next: 'Make the tests that the diagnosis asks for, or name the cause as “not known, treated as …” with the reason.',
    }
  }
  if (question.leakActive === true || (asked.damp && question.leakActive !== false)) {
    return {
      rule: 'R03',
      outcome: 'stop the source',
      because:
        question.leakActive === true
          ? 'Water still gets in.'
          : 'Bloom or damp, and nobody has shown that no water gets in any more.',
      next: 'Stop the source, dry, read the moisture again, then diagnose again.',
    }
  }
  return { outcome: 'choose', next: null, ...leading(asked) }
}

/** The rule that leads the choice, in words. */
function leading(asked: Asked): Pick<RepairDecision, 'rule' | 'because'> {
  const { question, weak, crack, hollow, curl, fullDepth, percentOfBay } = asked
  const depth = question.extent.weakToMm ?? null
  if (weak && depth === null)
    return {
      rule: null,
      because: 'The depth of weakness is not known, and until it is no repair is offered.',
    }
  if (weak && fullDepth) {
    if (percentOfBay === null)
      return {
        rule: 'R04',
        because: 'Weak through its full depth; over which part of the bay is not measured.',
      }
    return percentOfBay > shares.patchMost
      ? { rule: 'R04', because: `Weak through its full depth over ${Math.round(percentOfBay)} % of the bay.` }
      : {
          rule: 'R05',
          because: `Weak through its full depth over ${Math.round(percentOfBay)} % of the bay only.`,
        }
  }
  if (weak && depth! > 3) return { rule: 'R06', because: `Weak down to ${depth} mm: too deep to grind off.` }
  if (weak) return { rule: 'R07', because: `A weak skin of ${depth} mm on sound screed.` }
  if (crack) return { rule: 'R08', because: 'A crack: whether it moves decides, then its width.' }
  if (hollow) return { rule: 'R09', because: 'Hollow: how much and whether it rocks decides.' }
  if (curl) return { rule: 'R10', because: 'Curled edges move until drying has ended.' }
  return { rule: null, because: 'No single rule leads; each option says for itself.' }
}
