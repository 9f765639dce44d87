export {
  type HoldFinding,
  type HoldLink,
  type HoldState,
  holdChainFrom,
  holdChainOf,
  linkText,
  standsAgainstRelease,
} from './chain.ts'
export { type HoldRule, holdOrder, holdRules, type Passing } from './points.ts'
