/** What the numbers of a form mean, while it is being filled in. */
export const liveWords = {
  waits: 'Shown here as soon as the boxes say enough.',
  kept: 'Kept',
  notKept: 'Not kept',
  noLimit: 'no limit in these rules',
  limit: (text: string, source: string) => `Rule: ${text}, ${source}.`,
} as const
