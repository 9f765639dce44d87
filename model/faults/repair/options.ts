import { causeStillThereFactor, illustrativeRates, residualFillLivePercent } from '../rates.ts'
import { type RepairOptionId, repairOptionIds, repairOptionWords } from '../words.ts'
import { type Asked, askedOf } from './ask.ts'
import { cautionsFor, retestsFor } from './care.ts'
import { decide } from './decide.ts'
import { type Judgement, judgements } from './judgements.ts'
import type { RepairOption, RepairQuestion, RepairRates } from './shapes.ts'
import { replacementCost, workOf } from './work.ts'

/**
 * Returns every way of repair, best first: whether it fits, with the rule and the reason in words; what it takes, costs and
 * loses in days; what has to be tested again; and what to take care of.
 *
 * The rules come in order: structural doubt stops all (R01), an unnamed cause asks for tests (R02), a leak is stopped first
 * (R03), weak screed gets no repair until its depth is known. A missing depth or movement is "measure first" with the test, never
 * a guess. Options that fit are ranked by works, delay and what a recurrence would cost.
 *
 * @param question see `repairQuestionFromStory` for one made from the record.
 * @throws InputError naming the field.
 * @accuracy costs are no better than the rates; those built in are invented for demonstration. Days of drying are a rule of
 * thumb for planning and never release a bay.
 * @provenance our judgement after common practice
 */
export function repairOptions(question: RepairQuestion): RepairOption[] {
  const asked = askedOf(question)
  const rates = question.rates ?? illustrativeRates
  const options = repairOptionIds.map((option) => optionOf(option, asked, rates))
  const rank = { allowed: 0, 'measure first': 1, excluded: 2 } as const
  return options.sort((a, b) => rank[a.verdict] - rank[b.verdict] || middle(a) - middle(b))
}

function optionOf(option: RepairOptionId, asked: Asked, rates: RepairRates): RepairOption {
  const judged = judge(option, asked)
  const { quantities, cost, daysLost } = workOf(option, asked, rates)
  const { percent, how } = residualOf(option, asked, rates)
  return {
    option,
    words: repairOptionWords[option],
    verdict: judged.verdict,
    feasible: judged.verdict === 'allowed',
    rule: judged.rule,
    because: judged.because,
    ...(judged.verdict === 'excluded' ? { excludedBecause: judged.because } : {}),
    measure: judged.measure,
    heldBy: judged.heldBy,
    quantities,
    cost,
    daysLost,
    residualPercent: percent,
    residualHow: how,
    wholeLife: wholeLifeOf(asked, rates, cost, daysLost, percent),
    retest: retestsFor(option),
    cautions: cautionsFor(option, asked),
  }
}

/** What the option says for itself, and the rule that holds all of them back while it applies. */
function judge(option: RepairOptionId, asked: Asked): Judgement & Pick<RepairOption, 'heldBy'> {
  const { outcome, rule, next } = decide(asked)
  const own = judgeAlone(option, asked)
  if (outcome === 'choose') return { ...own, heldBy: null }
  if (outcome === 'tests first' && own.verdict !== 'excluded')
    return { ...own, verdict: 'measure first', measure: own.measure ?? next, heldBy: rule }
  return { ...own, verdict: 'excluded', measure: null, heldBy: rule }
}

function judgeAlone(option: RepairOptionId, asked: Asked): Judgement {
  const judged = judgements[option](asked)
  const depth = asked.question.extent.weakToMm ?? null
  if (judged.verdict === 'allowed' && asked.weak && depth === null) {
    return {
      verdict: 'measure first',
      rule: null,
      because: 'The depth of weakness is not known, and until it is no repair is offered.',
      measure: 'Grind a 200 mm patch in 1 mm steps, or take a core, and note where it is sound.',
    }
  }
  return judged
}

function residualOf(option: RepairOptionId, { question }: Asked, rates: RepairRates) {
  const filledLive = option === 'fill' && question.movement === 'live'
  const base = filledLive
    ? Math.max(residualFillLivePercent, rates.residualPercent.fill)
    : rates.residualPercent[option]
  const stays = question.causeRemoved !== true
  const percent = Math.min(100, base * (stays ? causeStillThereFactor : 1))
  const why =
    question.causeRemoved === false ? 'its cause is still there' : 'nobody has said that its cause is gone'
  return {
    percent,
    how: stays ? `${base} %, three times over because ${why}.` : `${base} %; its cause is gone.`,
  }
}

function wholeLifeOf(
  asked: Asked,
  rates: RepairRates,
  cost: RepairOption['cost'],
  daysLost: RepairOption['daysLost'],
  residualPercent: number,
): RepairOption['wholeLife'] {
  if (cost === null || daysLost === null) return null
  const daysLeft = asked.question.programme?.daysLeft ?? null
  const spare = daysLeft ?? 0
  const perDay = rates.delayPerDay ?? 0
  const late = (lost: number) => Math.max(0, lost - spare) * perDay
  const again =
    rates.recurrenceCost === null
      ? replacementCost(asked, rates)
      : { low: rates.recurrenceCost, high: rates.recurrenceCost }
  const chance = residualPercent / 100
  return {
    low: Math.round(cost.low + late(daysLost.p50) + chance * again.low),
    high: Math.round(cost.high + late(daysLost.p90) + chance * again.high),
    how: [
      'Works',
      rates.delayPerDay === null
        ? 'delay not priced, because nobody set a day rate'
        : `delay ${daysLeft === null ? 'of every day lost, because nobody said how many the programme has left,' : `beyond ${spare} spare days`} at ${perDay} a day`,
      `${residualPercent} % of ${rates.recurrenceCost === null ? 'what the whole bay would cost anew' : 'what a recurrence costs'}`,
    ].join(' + '),
  }
}

function middle({ wholeLife }: RepairOption): number {
  return wholeLife === null ? Number.MAX_VALUE : (wholeLife.low + wholeLife.high) / 2
}
