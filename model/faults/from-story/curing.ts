import { entriesOf } from '../../record/story.ts'
import type { Protection } from '../../record/words.ts'
import { openAt } from '../../watch/facts/cover.ts'
import type { EvaporationPoint } from '../../watch/facts/evaporation.ts'
import { dayMs, hourMs, hoursBetween } from '../../watch/facts/time.ts'
import { type Answer, degrees, no, notAsked, oneDigit, type Scene, twoDigits, unseen, yes } from './scene.ts'

/** When curing counts as late, soon and short. The 4 and 7 days are those of the rules in force. */
const lateHours = 6
const soonHours = 2
/** Rates of evaporation that tell; kg/(m²·h). Our judgement: semi-dry screed has no bleed water to lose first. */
const dryingRate = 0.5
const mildRate = 0.2
const openHours = 8
const mildHours = 24
/** Longest time between two readings of the air that still shows the time between. */
const gapHours = 3
const fumeDays = 3

const noFinish = unseen('The finish of the bay was not written down.')

/** Answers how the bay was kept damp: E17 to E19. */
export function curingAnswers(scene: Scene): Record<'E17' | 'E18' | 'E19', Answer> {
  const { facts, t0, rules, cementBound, asOf } = scene
  if (t0 === null) return { E17: noFinish, E18: noFinish, E19: noFinish }
  if (!cementBound) {
    const none = notAsked('Calcium sulfate screed is not cured under a sheet.')
    return { E17: none, E18: none, E19: none }
  }
  const sheets = facts.cover.map(({ on }) => on.id)
  const curing = facts.curing!
  const least = rules.limits['cure.daysLeast'].value * 24
  const whole = rules.limits['cure.days'].value * 24
  if (curing.firstCoverAt === null) {
    const hours = oneDigit(hoursBetween(t0, asOf))
    if (sheets.length > 0) {
      const part = 'Sheets lay, but none covered the whole bay.'
      return { E17: yes(part, sheets), E18: no('Counted once, as no curing.', sheets), E19: no(part, sheets) }
    }
    const because = `No sheet and no curing compound in the record, ${hours} h after the finish; if one lay, write it down.`
    if (hours <= lateHours) return { E17: unseen(because), E18: unseen(because), E19: unseen(because) }
    return { E17: yes(because), E18: no('Counted once, as no curing.'), E19: no(because) }
  }
  const after = oneDigit(hoursBetween(t0, curing.firstCoverAt))
  const started = `Sheet on ${after} h after the finish`
  const late = after > lateHours
  const E17 = late ? yes(`${started}.`, sheets) : no(`${started}.`, sheets)
  const days = (hours: number) => oneDigit(hours / 24)
  const total = `covered ${days(curing.coveredHours)} days, of which ${days(curing.coldHours)} too cold to count and ${days(curing.unknownHours)} without a temperature`
  const ended = facts.open.some(({ off }) => off !== null) || asOf - t0 > (whole + 72) * hourMs
  const E18 =
    curing.provenHours >= least || curing.coveredHours - curing.coldHours >= least
      ? no(`${upper(total)}.`, sheets)
      : ended && curing.atMostHours < least
        ? yes(`${upper(total)}.`, sheets)
        : unseen(`${upper(total)}; it still lay.`, sheets)
  const first = facts.cover.find(({ whole: all }) => all)!.on
  const sealed = first.body.edgesHeld && first.body.coveredPercent >= 95
  const photos = entriesOf(scene.story, 'photo-added')
    .filter(({ body }) => body.tag === 'sheets')
    .map(({ id }) => id)
  const pictured = photos.length > 0 ? `, ${photos.length} photographs` : ', no photograph'
  const E19 = (() => {
    const because = `${started}, ${sealed ? 'edges held' : 'edges not held'}; ${total}${pictured}.`
    if (after > soonHours || !sealed || curing.atMostHours < whole) {
      return curing.atMostHours < whole && !ended && after <= soonHours && sealed
        ? unseen(because, sheets)
        : no(because, sheets)
    }
    return curing.coveredHours - curing.coldHours >= whole
      ? yes(because, [...sheets, ...photos])
      : unseen(because, sheets)
  })()
  return { E17, E18, E19 }
}

/** Answers how fast the open bay lost water: E20, E21. */
export function evaporationAnswers(scene: Scene): Record<'E20' | 'E21', Answer> {
  const { facts, t0 } = scene
  if (t0 === null) return { E20: noFinish, E21: noFinish }
  return { E20: fast(scene, t0), E21: mild(scene, facts.evaporation, t0) }
}

function fast({ facts }: Scene, t0: number): Answer {
  const until = t0 + openHours * hourMs
  const covers = facts.cover.map(({ on }) => on.id)
  const exposed = facts.open.filter(({ from }) => from < until)
  const openMs = exposed.reduce(
    (sum, { from, until: end }) => sum + Math.min(end ?? until, until) - Math.max(from, t0),
    0,
  )
  const points = facts.evaporation.filter(
    ({ at }) => at >= t0 && at <= until && openAt(facts.open, at) !== null,
  )
  const worst = points.toSorted((a, b) => b.kgPerM2h - a.kgPerM2h)[0]
  if (worst !== undefined && worst.kgPerM2h >= dryingRate)
    return yes(`${rateText(worst)} while the bay lay open.`, worst.entries)
  if (openMs <= hourMs / 2)
    return no(`Covered for all but ${oneDigit(openMs / hourMs)} h of the first ${openHours} h.`, covers)
  const read = exposed.every(({ from, until: end }) =>
    coveredByReadings(points, Math.max(from, t0), Math.min(end ?? until, until)),
  )
  if (worst === undefined)
    return unseen(
      `Open for ${oneDigit(openMs / hourMs)} h of the first ${openHours} h, and the air was not read then.`,
      covers,
    )
  if (read && points.every(({ measured }) => measured))
    return no(`${rateText(worst)} at most while the bay lay open.`, worst.entries)
  return unseen(
    `${rateText(worst)} at most, but ${read ? 'not all of it was measured' : 'the air was read too seldom'}.`,
    worst.entries,
  )
}

function mild({ asOf }: Scene, all: readonly EvaporationPoint[], t0: number): Answer {
  const until = t0 + mildHours * hourMs
  const points = all.filter(({ at }) => at >= t0 && at <= until)
  const worst = points.toSorted((a, b) => b.kgPerM2h - a.kgPerM2h)[0]
  if (worst === undefined) return unseen('Air and humidity were not read in the first 24 h.')
  if (worst.kgPerM2h >= mildRate) return no(`${rateText(worst)}.`, worst.entries)
  const whole =
    asOf >= until && coveredByReadings(points, t0, until) && points.every(({ measured }) => measured)
  const because = `${rateText(worst)} at most in ${points.length} readings of the first 24 h`
  return whole
    ? yes(`${because}.`, worst.entries)
    : unseen(
        `${because}, ${points.every(({ measured }) => measured) ? 'which are too few' : 'not all of it measured'}.`,
        worst.entries,
      )
}

function rateText({ kgPerM2h, inputs, assumed }: EvaporationPoint): string {
  const { surfaceC, airC, rhPercent, windKmh } = inputs
  const taken = assumed.length === 0 ? '' : `; assumed ${assumed.join(' and ')}`
  return `Evaporation ${twoDigits(kgPerM2h)} kg/(m²·h) (surface ${degrees(surfaceC)}, air ${degrees(airC)}, ${Math.round(rhPercent)} %, wind ${oneDigit(windKmh)} km/h${taken})`
}

function coveredByReadings(points: readonly { at: number }[], from: number, until: number): boolean {
  let last = from
  for (const { at } of points) {
    if (at < from || at > until) continue
    if (at - last > gapHours * hourMs) return false
    last = at
  }
  return points.length > 0 && until - last <= gapHours * hourMs
}

const electric: readonly Protection[] = ['electric heater']

/** Answers whether fumes of a burner reached the fresh surface: E22, E23. */
export function fumeAnswers({ facts, t0, asOf }: Scene): Record<'E22' | 'E23', Answer> {
  if (t0 === null) return { E22: noFinish, E23: noFinish }
  const until = Math.min(asOf, t0 + fumeDays * dayMs)
  const on = facts.protections.spans.filter((span) => span.from < until && (span.until ?? asOf) > t0)
  const burner = on.filter(({ what }) => what === 'unflued heater')
  if (burner.length > 0) {
    const because = 'An unflued combustion heater was on in the first days.'
    const entries = burner.map((span) => span.on.id)
    return { E22: yes(because, entries), E23: no(because, entries) }
  }
  const heaters = on.filter(({ what }) => electric.includes(what))
  if (heaters.length > 0) {
    const because = 'The heater of the first days was electric, and no burner was written down.'
    const entries = heaters.map((span) => span.on.id)
    return { E22: no(because, entries), E23: yes(because, entries) }
  }
  const none = unseen('Nobody wrote down how the room was heated in the first days, or that it was not.')
  return { E22: none, E23: none }
}

function upper(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}
