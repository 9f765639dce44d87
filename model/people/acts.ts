/** What a person can do to a fact of the record. "Own" is the version that is being replaced, not the fact's first one. */
export const acts = {
  'write first': 'Write down',
  'correct own': 'Correct what one wrote',
  'correct another’s': 'Correct what another wrote',
  'withdraw own': 'Withdraw what one wrote',
  'withdraw another’s': 'Withdraw what another wrote',
} as const
export type Act = keyof typeof acts
export const actNames = Object.keys(acts) as Act[]

/** Returns the act that an entry is: a first entry, or a correction or withdrawal of a version that somebody wrote. */
export function actOf(entry: { kind: string; person: string }, corrected: { person: string } | null): Act {
  if (corrected === null) return 'write first'
  const own = corrected.person === entry.person
  if (entry.kind === 'entry-withdrawn') return own ? 'withdraw own' : 'withdraw another’s'
  return own ? 'correct own' : 'correct another’s'
}

/** True for an act on what somebody else wrote. */
export function isOnAnothers(act: Act): boolean {
  return act === 'correct another’s' || act === 'withdraw another’s'
}
