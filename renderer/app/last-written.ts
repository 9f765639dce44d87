import type { LedgerEntry } from '#model/record/entry.ts'
import { createStore, useStore } from './store.ts'

/** The last entry of this sitting, for the bar that says "Saved" and offers to undo it. */
export type LastWritten = Pick<LedgerEntry, 'id' | 'kind' | 'subject' | 'happenedAt'>

const last = createStore<LastWritten | null>(null)
export const useLastWritten = () => useStore(last)
export const noteWritten = (entry: LastWritten) => last.set(entry)
export const forgetLastWritten = () => last.set(null)
