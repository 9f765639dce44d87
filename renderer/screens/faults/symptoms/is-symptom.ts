import { type SymptomCode, symptoms } from '#model/record/words.ts'

/** Whether a recorded text is the code of a symptom. */
export function isSymptom(text: string): text is SymptomCode {
  return Object.hasOwn(symptoms, text)
}
