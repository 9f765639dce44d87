export const liveWords = {} as const
