export const todayWords = {} as const
