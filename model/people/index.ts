export { type Act, actNames, actOf, acts, isOnAnothers } from './acts.ts'
export { type Checking, judgedKinds, type Made, madeFrom, makerProblem } from './maker.ts'
export {
  type CallRule,
  callRule,
  type KindRule,
  kindRule,
  may,
  needsPin,
  rolesFor,
  rolesForCall,
  ruledKinds,
} from './may.ts'
export { type NamedPerson, nameProblem } from './name-problem.ts'
export { pinProblem, pinRules, waitAfter } from './pin.ts'
export { callProblem, roleProblem, type Wanted } from './role-problem.ts'
export { type Company, type KnownPerson, rolesInForce } from './standing-in.ts'
