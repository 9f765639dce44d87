import { describe, expect, test } from 'vitest'
import { summarise } from '#scripts/twin.ts'
import { scoreMix } from '#scripts/twin-mix.ts'

/**
 * A small sample of what `node scripts/twin-mix.ts` scores on many made-up mixes whose truth follows other physics;
 * docs/model.md has the large numbers. Here it only guards against lessons that mislead or boast.
 */
const mixes = [1, 2, 3, 4, 5, 6].flatMap((seed) => scoreMix(seed, true, [0, 3]))
const [alone, taught] = [0, 3].map((teachers) =>
  summarise(
    mixes.filter((one) => one.teachers === teachers).map(({ score }) => score),
    [0, 1],
  ),
)

describe('DRY-18: bays of mixes that follow other physics, taught by three others', () => {
  test('before any reading of its own the middle date is nearer, the range narrower and the score a tenth better', () => {
    expect(taught!.rows[0]!.mae).toBeLessThan(alone!.rows[0]!.mae)
    expect(taught!.rows[0]!.crps).toBeLessThan(0.9 * alone!.rows[0]!.crps)
    expect(taught!.rows[0]!.width).toBeLessThan(alone!.rows[0]!.width)
  })
  test('with one reading of its own it is no worse', () => {
    expect(taught!.rows[1]!.crps).toBeLessThan(alone!.rows[1]!.crps)
  })
  test('the 80 % range still holds more than half of twelve truths', () => {
    for (const { coverage } of taught!.rows) expect(coverage).toBeGreaterThan(0.5)
  })
  test('a mix scored twice is the same mix', () => {
    expect(scoreMix(2, true, [0])).toEqual(mixes.filter((_, i) => i === 4 || i === 6))
  })
})
