import { curing } from './families/curing.ts'
import { dryingOut } from './families/drying-out.ts'
import { frost } from './families/frost.ts'
import { traffic } from './families/traffic.ts'
import type { AlertRule } from './rule.ts'

/** Every alert the watch knows, family by family. */
export const catalogue: readonly AlertRule[] = [...frost, ...dryingOut, ...curing, ...traffic]
