import type { StoryEntryOf } from '#model/record/entry.ts'
import { type BayStory, entriesOf } from '#model/record/story.ts'
import type { Protection } from '#model/record/words.ts'

/** A protection from when it was put on until it was taken off. */
export interface ProtectionSpan {
  what: Protection
  from: number
  /** Null while it is on. */
  until: number | null
  on: StoryEntryOf<'protection-on'>
  off: StoryEntryOf<'protection-off'> | null
}

export interface Protections {
  spans: ProtectionSpan[]
  /** What somebody means to put on and has not yet. */
  planned: StoryEntryOf<'protection-on'>[]
}

/** What keeps frost out; an unflued burner does not count, because its fumes spoil the surface and kill. */
export const againstFrost: readonly Protection[] = ['blanket', 'electric heater', 'flued heater']
/** What dries a screed by force. */
export const dryingByForce: readonly Protection[] = [
  'dehumidifier',
  'fan',
  'electric heater',
  'flued heater',
  'unflued heater',
]

/** Returns the protections put on and those only planned. */
export function protectionsOf(story: BayStory): Protections {
  const planned: StoryEntryOf<'protection-on'>[] = []
  const spans: ProtectionSpan[] = []
  const events = [...entriesOf(story, 'protection-on'), ...entriesOf(story, 'protection-off')].sort(
    (a, b) => a.happenedAt - b.happenedAt || (a.kind === 'protection-off' ? -1 : 1),
  )
  for (const event of events) {
    const { what } = event.body
    const lying = spans.findLast((span) => span.what === what && span.until === null)
    if (event.kind === 'protection-off') {
      if (lying !== undefined) {
        lying.until = event.happenedAt
        lying.off = event
      }
    } else if (event.body.planned === true) planned.push(event)
    else if (lying === undefined) {
      spans.push({ what, from: event.happenedAt, until: null, on: event, off: null })
    }
  }
  return { spans, planned }
}

/** Those of the given kinds that were on at the instant. */
export function protectedBy(
  { spans }: Protections,
  kinds: readonly Protection[],
  instant: number,
): ProtectionSpan[] {
  return spans.filter(
    ({ what, from, until }) =>
      kinds.includes(what) && from <= instant && instant < (until ?? Number.POSITIVE_INFINITY),
  )
}
