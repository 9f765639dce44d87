import type { Condition, ReadyVerdict } from './verdict.ts'

/**
 * Returns READY only when every condition is met; NOT READY when one is not met; otherwise NOT PROVEN.
 * No conditions prove nothing.
 */
export function verdictOf(conditions: readonly Pick<Condition, 'state'>[]): ReadyVerdict {
  if (conditions.some(({ state }) => state === 'not met')) return 'not ready'
  return conditions.length > 0 && conditions.every(({ state }) => state === 'met') ? 'ready' : 'not proven'
}
