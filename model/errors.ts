/**
 * An argument that no calculation can use: not finite, out of the stated range, out of order or too short.
 * It names the field, so that a form can show the sentence beside the box that caused it.
 */
export class InputError extends Error {
  readonly code = 'input-out-of-range' as const
  readonly field: string
  constructor(field: string, message: string) {
    super(message)
    this.name = 'InputError'
    this.field = field
  }
}

/**
 * Returns the value when it is a finite number inside [min, max]; throws otherwise.
 * Comparisons are written so that NaN cannot pass.
 */
export function requireNumber(field: string, value: unknown, min: number, max: number, unit = ''): number {
  const shownUnit = unit === '' ? '' : ` ${unit}`
  if (typeof value === 'number' && value >= min && value <= max) return value
  const shown = typeof value === 'number' ? String(value) : JSON.stringify(value)
  throw new InputError(field, `${field} is ${shown}; it must be a number from ${min} to ${max}${shownUnit}.`)
}

/** Returns epoch milliseconds of an ISO instant with offset (or of epoch milliseconds); throws when it is neither. */
export function requireInstant(field: string, value: unknown): number {
  if (typeof value === 'number' && Number.isFinite(value)) return value
  if (typeof value === 'string' && /(?:Z|[+-]\d\d:?\d\d)$/.test(value)) {
    const at = Date.parse(value)
    if (Number.isFinite(at)) return at
  }
  throw new InputError(
    field,
    `${field} is ${JSON.stringify(value)}; it must be a date and time with an offset, such as 2026-11-24T07:15:00+00:00.`,
  )
}

/** Throws unless the list has at least `least` items. */
export function requireLength(field: string, list: readonly unknown[], least: number): void {
  if (Array.isArray(list) && list.length >= least) return
  const count = Array.isArray(list) ? list.length : 'no list'
  throw new InputError(field, `${field} has ${count}; at least ${least} are needed.`)
}

/** Throws unless the instants never step back. */
export function requireOrdered(field: string, instants: readonly number[]): void {
  for (let i = 1; i < instants.length; i++) {
    if (!(instants[i]! >= instants[i - 1]!)) {
      throw new InputError(
        field,
        `${field} is out of order at item ${i + 1}: each time must follow the one before.`,
      )
    }
  }
}
