import { proportionsOf } from '#model/mix/index.ts'
import { keepsLimit, type RuleId } from '#model/rules/index.ts'
import type { Evidence, Severity } from '../alert.ts'
import type { Batch } from '../facts/batches.ts'
import type { BayFacts } from '../facts/index.ts'
import { rounded } from '../facts/time.ts'
import { type AlertRule, type Raised, shows, worse } from '../rule.ts'
import { batchAge } from './batch-age.ts'

/** The wettest sand one still shovels; with a moisture nobody measured the mix lies between dry sand and this. */
const wettestSandPercent = 10

/** What a batch was found to be, and which limit it broke. */
interface Grade {
  severity: Severity
  limit: RuleId
  evidence: Evidence[]
}

/** Batches in a row with the same fault are one alert: the mixer went wrong once, not eleven times. */
function inRuns(
  batches: readonly Batch[],
  gradeOf: (batch: Batch) => Grade | null,
  whatToDo: string,
  escalate: (run: readonly (Grade & { batch: Batch })[]) => Severity | null = () => null,
): Raised[] {
  const runs: (Grade & { batch: Batch })[][] = []
  let run: (Grade & { batch: Batch })[] | null = null
  for (const batch of batches) {
    const grade = gradeOf(batch)
    if (grade === null) {
      run = null
      continue
    }
    if (run === null) {
      run = []
      runs.push(run)
    }
    run.push({ ...grade, batch })
  }
  return runs.map((found) => {
    const gravest = found.map(({ severity }) => severity).reduce(worse)
    const severity = escalate(found) ?? gravest
    return {
      severity,
      limit: (found.find((each) => each.severity === gravest) ?? found[0])!.limit,
      since: found[0]!.batch.mixedAt,
      gradedAt: found.at(-1)!.batch.mixedAt,
      until: null,
      evidence: found.flatMap(({ evidence }) => evidence),
      whatToDo,
    }
  })
}

/** The range in which a proportion lies: one number when the sand moisture is known. */
function proportionRange({ entry: { body } }: Batch) {
  const at = (sandMoisturePercent: number) =>
    proportionsOf({
      cementKg: body.cementKg,
      dampSandKg: body.dampSandKg,
      sandMoisturePercent,
      addedWaterKg: body.addedWaterKg,
      admixtureWaterKg: body.admixtureWaterKg,
    })
  const [dry, wet] =
    body.sandMoisturePercent === undefined
      ? [at(0), at(wettestSandPercent)]
      : [at(body.sandMoisturePercent), at(body.sandMoisturePercent)]
  return {
    known: body.sandMoisturePercent !== undefined,
    sandPerCement: { least: wet.sandPerCement, most: dry.sandPerCement },
    waterCement: { least: dry.waterCement, most: wet.waterCement },
  }
}

type Band = readonly [severity: Severity, tooLow: RuleId, tooHigh: RuleId]

/** The gravest band that the whole range breaks; a range that only touches a limit proves nothing. */
function bandOf(
  range: { least: number; most: number },
  bands: readonly Band[],
  { rules }: BayFacts,
): readonly [Severity, RuleId] | null {
  for (const [severity, tooLow, tooHigh] of bands) {
    if (!keepsLimit(range.most, rules.limits[tooLow])) return [severity, tooLow]
    if (!keepsLimit(range.least, rules.limits[tooHigh])) return [severity, tooHigh]
  }
  return null
}

function proportionEvidence(
  batch: Batch,
  what: string,
  range: { least: number; most: number },
  known: boolean,
) {
  const { entry, number, mixedAt } = batch
  const value = known ? range.least : `${rounded(range.least, 2)} to ${rounded(range.most, 2)}`
  const place = entry.body.areaNote === undefined ? '' : `, ${entry.body.areaNote}`
  return [
    shows(entry.id, `Batch ${number}${place}: ${what}`, value, 'kg/kg', mixedAt),
    ...(known ? [] : [shows(entry.id, `Batch ${number}: sand moisture`, 'not measured', '', mixedAt)]),
  ]
}

/** Only a cement-sand screed is gauged by these proportions; others follow their maker. */
const gauged = ({ story }: BayFacts) => story.bay.body.screed === 'cement-sand'

const ratio: AlertRule = {
  id: 'A10',
  family: 'mixing',
  title: 'Mix ratio off',
  limits: [
    'mix.sandPerCementMost',
    'mix.sandPerCementLeast',
    'mix.sandPerCementActMost',
    'mix.sandPerCementActLeast',
  ],
  raise: (facts) => {
    if (!gauged(facts)) return []
    const lean = ({ limit }: Grade) => limit === 'mix.sandPerCementActMost'
    return inRuns(
      facts.batches,
      (batch) => {
        const { known, sandPerCement } = proportionRange(batch)
        const band = bandOf(
          sandPerCement,
          [
            ['act', 'mix.sandPerCementActLeast', 'mix.sandPerCementActMost'],
            ['watch', 'mix.sandPerCementLeast', 'mix.sandPerCementMost'],
          ],
          facts,
        )
        if (band === null) return null
        const [severity, limit] = band
        return {
          severity,
          limit,
          evidence: proportionEvidence(batch, 'sand per cement', sandPerCement, known),
        }
      },
      'Gauge the mix again and mark the area on the plan for testing.',
      (run) =>
        run.some((each, i) => lean(each) && run[i + 1] !== undefined && lean(run[i + 1]!)) ? 'stop' : null,
    )
  },
}

const squeezeWords = { crumbles: 'crumbles', wet: 'wet', holds: 'holds' } as const

const water: AlertRule = {
  id: 'A11',
  family: 'mixing',
  title: 'Too much or too little water',
  limits: [
    'mix.waterCementMost',
    'mix.waterCementLeast',
    'mix.waterCementActMost',
    'mix.waterCementActLeast',
  ],
  raise: (facts) => {
    if (!gauged(facts)) return []
    return inRuns(
      facts.batches,
      (batch) => {
        const { known, waterCement } = proportionRange(batch)
        const band = bandOf(
          waterCement,
          [
            ['act', 'mix.waterCementActLeast', 'mix.waterCementActMost'],
            ['watch', 'mix.waterCementLeast', 'mix.waterCementMost'],
          ],
          facts,
        )
        const { squeeze } = batch.entry.body
        const squeezedWrong = squeeze !== undefined && squeeze !== 'holds'
        if (band === null && !squeezedWrong) return null
        const fallback = squeeze === 'crumbles' ? 'mix.waterCementLeast' : 'mix.waterCementMost'
        return {
          severity: band?.[0] ?? 'watch',
          limit: band?.[1] ?? fallback,
          evidence: [
            ...proportionEvidence(batch, 'water per cement', waterCement, known),
            ...(squeezedWrong
              ? [
                  shows(
                    batch.entry.id,
                    `Batch ${batch.number}: squeeze test`,
                    squeezeWords[squeeze],
                    '',
                    batch.mixedAt,
                  ),
                ]
              : []),
          ],
        }
      },
      'Correct the water and mark the area on the plan.',
    )
  },
}

const mixer: AlertRule = {
  id: 'A12',
  family: 'mixing',
  title: 'Wrong mixer or mixed too short',
  limits: ['mix.mixingMinutes'],
  source: 'BS 8204-1: forced-action mixer, not a free-fall drum (quoted second-hand)',
  raise: (facts) =>
    inRuns(
      facts.batches,
      (batch) => {
        const { mixer: kind, mixingMinutes } = batch.entry.body
        const short =
          mixingMinutes !== undefined && !keepsLimit(mixingMinutes, facts.rules.limits['mix.mixingMinutes'])
        const severity = kind === 'free fall' ? 'stop' : kind === 'hand' || short ? 'act' : null
        if (severity === null) return null
        return {
          severity,
          limit: 'mix.mixingMinutes',
          evidence: [
            shows(batch.entry.id, `Batch ${batch.number}: mixer`, kind, '', batch.mixedAt),
            ...(mixingMinutes === undefined
              ? []
              : [
                  shows(
                    batch.entry.id,
                    `Batch ${batch.number}: mixed for`,
                    mixingMinutes,
                    'min',
                    batch.mixedAt,
                  ),
                ]),
          ],
        }
      },
      'Change to a forced-action mixer and mix long enough.',
    ),
}

export const mixing: readonly AlertRule[] = [ratio, water, mixer, batchAge]
