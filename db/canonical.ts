/**
 * Returns the canonical JSON of a value: no blanks, keys in the order of their UTF-16 code units, numbers and texts as
 * ECMAScript writes them. Two equal values give the same bytes, so that a hash over them means something.
 * Members that are `undefined` are left out, as JSON leaves them out.
 * @throws TypeError for what JSON cannot hold: NaN, infinities, lone surrogates, functions, big integers, dates
 * @source RFC 8785 (JSON Canonicalization Scheme), 3.2
 * @provenance published
 */
export function canonicalJson(value: unknown): string {
  if (value === null || typeof value === 'boolean') return String(value)
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new TypeError(`${value} has no place in JSON`)
    return JSON.stringify(value)
  }
  if (typeof value === 'string') {
    if (!value.isWellFormed()) throw new TypeError('a text holds half a character (a lone surrogate)')
    return JSON.stringify(value)
  }
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`
  if (typeof value === 'object' && isPlain(value)) {
    const members = Object.entries(value)
      .filter(([, member]) => member !== undefined)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, member]) => `${canonicalJson(key)}:${canonicalJson(member)}`)
    return `{${members.join(',')}}`
  }
  throw new TypeError(`a ${typeof value} has no place in JSON`)
}

function isPlain(value: object): boolean {
  const prototype: unknown = Object.getPrototypeOf(value)
  return prototype === Object.prototype || prototype === null
}
