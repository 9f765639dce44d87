import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  type BayLesson,
  LEAST_LN_SD,
  LEAST_TEACHERS,
  mixMeanGiven,
  poolLessons,
  withoutPrior,
} from '#model/drying/forecast/pool.ts'

const materialSd = 0.45

/** A lesson as the bay's own posterior: its likelihood N(mean, sd²) seen under the prior N(0, 0.45²). */
function taught(bay: string, mean: number, sd: number): BayLesson {
  const precision = 1 / sd ** 2 + 1 / materialSd ** 2
  return {
    bay,
    name: bay,
    readings: 3,
    lnKappaMean: mean / sd ** 2 / precision,
    lnKappaSd: Math.sqrt(1 / precision),
  }
}
const many = (count: number, mean: number, sd: number) =>
  Array.from({ length: count }, (_, i) => taught(`bay ${String(i).padStart(3, '0')}`, mean, sd))

const bays = fc
  .array(
    fc.tuple(fc.double({ min: -1, max: 1, noNaN: true }), fc.double({ min: 0.1, max: 0.5, noNaN: true })),
    {
      minLength: LEAST_TEACHERS,
      maxLength: 12,
    },
  )
  .map((list) => list.map(([mean, sd], i) => taught(`bay ${i}`, mean, sd)))
const likelihoods = fc.array(
  fc.record({
    mean: fc.double({ min: -1, max: 1, noNaN: true }),
    variance: fc.double({ min: 0.01, max: 0.3, noNaN: true }),
  }),
  { minLength: 1, maxLength: 12 },
)
const spread = fc.double({ min: 0.001, max: 0.44, noNaN: true })

describe('POOL-1: the mean of a mix', () => {
  test('of eight groups with a negligible spread is the textbook’s pooled estimate, 7.7 ± 4.1', () => {
    // Eight schools, Gelman et al., Bayesian Data Analysis, section 5.5 (from memory): effects and standard errors.
    const effects = [28, 8, -3, 7, -1, 1, 18, 12]
    const errors = [15, 10, 16, 11, 9, 11, 10, 18]
    const schools = effects.map((mean, i) => ({ mean, variance: errors[i]! ** 2 }))
    const { mean, sd } = mixMeanGiven(schools, 0.001, 1e4)
    expect(mean).toBeCloseTo(7.7, 1)
    expect(sd).toBeCloseTo(4.1, 1)
  })

  test('is never less sure for one more bay, while the spread is known', () => {
    fc.assert(
      fc.property(likelihoods, spread, (list, known) => {
        const fewer = mixMeanGiven(list.slice(0, -1), known, materialSd)
        expect(mixMeanGiven(list, known, materialSd).sd).toBeLessThan(fewer.sd)
      }),
    )
  })

  test('with the spread about it is the less sure the more bays of a mix differ', () => {
    fc.assert(
      fc.property(likelihoods, spread, spread, (list, a, b) => {
        const predictive = (known: number) => Math.hypot(known, mixMeanGiven(list, known, materialSd).sd)
        const [less, more] = [Math.min(a, b), Math.max(a, b)]
        expect(predictive(more)).toBeGreaterThanOrEqual(predictive(less) - 1e-12)
      }),
    )
  })

  test('without a bay it is the material: whatever the spread, 0 ± 0.45 in all', () => {
    for (const known of [0.01, 0.2, 0.4]) {
      const { mean, sd } = mixMeanGiven([], known, materialSd)
      expect(mean).toBe(0)
      expect(Math.hypot(known, sd)).toBeCloseTo(materialSd, 12)
    }
  })
})

describe('POOL-2: a lesson without the prior that it was learned under', () => {
  test('is what its readings alone say', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1, max: 1, noNaN: true }),
        fc.double({ min: 0.05, max: 1, noNaN: true }),
        (mean, sd) => {
          const alone = withoutPrior(taught('A', mean, sd), materialSd)!
          expect(alone.mean).toBeCloseTo(mean, 9)
          expect(Math.sqrt(alone.variance)).toBeCloseTo(sd, 9)
        },
      ),
    )
  })

  test('is nothing when the readings hardly narrowed it', () => {
    expect(withoutPrior({ lnKappaMean: 0.02, lnKappaSd: 0.44 }, materialSd)).toBeNull()
    expect(withoutPrior({ lnKappaMean: 0, lnKappaSd: 0.5 }, materialSd)).toBeNull()
  })

  test('the prior is not counted once a bay: twenty slow bays are believed, though each alone was pulled to 1', () => {
    const lessons = many(20, Math.log(0.5), 0.4)
    expect(Math.exp(lessons[0]!.lnKappaMean)).toBeGreaterThan(0.65)
    expect(Math.exp(poolLessons(lessons, materialSd)!.lnKappaMean)).toBeLessThan(0.55)
  })
})

describe('POOL-3: what bays of one mix teach', () => {
  test('agrees with a plain sum over mean and spread, made another way', () => {
    const lessons = [
      taught('A', 0.5, 0.2),
      taught('B', -0.1, 0.15),
      taught('C', 0.7, 0.3),
      taught('D', 0.2, 0.25),
    ]
    const truth = [
      [0.5, 0.2],
      [-0.1, 0.15],
      [0.7, 0.3],
      [0.2, 0.25],
    ] as const
    const bell = (x: number, mean: number, variance: number) =>
      Math.exp((-0.5 * (x - mean) ** 2) / variance) / Math.sqrt(variance)
    let [mass, first, second] = [0, 0, 0]
    for (let t = 0.0005; t < materialSd; t += 0.001) {
      for (let mix = -2.5; mix <= 2.5; mix += 0.005) {
        let weight = bell(mix, 0, materialSd ** 2 - t * t)
        for (const [mean, sd] of truth) weight *= bell(mean, mix, sd * sd + t * t)
        mass += weight
        first += weight * mix
        second += weight * (mix * mix + t * t)
      }
    }
    const mean = first / mass
    const pooled = poolLessons(lessons, materialSd)!
    expect(pooled.lnKappaMean).toBeCloseTo(mean, 3)
    expect(pooled.lnKappaSd).toBeGreaterThan(LEAST_LN_SD)
    expect(pooled.lnKappaSd).toBeCloseTo(Math.sqrt(second / mass - mean * mean), 3)
  })

  test('is the same whatever order the bays come in', () => {
    fc.assert(
      fc.property(bays, fc.infiniteStream(fc.nat()), (lessons, keys) => {
        const shuffled = lessons
          .map((lesson) => ({ lesson, key: keys.next().value as number }))
          .sort((a, b) => a.key - b.key)
          .map(({ lesson }) => lesson)
        expect(poolLessons(shuffled, materialSd)).toEqual(poolLessons(lessons, materialSd))
      }),
    )
  })

  test('one bay over and over: nearer to it the more there are, and never surer than the floor', () => {
    const pooled = [3, 6, 12, 100].map((count) => poolLessons(many(count, -0.6, 0.2), materialSd)!)
    for (let i = 1; i < pooled.length; i++) {
      expect(pooled[i]!.lnKappaMean).toBeLessThan(pooled[i - 1]!.lnKappaMean)
      expect(pooled[i]!.lnKappaSd).toBeLessThanOrEqual(pooled[i - 1]!.lnKappaSd)
      expect(pooled[i]!.spread).toBeLessThan(pooled[i - 1]!.spread)
    }
    expect(pooled.at(-1)!.lnKappaMean).toBeCloseTo(-0.6, 1)
    expect(pooled.at(-1)!.lnKappaSd).toBe(LEAST_LN_SD)
  })

  test('one bay that does not fit makes it less sure', () => {
    const alike = many(5, -0.3, 0.12)
    const odd = [...alike, taught('odd', 0.8, 0.12)]
    expect(poolLessons(odd, materialSd)!.lnKappaSd).toBeGreaterThan(
      poolLessons([...alike, taught('fits', -0.3, 0.12)], materialSd)!.lnKappaSd,
    )
    expect(poolLessons(odd, materialSd)!.lnKappaSd).toBeGreaterThan(poolLessons(alike, materialSd)!.lnKappaSd)
    expect(poolLessons(odd, materialSd)!.spread).toBeGreaterThan(2 * poolLessons(alike, materialSd)!.spread)
  })

  test('is never surer than its bays differ, never wider than the material by more than a tenth', () => {
    fc.assert(
      fc.property(bays, (lessons) => {
        const pooled = poolLessons(lessons, materialSd)
        if (pooled === null) return
        expect(pooled.lnKappaSd).toBeGreaterThanOrEqual(Math.max(LEAST_LN_SD, pooled.spread))
        expect(pooled.lnKappaSd).toBeLessThan(1.1 * materialSd)
        const shares = pooled.teachers.reduce((sum, { share }) => sum + share, 0)
        expect(shares + pooled.materialShare).toBeCloseTo(1, 12)
        // The middle is what the shares say of it.
        expect(Math.min(...pooled.teachers.map(({ share }) => share), pooled.materialShare)).toBeGreaterThan(
          0,
        )
      }),
    )
  })

  test('fewer than three bays that taught are nobody, and a bay whose readings say nothing is none of them', () => {
    expect(poolLessons([], materialSd)).toBeNull()
    expect(poolLessons(many(2, -0.5, 0.1), materialSd)).toBeNull()
    expect(poolLessons([...many(2, -0.5, 0.1), taught('mute', 0, 3)], materialSd)).toBeNull()
    expect(poolLessons(many(3, -0.5, 0.1), materialSd)!.teachers).toHaveLength(3)
  })

  test('an impossible spread of the material is refused by name', () => {
    expect(() => poolLessons(many(3, 0, 0.2), 0)).toThrow(/materialSd/)
  })
})
