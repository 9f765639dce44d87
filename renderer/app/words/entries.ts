export const entriesWords = {} as const
