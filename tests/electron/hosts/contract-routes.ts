import { isContractProcedure } from '@orpc/contract'
import { contract } from '#model/contract/index.ts'

/** The addresses of all calls, taken from the contract itself, so that a new call cannot be forgotten. */
export function contractRoutes(): string[] {
  return pathsIn(contract, [])
}

function pathsIn(part: object, path: string[]): string[] {
  if (isContractProcedure(part)) return [`/rpc/${path.join('/')}`]
  return Object.entries(part).flatMap(([name, inner]) => pathsIn(inner as object, [...path, name]))
}
