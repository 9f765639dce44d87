/** What can go wrong with a call, in sentences that say what to do. */
export const troubleWords = {
  refused: (sentences: string[]) =>
    sentences.length === 0
      ? 'Something entered cannot be right. Nothing was written; what you typed is still here.'
      : `${sentences.map(asSentence).join('\n')}\nNothing was written; what you typed is still here.`,
  conflict: (detail: string) =>
    `Someone else has changed this since you opened it. ${asSentence(detail)} Nothing was written. Open the entry, read the newer version, then correct that one.`,
  notAllowed: (detail: string) => `This is not allowed. ${asSentence(detail)} Nothing was written.`,
  notFound: (what: string) =>
    `${what === '' ? 'That' : `This ${what}`} is not in this record. It may belong to another file.`,
  storage: (state: string, detail: string) =>
    `The record on disk could not be used (${state}). ${asSentence(detail)} Nothing was written; what you typed is still here.`,
  inside: (logId: string) =>
    `Something went wrong inside Bayledger. Nothing was written; what you typed is still here. The log has the details under ${logId}.`,
  noAnswer: (detail: string) =>
    `The record did not answer (${detail.replace(/\.$/, '')}). What you typed is still here; try again.`,
  screen: (detail: string) =>
    `This page could not be shown (${detail.replace(/\.$/, '')}). The record was not touched. Load the program again; if the page fails once more, open another one and tell whoever looks after Bayledger what stands in the brackets.`,
  nobodyWrites: 'Pick your name under “Who is writing” first: every entry is signed by a person.',
} as const

export function asSentence(text: string): string {
  const trimmed = text.trim()
  if (trimmed === '') return ''
  const capital = trimmed.charAt(0).toUpperCase() + trimmed.slice(1)
  return /[.!?]$/.test(capital) ? capital : `${capital}.`
}
