import { createContext, useContext } from 'react'
import type { DraftReading } from './read-draft.ts'

/** What every box of a form needs to know about its form. */
export interface FormSetting {
  /** Names the form, so that ids of its boxes are unique on the page. */
  formId: string
  /** Time zone of the site. */
  zone: string
  /** What the entry is about; null for what it brings into being. */
  subject: string | null
  /** Path → sentence. Only what may be shown by now. */
  errors: Readonly<Record<string, string>>
  questions: DraftReading['questions']
  answers: Readonly<Record<string, { value: number; answer: string }>>
  onAnswer: (path: string, answer: { value: number; answer: string } | null) => void
  onTouched: (path: string) => void
}

const FormContext = createContext<FormSetting | null>(null)
export const FormProvider = FormContext

export function useForm(): FormSetting {
  const form = useContext(FormContext)
  if (form === null) throw new Error('A box of a form stands outside its form')
  return form
}
