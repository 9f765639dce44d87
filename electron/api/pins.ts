import type { PinStanding } from '#model/contract/people.ts'
import { pinRules, waitAfter } from '#model/people/index.ts'
import type { PersonId } from '#model/record/ids.ts'
import { type PinKept, type PinsKept, readPins, writePins } from '../data-folder/pin-file.ts'
import { hashPin, isPin, usualCost } from './pin-hash.ts'

export type Proof =
  | { proven: true }
  | { proven: false; because: 'no PIN' }
  | { proven: false; because: 'wrong PIN'; wrongTries: number; waitMs: number }
  | { proven: false; because: 'has to wait'; waitMs: number }

/** The PINs of a data folder and who has proven theirs in this run of the program. */
export interface Pins {
  standingOf: (person: string) => PinStanding
  has: (person: string) => boolean
  isProven: (person: string) => boolean
  /** A signature was given: the proof lasts anew. */
  used: (person: string) => void
  prove: (person: string, pin: string) => Promise<Proof>
  /** Keeps a new PIN and forgets wrong tries. It is proven with it when the person typed it themselves. */
  set: (person: string, pin: string, typedBy: 'themselves' | 'another') => Promise<void>
  /** Returns how many proofs were forgotten. */
  lock: (person?: string) => number
  /** Keeps how long people still have to wait. */
  close: () => void
}

interface PinOptions {
  file: string
  /**
   * Milliseconds that have really passed, from any start: not the time of day, which whoever sits at the machine can
   * set. Waits and proofs are measured with nothing else.
   */
  elapsed?: () => number
  /** scrypt's N for new PINs. Only tests lower it. */
  cost?: number
}

/**
 * Opens the PINs of a data folder. The file is read when it is first asked for, so that a damaged one does not keep the
 * program from starting.
 */
export function openPins({ file, elapsed = () => performance.now(), cost = usualCost }: PinOptions): Pins {
  const proofs = new Map<string, number>()
  let held: { kept: PinsKept; since: number } | null = null
  let last: Promise<unknown> = Promise.resolve()

  const look = () => {
    held ??= { kept: readPins(file), since: elapsed() }
    return held
  }
  const kept = (person: string) => {
    const { kept: all } = look()
    return Object.hasOwn(all, person) ? all[person]! : null
  }
  const waitOf = (person: string) => Math.max(0, (kept(person)?.waitMs ?? 0) - (elapsed() - look().since))
  /** Every writing brings the waits of all up to date, since they share one moment. */
  const write = (person: string, next: PinKept) => {
    const { kept: all } = look()
    const waits = Object.entries(all).map(([id, one]) => [id, { ...one, waitMs: waitOf(id) }] as const)
    const written = { ...Object.fromEntries(waits), [person]: next }
    writePins(file, written)
    held = { kept: written, since: elapsed() }
  }
  const provenForMs = (person: string) => {
    const until = proofs.get(person)
    if (until === undefined) return null
    if (until > elapsed()) return until - elapsed()
    proofs.delete(person)
    return null
  }
  const used = (person: string) => {
    if (provenForMs(person) !== null) proofs.set(person, elapsed() + pinRules.idleMs)
  }
  /** One after another: two tries at once would both count as the same one. */
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const turn = last.then(work, work)
    last = turn
    return turn
  }

  const tryPin = async (person: string, pin: string): Promise<Proof> => {
    const before = kept(person)
    if (before === null) return { proven: false, because: 'no PIN' }
    const waitMs = waitOf(person)
    if (waitMs > 0) return { proven: false, because: 'has to wait', waitMs }
    // Counted before it is tried: pulling the plug in between must not make the try free.
    const wrongTries = before.wrongTries + 1
    const waitNext = waitAfter(wrongTries)
    write(person, { ...before, wrongTries, waitMs: waitNext })
    if (!(await isPin(pin, before))) {
      proofs.delete(person)
      // The wait begins with the answer, however long the try took.
      if (waitNext > 0) write(person, { ...before, wrongTries, waitMs: waitNext })
      return { proven: false, because: 'wrong PIN', wrongTries, waitMs: waitNext }
    }
    write(person, { ...before, wrongTries: 0, waitMs: 0 })
    proofs.set(person, elapsed() + pinRules.idleMs)
    return { proven: true }
  }

  return {
    standingOf: (person) => ({
      person: person as PersonId,
      isSet: kept(person) !== null,
      provenForMs: provenForMs(person),
      waitMs: waitOf(person),
      wrongTries: kept(person)?.wrongTries ?? 0,
    }),
    has: (person) => kept(person) !== null,
    isProven: (person) => provenForMs(person) !== null,
    used,
    prove: (person, pin) => inTurn(() => tryPin(person, pin)),
    set: (person, pin, typedBy) =>
      inTurn(async () => {
        const hashed = await hashPin(pin, cost)
        write(person, { ...hashed, wrongTries: 0, waitMs: 0 })
        if (typedBy === 'themselves') proofs.set(person, elapsed() + pinRules.idleMs)
        else proofs.delete(person)
      }),
    lock: (person) => {
      const who = [...proofs.keys()].filter((one) => person === undefined || one === person)
      const locked = who.filter((one) => provenForMs(one) !== null).length
      for (const one of who) proofs.delete(one)
      return locked
    },
    close: () => {
      proofs.clear()
      if (held === null) return
      const waiting = Object.entries(held.kept).find(
        ([person, { waitMs }]) => waitMs > 0 && waitOf(person) < waitMs,
      )
      if (waiting !== undefined) write(waiting[0], { ...waiting[1], waitMs: waitOf(waiting[0]) })
    },
  }
}
