import type { RuleSet, RuleSetId } from '../rule-set.ts'
import { american } from './american.ts'
import { british } from './british.ts'
import { german } from './german.ts'
import { swiss } from './swiss.ts'

export const ruleSets: Readonly<Record<RuleSetId, RuleSet>> = { british, german, swiss, american }
