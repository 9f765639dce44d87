import { InputError } from '#model/errors.ts'

/** A calculation on half-typed numbers: null while they cannot be used yet. Their sentence stands beside the box. */
export function whenUsable<T>(calculate: () => T): T | null {
  try {
    return calculate()
  } catch (cause) {
    if (cause instanceof InputError) return null
    throw cause
  }
}

/** The number under this name, if it has been typed and read. */
export function numberIn(body: Readonly<Record<string, unknown>>, name: string): number | null {
  const value = body[name]
  return typeof value === 'number' ? value : null
}
