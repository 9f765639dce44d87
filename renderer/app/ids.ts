import { type Id, uuidV7From } from '#model/record/ids.ts'
import { nowMs } from './clock.ts'

/** A new id made on this screen: asking twice after a lost answer then writes once. */
export function newId<Thing extends string>(): Id<Thing> {
  return uuidV7From<Thing>(nowMs(), crypto.getRandomValues(new Uint8Array(10)))
}
