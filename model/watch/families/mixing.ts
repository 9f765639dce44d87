import { proportionsOf } from '#model/mix/index.ts'
import { keepsLimit, type RuleId } from '#model/rules/index.ts'
import type { Evidence, Severity } from '../alert.ts'
import { type Batch, minutesBetween } from '../facts/batches.ts'
import type { BayFacts } from '../facts/index.ts'
import { minuteMs, rounded } from '../facts/time.ts'
import { type AlertRule, type Raised, shows, worse } from '../rule.ts'

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

const old: AlertRule = {
  id: 'A13',
  family: 'mixing',
  title: 'Batch too old to lay',
  limits: ['mix.workingLifeMinutes', 'mix.workingLifeWatchPercent'],
  source: 'BS 8204-1: no re-tempering (quoted second-hand)',
  raise: (facts) => {
    const watchShare = facts.rules.limits['mix.workingLifeWatchPercent'].value / 100
    const aged = agedMixes(facts).filter(({ age, minutes }) => age > watchShare * minutes)
    const tooOld = ({ age, minutes }: AgedMix) => age > minutes
    const waiting = aged.filter(({ laidAt }) => laidAt === null)
    const laidLate = aged.filter((mix) => mix.laidAt !== null && tooOld(mix))
    const laidJust = aged.filter((mix) => mix.laidAt !== null && !tooOld(mix))
    return [
      ...waiting.map(
        (mix): Raised => ({
          severity: tooOld(mix) ? 'stop' : 'watch',
          since: watchedFrom(mix, facts),
          gradedAt: mix.madeAt + (tooOld(mix) ? 1 : watchShare) * mix.minutes * minuteMs,
          until: null,
          evidence: ageEvidence(mix),
          whatToDo: 'Lay it within its time or discard it. Never wet it again.',
        }),
      ),
      ...together(facts, laidLate, {
        severity: 'stop',
        until: null,
        whatToDo: 'Mark where it lies on the plan and test there. Never wet a batch again.',
      }),
      ...together(facts, laidJust, {
        severity: 'watch',
        until: laidJust.at(-1)?.laidAt ?? null,
        whatToDo: 'It was laid in time, but only just: mix less at once.',
      }),
    ]
  },
}

/** Batches laid with the same fault are one thing to answer. */
function together(
  facts: BayFacts,
  mixes: readonly AgedMix[],
  rest: Pick<Raised, 'severity' | 'until' | 'whatToDo'>,
): Raised[] {
  const first = mixes[0]
  if (first === undefined) return []
  return [
    {
      ...rest,
      since: watchedFrom(first, facts),
      gradedAt: mixes.at(-1)!.laidAt ?? watchedFrom(first, facts),
      evidence: mixes.flatMap(ageEvidence),
    },
  ]
}

/** When a batch came near the end of its time. */
function watchedFrom({ madeAt, minutes }: AgedMix, { rules }: BayFacts): number {
  return madeAt + (rules.limits['mix.workingLifeWatchPercent'].value / 100) * minutes * minuteMs
}

interface AgedMix {
  entry: string
  name: string
  madeAt: number
  /** Null while it waits. */
  laidAt: number | null
  /** When it was laid, or now [min]. */
  age: number
  minutes: number
  because: string
}

/**
 * Batches and loads with their age. Once the bay is finished, one without a laying time was laid at some time that nobody
 * wrote down, and nothing is said of it.
 */
function agedMixes({ batches, loads, asOf, life }: BayFacts): AgedMix[] {
  const finishedAt = life.finish?.happenedAt ?? Number.POSITIVE_INFINITY
  const mixed = batches.map(({ entry, number, mixedAt, laidAt, life: { minutes, because } }) => ({
    entry: entry.id as string,
    name: `Batch ${number}`,
    madeAt: mixedAt,
    laidAt,
    minutes,
    because,
  }))
  const loaded = loads.flatMap(({ entry, batchedAt, life: given }) =>
    given === null
      ? []
      : [
          {
            entry: entry.id as string,
            name: `Ticket ${entry.body.ticket}`,
            madeAt: batchedAt,
            laidAt: null,
            ...given,
          },
        ],
  )
  return [...mixed, ...loaded]
    .filter(({ laidAt }) => laidAt !== null || asOf < finishedAt)
    .map((mix) => ({ ...mix, age: minutesBetween(mix.madeAt, mix.laidAt ?? asOf) }))
}

function ageEvidence({ entry, name, laidAt, age, because }: AgedMix): Evidence[] {
  return [
    shows(entry, `${name}: age ${laidAt === null ? 'now' : 'when laid'}`, age, 'min', laidAt),
    shows(entry, `${name}: working life`, because),
  ]
}

export const mixing: readonly AlertRule[] = [ratio, water, mixer, old]
