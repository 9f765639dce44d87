import { metresToShape } from '../../movement/polygon.ts'
import { entriesOf } from '../../record/story.ts'
import { dayMs, daysBetween } from '../../watch/facts/time.ts'
import type { TrafficEvent } from '../../watch/facts/traffic.ts'
import { type Answer, ageText, no, oneDigit, type Scene, unseen, yes } from './scene.ts'

/** A load so near the defect was at the spot; one further off than the second was elsewhere. Our judgement [m]. */
const atSpotM = 1.5

/** Answers heating E33, E34 and loads E35, E36. */
export function heatAndLoadAnswers(scene: Scene): Record<'E33' | 'E34' | 'E35' | 'E36', Answer> {
  return { ...heating(scene), ...loads(scene) }
}

function heating(scene: Scene): Record<'E33' | 'E34', Answer> {
  const { story, facts, t0, rules, firstSeen, isCrack, cementBound } = scene
  if (!story.zone.body.heated) {
    const because = 'The bay is not heated.'
    const zone = story.entries.find(({ kind }) => kind === 'zone-added')
    const entries = zone === undefined ? [] : [zone.id as string]
    return { E33: no(because, entries), E34: yes(because, entries) }
  }
  const running = facts.heating.filter(({ state, flowC }) => state === 'running' && flowC !== null)
  const keepWarm = rules.limits['heat.keepWarmMostC'].value
  const heated = running.filter(({ flowC }) => flowC! > keepWarm)
  const first = heated[0]
  if (running.length === 0 || t0 === null) {
    const none = unseen(
      t0 === null
        ? 'The finish of the bay was not written down.'
        : 'The heating of this zone was not written down.',
    )
    return { E33: none, E34: none }
  }
  const E34 = (() => {
    if (first === undefined)
      return yes(
        'No heat above keeping warm was applied.',
        running.map(({ entry }) => entry),
      )
    if (firstSeen === null) return unseen('When the defect was seen first is not known.', [first.entry])
    const shown = `First heat ${ageText(t0, first.at)}; ${isCrack ? 'crack' : 'defect'} first seen ${ageText(t0, firstSeen.from)}`
    if (firstSeen.until < first.at) return yes(`${shown}.`, [first.entry])
    return firstSeen.from >= first.at
      ? no(`${shown}.`, [first.entry])
      : unseen(`${shown}: the same day.`, [first.entry])
  })()
  const least = rules.limits[cementBound ? 'heat.firstCementDays' : 'heat.firstCalciumSulfateDays'].value
  const riseMost = rules.limits['heat.riseActK'].value
  if (first !== undefined && daysBetween(t0, first.at) < least) {
    return {
      E33: yes(`Flow ${first.flowC} °C ${ageText(t0, first.at)}; first heat is due from day ${least}.`, [
        first.entry,
      ]),
      E34,
    }
  }
  const days = facts.heatingDays
  const rise = days
    .slice(1)
    .map((day, i) => ({
      ...day,
      riseK: day.flowC - days[i]!.flowC,
      apart: daysBetween(days[i]!.day, day.day),
    }))
    .find(({ riseK, apart }) => riseK > riseMost * Math.max(1, apart))
  if (rise !== undefined)
    return {
      E33: yes(`Flow rose by ${oneDigit(rise.riseK)} K in a day, to ${rise.flowC} °C.`, [rise.entry]),
      E34,
    }
  const gaps = days.slice(1).some((day, i) => daysBetween(days[i]!.day, day.day) > 1.2)
  const entries = [...new Set(days.map(({ entry }) => entry))]
  const shown = `First heat not before day ${least}, no rise above ${riseMost} K a day in ${days.length} days of notes`
  const otherZones = story.neighbours.some(({ body }) => body.zone !== story.zone.id)
  const E33 = gaps
    ? unseen(`${shown}, but there are days without a note.`, entries)
    : otherZones
      ? unseen(`${shown}; whether the zones beside it ran far apart is not in the record.`, entries)
      : no(`${shown}; no other zone on this floor.`, entries)
  return { E33, E34 }
}

function loads(scene: Scene): Record<'E35' | 'E36', Answer> {
  const { facts, rules, t0, asOf, firstSeen, story, place } = scene
  if (t0 === null) {
    const none = unseen('The finish of the bay was not written down.')
    return { E35: none, E36: none }
  }
  const footDays = rules.limits['traffic.footDays'].value
  const wheelsDays = rules.limits['traffic.wheelsDays'].value
  const bareDays = rules.limits['traffic.pointDays'].value
  const dueDays = ({ kind, entry }: TrafficEvent) =>
    kind === 'foot' ? footDays : entry.body.boards ? wheelsDays : bareDays
  const early = facts.traffic.filter((event) => event.ageDays !== null && event.ageDays < dueDays(event))
  const atSpot = early.filter(({ entry: { body } }) => {
    if (place === null || body.x === undefined || body.y === undefined) return true
    return metresToShape(place, { x: body.x, y: body.y }) <= atSpotM
  })
  const worst = atSpot[0]
  const entries = atSpot.map(({ entry }) => entry.id)
  if (worst !== undefined) {
    const { traffic, massKg, boards, x } = worst.entry.body
    const where = place === null || x === undefined ? ', where on the bay is not said' : ', at the spot'
    const because = `${traffic}${massKg === undefined ? '' : ` of ${massKg} kg`} ${oneDigit(worst.ageDays!)} days after the finish${boards ? ' on boards' : ', no boards'}; due from day ${dueDays(worst)}${where}.`
    return { E35: yes(upper(because), entries), E36: no(upper(because), entries) }
  }
  if (early.length > 0) {
    const because = 'The early load was not at this spot.'
    const elsewhere = early.map(({ entry }) => entry.id)
    return { E35: no(because, elsewhere), E36: unseen(because, elsewhere) }
  }
  const until = Math.min(asOf, firstSeen?.from ?? asOf, facts.life.coveredAt ?? asOf)
  const guards = facts.protections.spans.filter(({ what }) => what === 'boards' || what === 'barrier')
  const guarded = spansCover(
    guards.map(({ from, until: end }) => ({ from, until: end ?? asOf })),
    t0 + footDays * dayMs,
    until,
  )
  const kept = entriesOf(story, 'no-traffic-confirmed').map(({ id }) => id)
  const proof = [...guards.map(({ on }) => on.id), ...kept, ...facts.traffic.map(({ entry }) => entry.id)]
  if (guarded && guards.length > 0) {
    const because = 'Boards or a barrier all through, and no early load written down.'
    return { E35: no(because, proof), E36: yes(because, proof) }
  }
  const because =
    facts.traffic.length + kept.length + guards.length === 0
      ? 'Nobody wrote down what went over the bay, or that nothing did.'
      : 'No early load written down, but boards or a barrier did not lie all through.'
  return { E35: unseen(because, proof), E36: unseen(because, proof) }
}

/** True when spans leave less than a day open between the two instants. */
function spansCover(spans: readonly { from: number; until: number }[], from: number, until: number): boolean {
  let reached = from
  for (const span of spans.toSorted((a, b) => a.from - b.from)) {
    if (span.from > reached + dayMs) return false
    reached = Math.max(reached, span.until)
  }
  return reached >= until - dayMs
}

function upper(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}
