import type { RuleId } from './common/index.ts'
import type { Limit } from './limit.ts'
import type { Covering, MoistureScale, Screed } from './words.ts'

export type RuleSetId = 'british' | 'german' | 'swiss' | 'american'
export type MoistureRuleId = `moisture.${string}`
export type AnyRuleId = RuleId | MoistureRuleId

/** A moisture limit and what it is for. Where two rows fit, the later one in the list is the more particular and holds. */
export interface MoistureRule {
  id: MoistureRuleId
  question: string
  scale: MoistureScale
  coverings: readonly Covering[]
  screeds: readonly Screed[]
  heated: readonly boolean[]
  limit: Limit
}

/** Two sources disagree, or the contract decides: both stand, and the project says which one it works to. */
export interface Choice {
  id: string
  question: string
  options: readonly ChoiceOption[]
  default: string
}

export interface ChoiceOption {
  id: string
  label: string
  limits: Partial<Record<AnyRuleId, Limit>>
}

export interface RuleSet {
  id: RuleSetId
  name: string
  /** Stored with every verdict, so that a later edition cannot rewrite an old one. */
  version: string
  /** Where this set differs from the common answers. */
  limits: Partial<Record<RuleId, Limit>>
  moisture: readonly MoistureRule[]
  choices: readonly Choice[]
}

export const resilient = [
  'resilient',
  'vinyl',
  'linoleum',
  'rubber',
  'cork',
] as const satisfies readonly Covering[]
export const timber = ['timber bonded', 'timber floating'] as const satisfies readonly Covering[]
export const tiles = ['ceramic tile', 'natural stone'] as const satisfies readonly Covering[]
export const allCoverings = [
  ...resilient,
  'textile',
  ...timber,
  ...tiles,
  'resin',
] as const satisfies readonly Covering[]
export const anyScreed = [
  'cement-sand',
  'calcium sulfate',
  'fast drying',
] as const satisfies readonly Screed[]
export const cement = ['cement-sand'] as const satisfies readonly Screed[]
export const calciumSulfate = ['calcium sulfate'] as const satisfies readonly Screed[]
export const heatedOrNot = [false, true] as const
export const heatedOnly = [true] as const
export const unheatedOnly = [false] as const
