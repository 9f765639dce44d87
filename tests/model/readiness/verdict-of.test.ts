import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readinessOf, verdictOf } from '#model/readiness/index.ts'
import { effectiveRules } from '#model/rules/index.ts'
import { now, readyBay } from './ready-bay.ts'

const states = ['met', 'not met', 'unknown'] as const
type State = (typeof states)[number]

/** Every combination of the three states over so many conditions. */
function combinations(length: number): State[][] {
  if (length === 0) return [[]]
  return combinations(length - 1).flatMap((rest) => states.map((state) => [...rest, state]))
}

describe('VERDICT: the truth table', () => {
  it('VERDICT-1: all 9 840 combinations of one to eight conditions', () => {
    let checked = 0
    for (let length = 1; length <= 8; length++) {
      for (const row of combinations(length)) {
        const expected = row.includes('not met')
          ? 'not ready'
          : row.includes('unknown')
            ? 'not proven'
            : 'ready'
        if (verdictOf(row.map((state) => ({ state }))) !== expected)
          throw new Error(`${row.join(', ')} is not ${expected}`)
        checked++
      }
    }
    expect(checked).toBe(9840)
  })

  it('VERDICT-2: no conditions at all are not ready', () => {
    expect(verdictOf([])).toBe('not proven')
  })

  it('VERDICT-3: turning any condition to unknown never gives ready; the conditions of a real bay', () => {
    const { conditions } = readinessOf(readyBay().build(), 'vinyl', now, effectiveRules('british'))
    expect(verdictOf(conditions)).toBe('ready')
    for (const turned of conditions) {
      const changed = conditions.map((each) =>
        each === turned ? { ...each, state: 'unknown' as const } : each,
      )
      expect(verdictOf(changed), turned.name).toBe('not proven')
    }
  })

  it('VERDICT-4: a worse state of one condition never makes the verdict better', () => {
    const order = { ready: 2, 'not proven': 1, 'not ready': 0 }
    const worse: Record<State, State> = { met: 'unknown', unknown: 'not met', 'not met': 'not met' }
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(...states), { minLength: 1, maxLength: 20 }),
        fc.nat(),
        (row, pick) => {
          const at = pick % row.length
          const before = verdictOf(row.map((state) => ({ state })))
          const after = verdictOf(row.map((state, i) => ({ state: i === at ? worse[state] : state })))
          return order[after] <= order[before]
        },
      ),
    )
  })
})
