export const formWords = {} as const
