import { holdRules } from '#model/hold/index.ts'
import { kinds } from '#model/record/kinds.ts'
import { type HoldPoint, holdPoints, type Role, roles } from '#model/record/people.ts'
import type { Act } from './acts.ts'
import { callRule, kindRule, may, rolesFor } from './may.ts'

const doing: Record<Act, string> = {
  'write first': 'write down',
  'correct own': 'correct',
  'correct another’s': 'correct what another wrote under',
  'withdraw own': 'withdraw',
  'withdraw another’s': 'withdraw what another wrote under',
}

/** A fact that somebody wants to write, correct or withdraw. */
export interface Wanted {
  /** Of the fact; a withdrawal has the kind of what it withdraws. */
  kind: string
  act: Act
  body: Record<string, unknown>
}

/**
 * Returns why nobody in these roles may do this, as a sentence that says who may; null when they may.
 * @param inForce what `rolesInForce` returned for the person
 */
export function roleProblem({ kind, act, body }: Wanted, inForce: readonly Role[]): string | null {
  if (!may(inForce, kind, act)) {
    const asked = rolesFor(kind, act)
    const title = titleOf(kind)
    if (kindRule(kind) === null) return `Nobody may write “${title}”: the table of roles does not know it.`
    if (asked.length === 0) return `Nobody may ${doing[act]} “${title}”.`
    return `${named(inForce)} may not ${doing[act]} “${title}”. ${mayDo(asked)}`
  }
  const letsGo = kind === 'hold-point-released' && act !== 'withdraw own' && act !== 'withdraw another’s'
  if (!letsGo || body.decision === 'held') return null
  const point = body.point as HoldPoint
  if (!Object.hasOwn(holdPoints, point)) return null
  const { mayRelease } = holdRules[point]
  if (mayRelease.some((role) => inForce.includes(role))) return null
  return `${named(inForce)} may not let the hold point “${holdPoints[point]}” go. ${mayDo(mayRelease)}`
}

/**
 * Returns why nobody in these roles may make a call in their name, as a sentence that says who may; null when they may.
 * @param call such as `bundles.takeIn`; one that the table does not give to roles is refused
 */
export function callProblem(call: string, inForce: readonly Role[]): string | null {
  const rule = callRule(call)
  if (rule?.changes !== 'the record')
    return `Nobody may call ${call} by name: the table of roles does not know it.`
  if (rule.by.some((role) => inForce.includes(role))) return null
  return `${named(inForce)} may not ${rule.doing}. ${mayDo(rule.by)}`
}

function titleOf(kind: string): string {
  return Object.hasOwn(kinds, kind) ? kinds[kind as keyof typeof kinds].title : kind
}

function named(inForce: readonly Role[]): string {
  const [role] = inForce
  return role === undefined ? 'Somebody who is not of this project' : `A ${roles[role].toLowerCase()}`
}

function mayDo(asked: readonly Role[]): string {
  const names = asked.map((role) => roles[role].toLowerCase())
  const list = names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`
  return `Let a ${list} do it.`
}
