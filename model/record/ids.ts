import { z } from 'zod'

/** A UUID that says in its type what it points at, so that a bay cannot be passed where a zone is meant. */
export type Id<Thing extends string> = string & { readonly __points_at: Thing }
export type EntryId = Id<'entry'>
export type ProjectId = Id<'project'>
export type FloorId = Id<'floor'>
export type ZoneId = Id<'zone'>
export type BayId = Id<'bay'>
export type PersonId = Id<'person'>
export type InstrumentId = Id<'instrument'>

const uuidPattern = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/

/** A zod schema for a UUIDv7 that is branded with the thing it points at. */
export function idOf<Thing extends string>(thing: Thing) {
  return z
    .string()
    .regex(uuidPattern, `is not the id of a known ${thing}`)
    .transform((text) => text as Id<Thing>)
}

/**
 * Returns a UUIDv7 (RFC 9562 5.7) from a time in epoch milliseconds and 10 random bytes.
 * Time and chance are arguments because the model has neither clock nor dice.
 */
export function uuidV7From<Thing extends string = 'entry'>(epochMs: number, random: Uint8Array): Id<Thing> {
  const bytes = new Uint8Array(16)
  let rest = Math.floor(epochMs)
  for (let i = 5; i >= 0; i--) {
    bytes[i] = rest % 256
    rest = Math.floor(rest / 256)
  }
  bytes.set(random.subarray(0, 10), 6)
  bytes[6] = (bytes[6]! & 0x0f) | 0x70
  bytes[8] = (bytes[8]! & 0x3f) | 0x80
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('')
  const text = `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`
  return text as Id<Thing>
}
