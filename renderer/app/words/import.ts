export const importWords = {} as const
