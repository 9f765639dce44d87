import { ORPCError } from '@orpc/client'
import { createStore, useStore } from './store.ts'

/** Somebody has to prove who they are before an act can be written. */
export interface PinAsk {
  person: string
  /** What is asked for: their PIN, or a first one. */
  what: 'prove' | 'set'
  /** True once the PIN is proven; false when they would rather not. */
  answer: (proven: boolean) => void
}

const asked = createStore<PinAsk | null>(null)
export const usePinAsk = () => useStore(asked)

/**
 * Does an act that may need a signature. When the host answers that a PIN is needed, the person is asked for it and the
 * act is done once more; who would rather not gets the host's refusal.
 */
export async function withPin<T>(act: () => Promise<T>): Promise<T> {
  // A proof can run out between the dialog and the second try, and two people can sign in one append.
  for (let round = 0; ; round++) {
    try {
      return await act()
    } catch (error) {
      const missing = round < 3 ? missingProof(error) : null
      if (missing === null || !(await ask(missing))) throw error
    }
  }
}

function ask({ person, what }: Omit<PinAsk, 'answer'>): Promise<boolean> {
  // One dialog at a time: an earlier one that nobody answered is answered with no.
  asked.get()?.answer(false)
  return new Promise((resolve) => {
    const answer = (proven: boolean) => {
      asked.set(null)
      resolve(proven)
    }
    asked.set({ person, what, answer })
  })
}

/** What a refusal asks for; null when it is another refusal. */
function missingProof(error: unknown): Omit<PinAsk, 'answer'> | null {
  if (!(error instanceof ORPCError) || error.code !== 'NOT_ALLOWED') return null
  const { reason, person } = (error.data ?? {}) as { reason?: string; person?: string }
  if (person === undefined) return null
  if (reason === 'pin needed') return { person, what: 'prove' }
  return reason === 'pin not set' ? { person, what: 'set' } : null
}
