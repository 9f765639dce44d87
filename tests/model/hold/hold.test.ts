// The chain and what waits at each point: common practice of inspection and test plans. Days 4 and 7 of curing and 14 of
// soundness are those of the rules in force (BS 8204-1 and British guidance, quoted second-hand). No measured values here.
import { describe, expect, it } from 'vitest'
import { type HoldLink, holdChainOf, holdOrder, standsAgainstRelease } from '#model/hold/index.ts'
import { checkBody } from '#model/record/check-body.ts'
import { type PersonId, uuidV7From } from '#model/record/ids.ts'
import { type HoldPoint, holdPoints } from '#model/record/people.ts'
import { effectiveRules } from '#model/rules/index.ts'
import { type Alert, isOpen, watchBay } from '#model/watch/index.ts'
import { day, hour, minute, type StoryBuilder, storyOf } from '../../support/story.ts'

const british = effectiveRules('british')
const t0 = Date.parse('2026-03-02T14:00:00Z')
const iso = (at: number) => new Date(at).toISOString()
const second = uuidV7From<'person'>(1, new Uint8Array(10).fill(7)) as PersonId

type Setting = Parameters<typeof storyOf>[0]
/** A bay whose project leaves the choice of hold points open: all that apply bind. */
const bay = (setting: Setting = {}) =>
  storyOf({ ...setting, project: { holdPoints: undefined, ...setting?.project } })

function decide(
  story: StoryBuilder,
  point: HoldPoint,
  at: number,
  decision: 'released' | 'waived' | 'held' = 'released',
  person: PersonId = second,
) {
  return story.note('hold-point-released', at, { point, decision, saw: 'Looked at it closely' }, { person })
}

/** Surveyed and stripped a day before, laid, finished at t0, covered at once. */
function laid(story: StoryBuilder, upTo = 2): StoryBuilder {
  if (upTo < 1) return story
  story.note('base-surveyed', t0 - day, { prepared: 'membrane', dry: true, clean: true, baseC: 12 })
  story.note('edge-strip-fitted', t0 - day + hour, { thicknessMm: 10, complete: true })
  if (upTo < 2) return story
  return story
    .batch(t0 - 3 * hour)
    .lift(1, t0 - 3 * hour, t0 - hour)
    .finished(t0)
    .sheetOn(t0 + hour)
}

function linksOf(story: StoryBuilder, asOf: number): Record<HoldPoint, HoldLink> {
  const chain = holdChainOf(story.build(), asOf, british)
  return Object.fromEntries(chain.map((link) => [link.point, link])) as Record<HoldPoint, HoldLink>
}
const linkOf = (story: StoryBuilder, point: HoldPoint, asOf: number) => linksOf(story, asOf)[point]
const alertsOf = (story: StoryBuilder, asOf: number, rule: string): Alert[] =>
  watchBay(story.build(), asOf, british).filter((alert) => alert.rule === rule)

describe('HOLD-1: the chain of the job', () => {
  it('HOLD-1: has every point of the record once, in the order of the job', () => {
    const chain = holdChainOf(bay().build(), t0, british)
    expect(chain.map(({ point }) => point)).toEqual(Object.keys(holdPoints))
    expect(holdOrder).toHaveLength(11)
    for (const { holdsBack, source, mayRelease } of chain) {
      expect(holdsBack.length).toBeGreaterThan(5)
      expect(source.length).toBeGreaterThan(5)
      expect(mayRelease.length).toBeGreaterThan(0)
      expect(mayRelease).not.toContain('viewer')
    }
  })

  it.each([
    ['pipe pressure', { zone: { heated: false } }, 'does not apply'],
    ['pipe pressure', { zone: { heated: true } }, 'open'],
    ['heating run', { zone: { heated: false } }, 'does not apply'],
    ['heating run', { zone: { heated: true } }, 'open'],
    ['curing day 4', { bay: { screed: 'calcium sulfate' } }, 'does not apply'],
    ['curing day 7', { bay: { screed: 'calcium sulfate' } }, 'does not apply'],
    ['curing day 7', { bay: { screed: 'cement-sand' } }, 'open'],
    ['soundness', { bay: { screed: 'calcium sulfate' } }, 'open'],
  ] as const)('HOLD-2: %s with %j is %s a month after laying', (point, setting, state) => {
    expect(linkOf(laid(bay(setting)), point, t0 + 30 * day).state).toBe(state)
  })

  it('HOLD-3: a project may choose which of them bind; none is chosen by an empty list', () => {
    const chosen = laid(bay({ project: { holdPoints: [{ point: 'soundness' }] } }))
    const links = linksOf(chosen, t0 + 15 * day)
    expect(links.soundness.state).toBe('open')
    expect(links['base survey']).toMatchObject({
      state: 'does not apply',
      because: 'Not chosen for this project.',
      passedBy: [],
    })
    const none = holdChainOf(laid(bay({ project: { holdPoints: [] } })).build(), t0 + 60 * day, british)
    expect(none.every(({ state }) => state === 'does not apply')).toBe(true)
    expect(standsAgainstRelease(none)).toEqual([])
  })

  it('HOLD-4: a point named twice is refused, and a misspelt one too', () => {
    const body = { name: 'Job', timeZone: 'UTC', currency: 'GBP', ruleSet: 'british' }
    const twice = { ...body, holdPoints: [{ point: 'soundness' }, { point: 'soundness' }] }
    expect(checkBody('project-opened', twice).problems.map(({ field }) => field)).toEqual([
      'holdPoints.1.point',
    ])
    expect(checkBody('project-opened', { ...body, holdPoints: [{ point: 'curing day 5' }] }).body).toBeNull()
    expect(checkBody('project-opened', { ...body, holdPoints: [{ point: 'soundness' }] }).problems).toEqual(
      [],
    )
  })
})

describe('HOLD-5: how a point stands', () => {
  const planned = { bay: { plannedFor: iso(t0 - 3 * hour) } }
  it.each([
    ['nothing recorded, planned in three days', t0 - 3 * day, 0, 'not yet due'],
    ['nothing recorded, a day before the pour', t0 - 3 * hour - day, 0, 'open'],
    ['surveyed', t0 - 20 * hour, 1, 'open'],
    ['laid', t0 + hour, 2, 'open'],
  ] as const)('base survey: %s', (_what, asOf, upTo, state) => {
    expect(linkOf(laid(bay(planned), upTo), 'base survey', asOf).state).toBe(state)
  })

  it.each([
    ['curing day 4', 4 * day - minute, 'not yet due'],
    ['curing day 4', 4 * day, 'open'],
    ['curing day 7', 7 * day - minute, 'not yet due'],
    ['curing day 7', 7 * day, 'open'],
    ['soundness', 14 * day - minute, 'not yet due'],
    ['soundness', 14 * day, 'open'],
    ['moisture test', 90 * day, 'not yet due'],
    ['release', 90 * day, 'not yet due'],
  ] as const)('%s, %i ms after the finish, is %s', (point, age, state) => {
    expect(linkOf(laid(bay()), point, t0 + age).state).toBe(state)
  })

  it.each(['released', 'waived', 'held'] as const)(
    'a decision makes it %s, with who, when and what',
    (decision) => {
      const story = decide(laid(bay(), 1), 'base survey', t0 - 10 * hour, decision)
      expect(linkOf(story, 'base survey', t0 - 9 * hour)).toMatchObject({
        state: decision,
        by: second,
        at: t0 - 10 * hour,
        saw: 'Looked at it closely',
        decision: story.last,
      })
      expect(linkOf(story, 'base survey', t0 - 11 * hour).state).toBe('open')
    },
  )

  it('the last decision stands, and a withdrawn one does not', () => {
    const story = decide(laid(bay(), 1), 'base survey', t0 - 10 * hour, 'held')
    decide(story, 'base survey', t0 - 8 * hour)
    const release = story.last
    expect(linkOf(story, 'base survey', t0 - 7 * hour).state).toBe('released')
    story.withdraw(release, t0 - 6 * hour)
    expect(linkOf(story, 'base survey', t0 - 5 * hour).state).toBe('held')
  })

  it('a release noted late counts from when it happened, and is not known before it was written down', () => {
    const story = laid(bay())
    story.note(
      'hold-point-released',
      t0 - 5 * hour,
      { point: 'base survey', decision: 'released', saw: 'Signed on paper' },
      { person: second, recordedAt: t0 + 3 * day },
    )
    const passed = (knownAt?: number) =>
      watchBay(story.build(), t0 + 4 * day, british, knownAt).some(
        ({ rule, evidence }) => rule === 'A49' && evidence.some(({ what }) => what.startsWith('Base survey')),
      )
    expect(passed(t0 + 2 * day)).toBe(true)
    expect(passed()).toBe(false)
  })

  it('a decision on the covering is the decision on the release', () => {
    const covering = 'vinyl' as const
    const refused = laid(bay()).note(
      'bay-decided',
      t0 + 50 * day,
      { decision: 'refused', covering, verdictShown: 'not ready', reasons: [{ reason: 'Damp' }] },
      { person: second },
    )
    expect(linkOf(refused, 'release', t0 + 51 * day)).toMatchObject({ state: 'held', saw: 'Damp' })
    const accepted = refused.note(
      'bay-decided',
      t0 + 60 * day,
      { decision: 'accepted', covering, verdictShown: 'ready', ownReading: '71 % RH' },
      { person: second },
    )
    expect(linkOf(accepted, 'release', t0 + 61 * day)).toMatchObject({ state: 'released', saw: '71 % RH' })
  })

  it('a waiver must give its reason; a release need not be as long', () => {
    const waiver = { point: 'soundness', decision: 'waived', saw: 'ok' }
    expect(checkBody('hold-point-released', waiver).problems.map(({ field }) => field)).toEqual(['saw'])
    const reasoned = { ...waiver, saw: 'Ordered by the client, floor is to be taken up in May' }
    expect(checkBody('hold-point-released', reasoned).problems).toEqual([])
    expect(checkBody('hold-point-released', { ...waiver, decision: 'released' }).problems).toEqual([])
    expect(checkBody('hold-point-released', { ...waiver, decision: 'released', saw: ' ' }).body).toBeNull()
  })
})

describe('HOLD-6: what went past a point', () => {
  const before = ['base survey', 'thickness', 'edge strip'] as const
  it('laying over open points is one alert and a non-conformance, with every point named', () => {
    const story = laid(bay())
    const [alert, ...more] = alertsOf(story, t0 + day, 'A49')
    expect(more).toEqual([])
    expect(alert).toMatchObject({ severity: 'act', nonconformance: true, since: t0 - 3 * hour, until: null })
    expect(alert!.evidence.map(({ what }) => what.split(' had')[0])).toEqual(
      before.map((one) => holdPoints[one]),
    )
    expect(alert!.family).toBe('hold points')
  })

  it.each([
    ['released before', 'released', -5 * hour, 0, 0],
    ['waived before', 'waived', -5 * hour, 0, 0],
    ['held before', 'held', -5 * hour, 1, 1],
    ['released a minute after the first batch', 'released', -3 * hour + minute, 1, 0],
    ['not decided', null, 0, 1, 1],
  ] as const)('base survey %s', (_what, decision, at, found, open) => {
    const story = laid(bay({ project: { holdPoints: [{ point: 'base survey' }] } }))
    if (decision !== null) decide(story, 'base survey', t0 + at, decision)
    const alerts = alertsOf(story, t0 + day, 'A49')
    expect([alerts.length, alerts.filter(isOpen).length]).toEqual([found, open])
    if (decision === 'held') expect(alerts[0]!.severity).toBe('stop')
    const { passedBy } = linkOf(story, 'base survey', t0 + day)
    expect(passedBy.length > 0).toBe(found === 1)
    expect(passedBy.every(({ held }) => held === (decision === 'held'))).toBe(true)
  })

  it.each([
    ['on foot, day 3', { traffic: 'foot' }, 3, ['curing day 4']],
    ['ladder, day 3', { traffic: 'ladder' }, 3, ['curing day 4', 'curing day 7']],
    ['pallet truck, day 8, none released', { traffic: 'pallet truck' }, 8, ['curing day 4', 'curing day 7']],
  ] as const)('traffic %s', (_what, body, days, expected) => {
    const story = laid(bay()).traffic(t0 + days * day, body)
    const links = holdChainOf(story.build(), t0 + 10 * day, british)
    expect(
      links
        .filter(({ passedBy }) => passedBy.some(({ entry }) => entry === story.last))
        .map(({ point }) => point),
    ).toEqual(expected)
  })

  it('lifting the sheet for a look passes nothing; taking it off for good passes the curing points', () => {
    const lifted = laid(bay()).sheetOff(t0 + 2 * day, 'lifted')
    expect(linkOf(lifted, 'curing day 4', t0 + 3 * day).passedBy).toEqual([])
    const off = laid(bay()).sheetOff(t0 + 5 * day)
    expect(linkOf(off, 'curing day 4', t0 + 6 * day).passedBy).toHaveLength(1)
    expect(linkOf(off, 'curing day 7', t0 + 6 * day).state).toBe('open')
  })

  it('covering passes everything behind it that is still open, and nothing that was let go', () => {
    const story = laid(bay())
    for (const point of before) decide(story, point, t0 - 4 * hour)
    decide(story, 'soundness', t0 + 20 * day)
    story.note('covering-laid', t0 + 40 * day, { on: '2026-04-11', covering: 'Vinyl' })
    const passed = holdChainOf(story.build(), t0 + 41 * day, british).filter(
      ({ passedBy }) => passedBy.length > 0,
    )
    expect(passed.map(({ point }) => point)).toEqual(['regularity', 'moisture test', 'release'])
  })

  it('a box set before the heating run was let go passes it', () => {
    const box = (story: StoryBuilder) =>
      story.note('moisture-read', t0 + 50 * day, {
        method: 'hygrometer box',
        point: 'B1',
        setAt: iso(t0 + 46 * day),
        readings: [{ at: iso(t0 + 50 * day), rhPercent: 72 }],
      })
    const heated = () => laid(bay({ zone: { heated: true } }))
    expect(linkOf(box(heated()), 'heating run', t0 + 51 * day).passedBy).toHaveLength(1)
    const late = decide(box(heated()), 'heating run', t0 + 47 * day)
    expect(linkOf(late, 'heating run', t0 + 51 * day).passedBy).toHaveLength(1)
    const early = decide(box(heated()), 'heating run', t0 + 45 * day)
    expect(linkOf(early, 'heating run', t0 + 51 * day).passedBy).toEqual([])
  })

  it('an as-of before the passing knows nothing of it', () => {
    expect(alertsOf(laid(bay()), t0 - 4 * hour, 'A49')).toEqual([])
  })
})

describe('HOLD-7: a point that is held', () => {
  it.each([
    ['before laying', 1, t0 - 10 * hour, 'stop'],
    ['once it is laid', 2, t0 + day, 'act'],
  ] as const)('%s', (_what, upTo, asOf, severity) => {
    const story = laid(bay({ project: { holdPoints: [{ point: 'base survey' }] } }), upTo)
    decide(story, 'base survey', t0 - 11 * hour, 'held')
    expect(alertsOf(story, asOf, 'A50').map((alert) => alert.severity)).toEqual([severity])
    decide(story, 'base survey', asOf)
    expect(alertsOf(story, asOf + minute, 'A50')).toEqual([])
  })
})

describe('HOLD-8: a release in doubt', () => {
  const findings = (story: StoryBuilder, point: HoldPoint, asOf = t0 + 30 * day) =>
    linkOf(story, point, asOf).findings.map(({ what }) => what)

  it('by the person who wrote down the work', () => {
    const own = laid(bay())
    decide(own, 'curing day 4', t0 + 4 * day, 'released', own.person)
    expect(findings(own, 'curing day 4')).toEqual(['The same person wrote down the work and let it go.'])
    expect(alertsOf(own, t0 + 5 * day, 'A51')).toMatchObject([{ severity: 'watch', since: t0 + 4 * day }])
    const other = decide(laid(bay()), 'curing day 4', t0 + 4 * day)
    expect(findings(other, 'curing day 4')).toEqual([])
    expect(alertsOf(other, t0 + 5 * day, 'A51')).toEqual([])
  })

  it('before its time, and with nothing to show; a waiver says itself that nothing was shown', () => {
    expect(findings(decide(laid(bay()), 'curing day 7', t0 + 5 * day), 'curing day 7')).toEqual([
      'Let go 2 days before its time.',
    ])
    expect(findings(decide(laid(bay()), 'soundness', t0 + 20 * day), 'soundness')).toEqual([
      'Let go with nothing in the record that shows it.',
    ])
    expect(findings(decide(laid(bay()), 'soundness', t0 + 20 * day, 'waived'), 'soundness')).toEqual([])
    expect(findings(decide(laid(bay()), 'soundness', t0 + 20 * day, 'held'), 'soundness')).toEqual([])
  })
})

describe('HOLD-9: what stands against a release to cover', () => {
  const points = [
    'base survey',
    'thickness',
    'edge strip',
    'curing day 4',
    'curing day 7',
    'soundness',
    'regularity',
    'moisture test',
  ] as const
  it('nothing, once every point before it is released or waived', () => {
    const story = laid(bay())
    for (const [i, point] of points.entries())
      decide(story, point, t0 + 40 * day, i % 2 === 0 ? 'released' : 'waived')
    expect(standsAgainstRelease(holdChainOf(story.build(), t0 + 41 * day, british))).toEqual([])
  })

  it.each(points)('%s alone, left open or held, stands against it', (left) => {
    const story = laid(bay())
    for (const point of points) if (point !== left) decide(story, point, t0 + 40 * day)
    const against = () =>
      standsAgainstRelease(holdChainOf(story.build(), t0 + 41 * day, british)).map(({ point }) => point)
    expect(against()).toEqual([left])
    decide(story, left, t0 + 40 * day, 'held')
    expect(against()).toEqual([left])
  })
})
