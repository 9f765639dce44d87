import type { Limit } from './limit.ts'

export type RuleGroup =
  | 'Thickness'
  | 'Mix'
  | 'Frost'
  | 'Evaporation'
  | 'Curing'
  | 'Traffic'
  | 'Heating'
  | 'Drying'
  | 'Climate for the covering'
  | 'Moisture limits'
  | 'Moisture tests'
  | 'Soundness'
  | 'Flatness and level'
  | 'Bays and joints'
  | 'The record'

/** A question that every job must answer with a number, and the answer that stands until a rule set changes it. */
export interface Rule {
  question: string
  group: RuleGroup
  /** What a project may set instead. */
  range: readonly [least: number, most: number]
  limit: Limit
}

/** Declares the rules of one group. Each line is the question, the answer and the range that a project may choose from. */
export function rulesOf<const Id extends string>(
  group: RuleGroup,
  lines: Record<Id, readonly [question: string, limit: Limit, range: readonly [number, number]]>,
): Record<Id, Rule> {
  const entries = Object.entries<readonly [string, Limit, readonly [number, number]]>(lines)
  return Object.fromEntries(
    entries.map(([id, [question, limit, range]]) => [id, { question, group, range, limit }]),
  ) as Record<Id, Rule>
}
