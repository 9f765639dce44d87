import { requireNumber } from '../../errors.ts'

/** What one bay's readings say of ln(diffusivity factor), as its own posterior under the material's prior. */
export interface BayLesson {
  bay: string
  /** As a reader knows it. */
  name: string
  lnKappaMean: number
  lnKappaSd: number
  /** Valid readings behind it. */
  readings: number
}

/** A bay that taught something, and how much of the pooled middle comes from it. */
export interface Teacher {
  bay: string
  name: string
  readings: number
  /** Diffusivity factor that the bay's readings alone point at, the material's prior taken out. */
  factor: number
  /** One standard deviation of its logarithm. */
  lnSd: number
  /** Share of the pooled middle, 0 to 1. The rest is the material's own. */
  share: number
}

/** What is believed of ln(diffusivity factor) of a bay before its own readings are looked at. */
export interface FactorPrior {
  lnKappaMean: number
  lnKappaSd: number
}

export interface PooledPrior extends FactorPrior {
  /** Most likely difference between bays of the mix, as one standard deviation in ln. */
  spread: number
  teachers: Teacher[]
  /** Share of the pooled middle that is the material's own. */
  materialShare: number
}

/** Fewer bays than this teach nothing of how bays of the mix differ from each other; see docs/model.md. */
export const LEAST_TEACHERS = 3
/** Never surer than this: bays of one mix share the model's errors, which no number of bays averages out. */
export const LEAST_LN_SD = 0.2
/** A lesson that narrows the material's own variance by less than this has taught nothing. */
const LEAST_NARROWING = 0.1
const SPREAD_NODES = 40

/** A lesson without the prior it was learned under, so that the prior is not counted once for each bay. */
interface Likelihood {
  mean: number
  variance: number
}

/** Returns what a lesson says without the prior N(0, materialSd²); null when it hardly narrows it. */
export function withoutPrior(
  { lnKappaMean, lnKappaSd }: Pick<BayLesson, 'lnKappaMean' | 'lnKappaSd'>,
  materialSd: number,
): Likelihood | null {
  const before = materialSd ** 2
  const after = lnKappaSd ** 2
  if (after > (1 - LEAST_NARROWING) * before) return null
  const variance = 1 / (1 / after - 1 / before)
  return { mean: (variance * lnKappaMean) / after, variance }
}

/** The mean of the mix if bays of it spread by exactly so much. */
export interface MixMean {
  mean: number
  sd: number
  shares: number[]
  logEvidence: number
}

/**
 * Returns mean and standard deviation of the mix's own ln(factor) when the spread between its bays is known.
 * The mix is one of the material's: mean ~ N(0, materialSd² − spread²), so that a bay of an unknown mix spreads by
 * materialSd, whatever the spread within a mix.
 */
export function mixMeanGiven(bays: readonly Likelihood[], spread: number, materialSd: number): MixMean {
  const between = spread * spread
  const own = materialSd ** 2 - between
  let precision = 1 / own
  let weighted = 0
  let logEvidence = -0.5 * Math.log(own)
  for (const { mean, variance } of bays) {
    const trust = 1 / (variance + between)
    precision += trust
    weighted += trust * mean
    logEvidence += 0.5 * Math.log(trust) - 0.5 * trust * mean * mean
  }
  const middle = weighted / precision
  return {
    mean: middle,
    sd: Math.sqrt(1 / precision),
    shares: bays.map(({ variance }) => 1 / (variance + between) / precision),
    logEvidence: logEvidence - 0.5 * Math.log(precision) + 0.5 * weighted * middle,
  }
}

/**
 * Returns what bays of one mix teach about the next bay of it; null while fewer than three have taught anything.
 * A hierarchical normal model: a bay's ln(factor) lies about the mean of its mix by a spread, the mix about the
 * material. The spread is integrated out, every value from 0 to the material's own being as likely before: what the
 * readings of few bays cannot tell stays open, and bays that disagree make it grow. Exact sums on a fixed grid.
 * @param lessons bays of the same mix, in any order; never the bay asked about
 * @param materialSd spread of ln(factor) over all screeds of the material
 * @returns mean and predictive standard deviation for one more bay; never below `LEAST_LN_SD`
 * @errors InputError when materialSd is not between 0.01 and 2
 * @source hierarchical normal model: Gelman, Carlin, Stern and Rubin, Bayesian Data Analysis, ch. 5; a uniform prior of
 * the spread between groups: Gelman 2006, Bayesian Anal. 1:515
 * @accuracy on simulated bays only: see docs/model.md, “What finished bays teach”
 * @provenance from memory
 */
export function poolLessons(lessons: readonly BayLesson[], materialSd: number): PooledPrior | null {
  requireNumber('materialSd', materialSd, 0.01, 2)
  const known = lessons
    .flatMap((lesson) => {
      const likelihood = withoutPrior(lesson, materialSd)
      return likelihood === null ? [] : [{ lesson, likelihood }]
    })
    // One order, so that sums are the same to the last digit whatever order the bays came in.
    .sort((a, b) => (a.lesson.bay < b.lesson.bay ? -1 : 1))
  if (known.length < LEAST_TEACHERS) return null
  const bays = known.map(({ likelihood }) => likelihood)
  const nodes = spreadsUpTo(materialSd).map((spread) => ({
    ...mixMeanGiven(bays, spread, materialSd),
    spread,
  }))
  const top = Math.max(...nodes.map(({ logEvidence }) => logEvidence))
  const total = nodes.reduce((sum, { logEvidence }) => sum + Math.exp(logEvidence - top), 0)
  const over = (of: (node: (typeof nodes)[number]) => number) =>
    nodes.reduce((sum, node) => sum + (Math.exp(node.logEvidence - top) / total) * of(node), 0)
  const mean = over((node) => node.mean)
  const variance = over((node) => node.spread ** 2 + node.sd ** 2 + (node.mean - mean) ** 2)
  const shares = known.map((_, i) => over((node) => node.shares[i]!))
  return {
    lnKappaMean: mean,
    lnKappaSd: Math.max(LEAST_LN_SD, Math.sqrt(variance)),
    spread: Math.sqrt(over((node) => node.spread ** 2)),
    teachers: known.map(({ lesson, likelihood }, i) => ({
      bay: lesson.bay,
      name: lesson.name,
      readings: lesson.readings,
      factor: Math.exp(likelihood.mean),
      lnSd: Math.sqrt(likelihood.variance),
      share: shares[i]!,
    })),
    materialShare: 1 - shares.reduce((sum, share) => sum + share, 0),
  }
}

/** Midpoints from 0 to the material's own spread: bays of one mix do not differ more than screeds of any make. */
function spreadsUpTo(materialSd: number): number[] {
  return Array.from({ length: SPREAD_NODES }, (_, i) => ((i + 0.5) / SPREAD_NODES) * materialSd)
}
