import { entriesOf } from '#model/record/story.ts'
import { keepsLimit } from '#model/rules/index.ts'
import type { HeatingDay, HeatingPoint } from '../facts/heating.ts'
import type { BayFacts } from '../facts/index.ts'
import { dayMs, daysBetween, hourMs } from '../facts/time.ts'
import { type AlertRule, type Raised, shows } from '../rule.ts'

/** One reading of the flow may be off by so much; a rise is the difference of two. Our judgement. */
const readingNoiseK = 0.5
const riseNoiseK = readingNoiseK * Math.SQRT2

const isHeated = ({ story, life }: BayFacts) => story.zone.body.heated && life.t0 !== null

const tooEarly: AlertRule = {
  id: 'A31',
  family: 'heating',
  title: 'Heated too early',
  limits: ['heat.functionalC', 'heat.keepWarmMostC', 'heat.firstCementDays', 'heat.firstCalciumSulfateDays'],
  raise: (facts) => {
    if (!isHeated(facts)) return []
    const { life, rules, heating } = facts
    const days = rules.limits[life.cementBound ? 'heat.firstCementDays' : 'heat.firstCalciumSulfateDays']
    const warm = heating.filter(
      ({ at, flowC }) =>
        flowC !== null &&
        at >= life.t0! &&
        !keepsLimit(daysBetween(life.t0!, at), days) &&
        !keepsLimit(flowC, rules.limits['heat.keepWarmMostC']),
    )
    const first = warm[0]
    if (first === undefined) return []
    const hot = warm.filter(({ flowC }) => !keepsLimit(flowC!, rules.limits['heat.functionalC']))
    const hottest = warm.reduce((a, b) => (b.flowC! > a.flowC! ? b : a))
    return [
      {
        severity: hot.length > 0 ? 'act' : 'watch',
        nonconformance: hot.length > 0,
        limit: hot.length > 0 ? 'heat.functionalC' : 'heat.keepWarmMostC',
        since: first.at,
        gradedAt: hot[0]?.at ?? first.at,
        until: null,
        evidence: [
          shows(hottest.entry, 'Hottest flow', hottest.flowC!, '°C', hottest.at),
          shows(first.entry, 'Age when it began', daysBetween(life.t0!, first.at), 'days', first.at),
          shows(null, 'Heating from day', days.value, 'days'),
        ],
        whatToDo:
          'Stop and let it cool slowly. Up to 20 °C to keep frost out is allowed: write down that it is for that.',
      },
    ]
  },
}

/** The change of the hottest flow from one day with a reading to the next, per day. */
function dailyChanges(days: readonly HeatingDay[]) {
  return days.slice(1).map((later, i) => {
    const earlier = days[i]!
    return {
      later,
      earlier,
      kPerDay: (later.flowC - earlier.flowC) / Math.max(1, Math.round(daysBetween(earlier.day, later.day))),
    }
  })
}

const tooFast: AlertRule = {
  id: 'A32',
  family: 'heating',
  title: 'Heated too fast or too hot',
  limits: ['heat.riseWatchK', 'heat.riseActK', 'heat.maxC', 'heat.functionalC'],
  raise: (facts) => {
    if (!isHeated(facts)) return []
    const { rules, heating } = facts
    const whatToDo = 'Hold this step until the plan has caught up; never above the highest flow of the plan.'
    const keeps = (kPerDay: number, id: 'heat.riseWatchK' | 'heat.riseActK') =>
      keepsLimit(kPerDay - riseNoiseK, rules.limits[id])
    const days = facts.heatingDays
    const rises = dailyChanges(days)
      .filter(({ later }) => later.flowC > rules.limits['heat.keepWarmMostC'].value)
      .filter(({ kPerDay, earlier }) => !keeps(kPerDay, 'heat.riseWatchK') && !isSwitchOn(earlier, days))
    const found: Raised[] = []
    const first = rises[0]
    if (first !== undefined) {
      const acts = rises.filter(({ kPerDay }) => !keeps(kPerDay, 'heat.riseActK'))
      found.push({
        severity: acts.length > 0 ? 'act' : 'watch',
        limit: acts.length > 0 ? 'heat.riseActK' : 'heat.riseWatchK',
        since: first.later.at,
        gradedAt: acts.at(-1)?.later.at ?? rises.at(-1)!.later.at,
        until: null,
        evidence: rises.map(({ later, kPerDay }) =>
          shows(later.entry, 'Rise of the flow', kPerDay, 'K/day', later.at),
        ),
        whatToDo,
      })
    }
    const start = days.find(({ flowC }) => !keepsLimit(flowC, rules.limits['heat.keepWarmMostC']))
    const functionalUntil =
      start === undefined ? 0 : start.day + rules.limits['heat.functionalDays'].value * dayMs
    const hotStart = days.filter(
      ({ day, flowC }) =>
        start !== undefined &&
        day >= start.day &&
        day < functionalUntil &&
        !keepsLimit(flowC - readingNoiseK, rules.limits['heat.functionalC']),
    )
    if (hotStart[0] !== undefined) {
      found.push({
        severity: 'watch',
        limit: 'heat.functionalC',
        since: hotStart[0].at,
        until: null,
        evidence: hotStart.map(({ entry, flowC, at }) =>
          shows(entry, 'Flow in the first heating days', flowC, '°C', at),
        ),
        whatToDo: `The first ${rules.limits['heat.functionalDays'].value} days ask for 25 °C, unless the maker’s plan says otherwise.`,
      })
    }
    const over = heating.filter(
      ({ flowC }) => flowC !== null && !keepsLimit(flowC, rules.limits['heat.maxC']),
    )
    if (over[0] !== undefined) {
      found.push({
        severity: 'act',
        limit: 'heat.maxC',
        since: over[0].at,
        until: null,
        evidence: over.slice(0, 20).map(({ entry, flowC, at }) => shows(entry, 'Flow', flowC!, '°C', at)),
        whatToDo,
      })
    }
    return found
  },
}

/** From frost-keeping warmth to the first step is the start of the plan, not a rise within it. */
function isSwitchOn(earlier: HeatingDay, days: readonly HeatingDay[]): boolean {
  const keepWarm = 20
  return earlier.flowC <= keepWarm && days.every(({ day, flowC }) => day > earlier.day || flowC <= keepWarm)
}

const apart: AlertRule = {
  id: 'A33',
  family: 'heating',
  title: 'Heating circuits far apart',
  limits: ['heat.zoneDifferenceK'],
  raise: (facts) => {
    if (!isHeated(facts)) return []
    const { story, heating, rules } = facts
    if (entriesOf(story, 'joint-formed').some(({ body }) => body.joint === 'movement')) return []
    const found: { at: number; value: number; points: [HeatingPoint, HeatingPoint] }[] = []
    const last = new Map<string, HeatingPoint>()
    for (const point of heating) {
      if (point.circuit === null || point.state === 'off') continue
      for (const [circuit, other] of last) {
        if (circuit === point.circuit || point.at - other.at > sameRoundMs) continue
        const value = Math.max(
          difference(point.flowC, other.flowC),
          difference(point.surfaceC, other.surfaceC),
        )
        if (!keepsLimit(value, rules.limits['heat.zoneDifferenceK']))
          found.push({ at: point.at, value, points: [other, point] })
      }
      last.set(point.circuit, point)
    }
    const worst = found.reduce<(typeof found)[number] | null>(
      (a, b) => (a === null || b.value > a.value ? b : a),
      null,
    )
    if (worst === null) return []
    return [
      {
        severity: 'act',
        since: found[0]!.at,
        until: null,
        evidence: [
          shows(null, 'Largest difference', worst.value, 'K', worst.at),
          ...worst.points.map(({ entry, circuit, flowC, surfaceC, at }) =>
            shows(entry, `Circuit ${circuit}`, flowC ?? surfaceC ?? 'not read', '°C', at),
          ),
        ],
        whatToDo: 'Bring the circuits together; where they must differ, part them by a movement joint.',
      },
    ]
  },
}

/** Two circuits read on one round of the house. Our judgement. */
const sameRoundMs = 4 * hourMs

function difference(a: number | null, b: number | null): number {
  return a === null || b === null ? 0 : Math.abs(a - b)
}

const coolingShock: AlertRule = {
  id: 'A34',
  family: 'heating',
  title: 'Cooled too fast',
  limits: ['heat.fallWatchK'],
  raise: (facts) => {
    if (!isHeated(facts)) return []
    const { rules, heating } = facts
    const limit = rules.limits['heat.fallWatchK']
    const falls = dailyChanges(facts.heatingDays)
      .filter(({ kPerDay }) => !keepsLimit(-kPerDay - readingNoiseK, limit))
      .map(({ later, kPerDay }) => ({
        at: later.at,
        evidence: shows(later.entry, 'Fall of the flow', -kPerDay, 'K/day', later.at),
      }))
    // Turned off from far above the first step: nothing but the room holds it then.
    const turnedOff = heating.flatMap((point, i) => {
      const before = heating[i - 1]
      if (point.state !== 'off' || before?.state !== 'running' || before.flowC === null) return []
      const above = before.flowC - rules.limits['heat.functionalC'].value
      return keepsLimit(above, limit)
        ? []
        : [{ at: point.at, evidence: shows(point.entry, 'Turned off at', before.flowC, '°C', point.at) }]
    })
    const all = [...falls, ...turnedOff].sort((a, b) => a.at - b.at)
    if (all[0] === undefined) return []
    return [
      {
        severity: 'watch',
        since: all[0].at,
        gradedAt: all.at(-1)!.at,
        until: null,
        evidence: all.map(({ evidence }) => evidence),
        whatToDo: 'Go down in steps; look for new cracks at thresholds and corners.',
      },
    ]
  },
}

export const heating: readonly AlertRule[] = [tooEarly, tooFast, apart, coolingShock]
