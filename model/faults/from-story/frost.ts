import { airTrace } from '../../watch/facts/air.ts'
import { dayMs, hourMs } from '../../watch/facts/time.ts'
import { lowestIn, type Trace } from '../../watch/facts/trace.ts'
import { type Answer, clockText, degrees, no, oneDigit, type Scene, unseen, yes } from './scene.ts'

/** Nights 1 to 3: from the finish on. Our judgement. */
const firstNightsMs = 3 * dayMs

type Ids = 'E14' | 'E15' | 'E16'

/** Answers whether the screed froze before it was strong enough, by its own temperature and, failing that, by the air. */
export function frostAnswers(scene: Scene): Record<Ids, Answer> {
  const { t0, facts, rules, cementBound } = scene
  if (t0 === null) {
    const none = unseen(
      'The finish of the bay was not written down, so nobody knows how old it was when it was cold.',
    )
    return { E14: none, E15: none, E16: none }
  }
  if (!cementBound) {
    const none = unseen(
      'Maturity is a measure of cement; for calcium sulfate ask the maker and look at a core.',
    )
    return { E14: none, E15: none, E16: byAir(scene, t0) }
  }
  const needed = rules.limits['frost.maturityCh'].value
  const onsetC = rules.limits['frost.onsetC'].value
  const leastC = rules.limits['frost.screedC'].value
  const { screed } = facts
  const from = facts.life.startedAt ?? t0
  if (screed.unmeasured) {
    const none = unseen('Nobody measured the temperature in the screed.')
    return { E14: none, E15: none, E16: byAir(scene, t0) }
  }
  const safeAt = maturityReachedAt(scene, needed)
  const end = safeAt ?? scene.asOf
  const coldest = lowestIn(screed.coldest, from, end)
  const proven = screed.maturityAt(end)
  const strong =
    safeAt === null
      ? `maturity ${Math.round(proven.provenCh)} °C·h proven of the ${needed} that count as frost-safe`
      : `${needed} °C·h reached by ${clockText(safeAt, scene.story.timeZone)}`
  if (coldest === null) {
    const none = unseen('The temperature in the screed was measured, but not in the days that count.')
    return { E14: none, E15: none, E16: byAir(scene, t0) }
  }
  const at = screed.maturityAt(coldest.at)
  const shown = `In-screed ${degrees(coldest.value)} at ${clockText(coldest.at, scene.story.timeZone)}, maturity then ${Math.round(at.provenCh)} °C·h`
  const gaps = proven.unknownHours > 0
  const E16 = no('The screed itself was measured.', [coldest.entry])
  if (coldest.value <= onsetC) {
    const tooYoung = at.atMostCh < needed || at.provenCh < needed
    const certain = at.atMostCh < needed
    const because = `${shown}; frost-safe from ${needed} °C·h.`
    if (certain) return { E14: yes(because, [coldest.entry]), E15: no(because, [coldest.entry]), E16 }
    if (tooYoung) {
      const doubt = unseen(
        `${shown}, but ${oneDigit(at.unknownHours)} h before it nobody measured: it may have been strong enough.`,
        [coldest.entry],
      )
      return { E14: doubt, E15: no(because, [coldest.entry]), E16 }
    }
  }
  if (safeAt === null || gaps) {
    const because = `${shown}; ${strong}, and ${oneDigit(proven.unknownHours)} h were not measured.`
    return {
      E14: unseen(because, [coldest.entry]),
      E15: coldest.value < leastC ? no(because, [coldest.entry]) : unseen(because, [coldest.entry]),
      E16,
    }
  }
  const because = `Coldest in-screed ${degrees(coldest.value)}, ${strong}.`
  return {
    E14: no(because, [coldest.entry]),
    E15: coldest.value >= leastC ? yes(because, [coldest.entry]) : no(because, [coldest.entry]),
    E16,
  }
}

/** The first reading by which the proven maturity is reached; null when it never is. */
function maturityReachedAt({ facts, asOf }: Scene, needed: number): number | null {
  const { at } = facts.screed.coldest
  const found = Array.from(at).find((instant) => facts.screed.maturityAt(instant).provenCh >= needed)
  return found === undefined || found > asOf ? null : found
}

/** Without a reading in the screed, the air of the room, or outside it, says that frost was likely and no more. */
function byAir({ facts, asOf }: Scene, t0: number): Answer {
  const until = Math.min(asOf, t0 + firstNightsMs)
  const room = airTrace(facts.air, 'airC')
  const outside = facts.outside
  const inRoom = lowestIn(room, t0, until)
  const out = lowestIn(outside, t0, until)
  const cold = [inRoom, out].filter((point) => point !== null && point.value <= 0)[0]
  if (inRoom !== null && inRoom.value <= 0)
    return yes(`Coldest air of the room ${degrees(inRoom.value)} in the first three nights.`, [inRoom.entry])
  if (inRoom !== null && unbroken(room, t0, until))
    return no(`Coldest air of the room ${degrees(inRoom.value)} in the first three nights.`, [inRoom.entry])
  if (cold !== null && cold !== undefined)
    return yes(
      `Coldest air outside ${degrees(cold.value)} in the first three nights; the room was not read then.`,
      [cold.entry],
    )
  if (inRoom === null && out === null) return unseen('No temperature was read in the first three nights.')
  const seen = inRoom ?? out!
  return unseen(
    `Coldest air read was ${degrees(seen.value)}, but not often enough to know the coldest hour of the nights.`,
    [seen.entry],
  )
}

/** Read at least every three hours from the finish through the nights that count. */
function unbroken({ at }: Trace, from: number, until: number): boolean {
  const gapMs = 3 * hourMs
  let last = from
  for (const instant of at) {
    if (instant < from) continue
    if (instant - last > gapMs) return false
    last = instant
    if (last >= until) return true
  }
  return until - last <= gapMs
}
