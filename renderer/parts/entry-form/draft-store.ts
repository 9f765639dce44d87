import type { EntryId } from '#model/record/ids.ts'
import { newId } from '../../app/ids.ts'
import { recall, remember } from '../../app/memory.ts'
import { createStore, type Store, useStore } from '../../app/store.ts'
import type { DraftValue, DraftValues } from './draft.ts'

/** A form that is being filled in. It outlives the screen, an error and a restart; only saving or clearing ends it. */
export interface Draft {
  /** The id that the entry will have: the same however often Save is pressed. */
  id: EntryId
  values: DraftValues
  happened: DraftValue
  /** Path → answer to "are you sure?", with the value it was given for. */
  answers: Record<string, { value: number; answer: string }>
  reason: string
  /** True once a person has changed something. */
  changed: boolean
}

type DraftStart = Pick<Draft, 'values' | 'happened'> & Partial<Pick<Draft, 'answers'>>

const open = new Map<string, Store<Draft>>()
const memoryKey = (key: string) => `draft ${key}`

function storeOf(key: string, start: () => DraftStart): Store<Draft> {
  const found = open.get(key)
  if (found !== undefined) return found
  const kept = keptDraft(key)
  const store = createStore<Draft>(
    kept ?? { id: newId<'entry'>(), answers: {}, reason: '', changed: false, ...start() },
  )
  store.subscribe(() => {
    const draft = store.get()
    if (draft.changed) remember(memoryKey(key), JSON.stringify(draft))
  })
  open.set(key, store)
  return store
}

function keptDraft(key: string): Draft | null {
  const text = recall(memoryKey(key))
  if (text === null) return null
  try {
    const draft = JSON.parse(text) as Draft
    return typeof draft.id === 'string' && typeof draft.values === 'object' ? draft : null
  } catch (cause) {
    console.info('A kept draft could not be read and is left out:', cause)
    return null
  }
}

export interface DraftHandle {
  draft: Draft
  setValue: (field: string, value: DraftValue) => void
  change: (part: Partial<Draft>) => void
  /** Forgets the draft: after saving, or when the person clears the form. */
  clear: () => void
}

export function useDraft(key: string, start: () => DraftStart): DraftHandle {
  const store = storeOf(key, start)
  const draft = useStore(store)
  const change = (part: Partial<Draft>) => store.set((now) => ({ ...now, ...part, changed: true }))
  return {
    draft,
    change,
    setValue: (field, value) =>
      store.set((now) => ({ ...now, values: { ...now.values, [field]: value }, changed: true })),
    clear: () => {
      remember(memoryKey(key), null)
      open.delete(key)
    },
  }
}
