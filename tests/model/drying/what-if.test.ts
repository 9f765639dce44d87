import { describe, expect, it } from 'vitest'
import { forecastInputOfStory, forecastOfStory } from '#model/drying/index.ts'
import { waterOfPropane } from '#model/drying/what-if/cautions.ts'
import {
  balancedRhPercent,
  costOfWay,
  dryAirDensityKgM3,
  isFound,
  type Machines,
  meansOfWay,
  type Prices,
  type RoomPlan,
  shareOfRated,
  type WayFound,
  type WayId,
  waterCarriedKgPerDay,
  wayIds,
  waysOfStories,
} from '#model/drying/what-if/index.ts'
import { airChangesFromBalance } from '#model/drying/what-if/room-air.ts'
import { InputError } from '#model/errors.ts'
import type { BayStory } from '#model/record/story.ts'
import { airGrid, psychrolib } from '../../published/psychrolib.ts'
import { day, hour, instant, type StoryBuilder, storyOf } from '../../support/story.ts'

const laid = instant('2026-01-06T15:00Z')
const asOf = laid + 40 * day
const winter = { airC: 4, rhPercent: 85 }
const plan: RoomPlan = {
  heightM: 2.5,
  outdoor: winter,
  shutAirChangesPerH: 0.5,
  airChangesPerH: 2,
  heatToC: 22,
  dryToRhPercent: 45,
  heatedScreedC: 27,
}
const machines: Machines = {
  shellLossWPerK: 60,
  heaterKW: 3,
  dehumidifier: { kind: 'condensing', kgPerDay: 30, rated: { airC: 30, rhPercent: 80 }, kW: 0.9 },
  fan: { m3PerH: null, kW: null },
}
const prices: Prices = {
  heatPerKWh: 0.1,
  electricityPerKWh: 0.3,
  heaterPerDay: 5,
  dehumidifierPerDay: 12,
  fanPerDay: 2,
  dayOfDelay: 100,
}

/** Laid, covered for a week, then read twice a day in a cool damp room. */
function usual(zone: object = {}, room = { airC: 15, rhPercent: 66 }): StoryBuilder {
  const builder = storyOf({ zone: { moistureMethod: 'probe', ...zone } })
  builder.finished(laid).sheetOn(laid + hour)
  builder.sheetOff(laid + 7 * day)
  for (let i = 14; i < 80; i++) builder.air(laid + (i * day) / 2, room)
  return builder
}
function compare(
  stories: BayStory[],
  change: Partial<RoomPlan> = {},
  ways: readonly WayId[] = wayIds,
  at: number = asOf,
) {
  return waysOfStories(stories, {
    asOf: at,
    ways,
    plan: { ...plan, ...change },
    inputOf: (story) => forecastInputOfStory(story, { covering: story.zone.body.covering, asOf: at }),
    dayOf: (ms) => new Date(ms).toISOString().slice(0, 10),
  })
}
function wayOf(found: ReturnType<typeof compare>, way: WayId): WayFound {
  const one = found.ways.find((each) => each.way === way)
  if (one === undefined || !isFound(one)) throw new Error(`${way} was not found.`)
  return one
}

describe('the air of a room', () => {
  // ASHRAE Handbook Fundamentals equations, computed by psychrolib 1.1.1: published.
  it.each([
    [
      { airC: 20, rhPercent: 60 },
      { airC: 5, rhPercent: 80 },
    ],
    [
      { airC: 15, rhPercent: 70 },
      { airC: -5, rhPercent: 90 },
    ],
    [
      { airC: 25, rhPercent: 45 },
      { airC: 18, rhPercent: 75 },
    ],
  ])('WAY-1: water carried out by air is V·n·Δc of moist air, as psychrolib has it', (room, outdoor) => {
    const ratio = ({ airC, rhPercent }: typeof room) =>
      psychrolib.GetHumRatioFromRelHum(airC, rhPercent / 100, 101_325)
    const perM3 = 1 / psychrolib.GetMoistAirVolume(room.airC, ratio(room), 101_325)
    const expected = 24 * 500 * 1.5 * perM3 * (ratio(room) - ratio(outdoor))
    const carried = waterCarriedKgPerDay({ volumeM3: 500, airChangesPerH: 1.5, room, outdoor })
    // 0.4 %: the two formulas of saturation pressure differ by 0.27 %, at two states.
    expect(Math.abs(carried - expected)).toBeLessThan(
      0.004 * Math.abs(expected) + 0.004 * 18_000 * perM3 * ratio(room),
    )
    expect(carried / expected).toBeCloseTo(1, 1)
  })

  it('WAY-23: dry air in a cubic metre is that of psychrolib, −10 to 40 °C and 5 to 100 %', () => {
    // ASHRAE Handbook Fundamentals equations, computed by psychrolib 1.1.1: published.
    for (const { tempC, rhPercent } of airGrid) {
      const ratio = psychrolib.GetHumRatioFromRelHum(tempC, rhPercent / 100, 101_325)
      const expected = 1 / psychrolib.GetMoistAirVolume(tempC, ratio, 101_325)
      const found = dryAirDensityKgM3({ airC: tempC, rhPercent })
      // 0.1 %: the vapour pressures differ by 0.27 %, and vapour is at most 7 % of the air.
      expect(Math.abs(found / expected - 1), `${tempC} °C, ${rhPercent} %`).toBeLessThan(0.001)
    }
  })

  it('WAY-2: the balanced humidity carries off exactly what the floor gives', () => {
    const gives = (rhPercent: number) => Math.max(0, 40 * (1 - rhPercent / 95))
    const room = { volumeM3: 500, airChangesPerH: 1, outdoor: winter, airC: 20 }
    const rhPercent = balancedRhPercent({ ...room, waterKgPerDay: gives })
    const carried = waterCarriedKgPerDay({ ...room, room: { airC: 20, rhPercent } })
    expect(carried).toBeCloseTo(gives(rhPercent), 1)
    expect(
      airChangesFromBalance({ ...room, room: { airC: 20, rhPercent }, waterKgPerDay: carried }),
    ).toBeCloseTo(1, 6)
  })

  it('WAY-3: without water from the floor a room takes the water content of outdoors', () => {
    const rhPercent = balancedRhPercent({
      volumeM3: 500,
      airChangesPerH: 1,
      outdoor: winter,
      airC: 20,
      waterKgPerDay: () => 0,
    })
    const outside = psychrolib.GetHumRatioFromRelHum(4, 0.85, 101_325)
    expect(psychrolib.GetHumRatioFromRelHum(20, rhPercent / 100, 101_325)).toBeCloseTo(outside, 4)
  })

  it('WAY-4: more air is never damper in winter, and air as damp as the room tells nothing of air changes', () => {
    const rh = [0.2, 0.5, 1, 2, 5].map((airChangesPerH) =>
      balancedRhPercent({
        volumeM3: 300,
        airChangesPerH,
        outdoor: winter,
        airC: 18,
        waterKgPerDay: () => 15,
      }),
    )
    expect(rh.toSorted((a, b) => b - a)).toEqual(rh)
    const damp = { volumeM3: 300, room: { airC: 18, rhPercent: 60 }, outdoor: { airC: 18, rhPercent: 60 } }
    expect(airChangesFromBalance({ ...damp, waterKgPerDay: 10 })).toBeNull()
  })
})

describe('ways set beside each other', () => {
  const story = usual().build()
  const found = compare([story])

  it('WAY-5: waiting is the bay’s own forecast', () => {
    const own = forecastOfStory(story, { covering: story.zone.body.covering, asOf })
    const { p10, p50, p90, notReachedProbability, daysGained } = wayOf(found, 'wait')
    expect({ p10, p50, p90, notReachedProbability }).toEqual({
      p10: own.p10,
      p50: own.p50,
      p90: own.p90,
      notReachedProbability: own.notReachedProbability,
    })
    expect(daysGained).toBe(0)
  })

  it('WAY-6: winter air and drying bring the date forward; more of both more so', () => {
    const gained = (way: WayId) => wayOf(found, way).daysGained ?? Number.NaN
    expect(gained('ventilate')).toBeGreaterThan(10)
    expect(gained('dehumidify')).toBeGreaterThan(10)
    expect(gained('heat and dehumidify')).toBeGreaterThan(gained('dehumidify'))
    expect(gained('heat and ventilate')).toBeGreaterThan(gained('heat'))
    expect(wayOf(found, 'ventilate').room.rhPercent).toBeLessThan(66)
  })

  it('WAY-7: the humidity of a way is the balance with the water shown beside it', () => {
    const { room, water, airChangesPerH } = wayOf(found, 'heat and ventilate')
    const carried = waterCarriedKgPerDay({
      volumeM3: found.room!.volumeM3,
      airChangesPerH: airChangesPerH!,
      room,
      outdoor: winter,
    })
    expect(carried).toBeCloseTo(water.firstWeekKgPerDay, 1)
    expect(water.leakKgPerDay).toBeCloseTo(-carried, 6)
    expect(water.firstDayKg).toBeGreaterThan(water.meanKgPerDay)
    expect(water.totalKg).toBeCloseTo(water.meanKgPerDay * water.days, 6)
  })

  it('WAY-8: air that would wet the floor is said so, and does not bring the date forward', () => {
    const muggy = compare([story], { outdoor: { airC: 26, rhPercent: 85 } }, ['wait', 'ventilate'])
    const way = wayOf(muggy, 'ventilate')
    expect(way.cautions[0]).toMatchObject({ stops: true })
    expect(way.cautions.map(({ says }) => says).join(' ')).toMatch(
      /condense.*Ventilating would wet the floor/s,
    )
    expect(way.p50).toBeNull()
    expect(way.daysGained).toBeNull()
  })

  it('WAY-9: what is missing is named, way by way, and nothing is made up for it', () => {
    const unknown = compare([story], { outdoor: null })
    const lacking = Object.fromEntries(unknown.ways.map((way) => [way.way, isFound(way) ? [] : way.lacks]))
    for (const way of ['ventilate', 'heat', 'heat and ventilate'])
      expect(lacking[way]!.join(' ')).toMatch(/Outdoor air: temperature and humidity/)
    expect(lacking['floor heating']!.join(' ')).toMatch(/not every one of these bays has it/)
    expect([lacking.wait, lacking.dehumidify]).toEqual([[], []])
    expect(wayOf(unknown, 'dehumidify').water.leakKgPerDay).toBeNull()
    const notLaid = compare([storyOf({}).build()])
    expect(notLaid.ways).toEqual([])
    expect(notLaid.without[0]!.missing.join(' ')).toMatch(/When the bay was laid/)
  })

  it('WAY-10: outdoor readings of the record stand in for typed ones', () => {
    const read = usual()
    for (let i = 0; i < 10; i++)
      read.air(asOf - i * day, { airC: 2 + (i % 2) * 4, rhPercent: 80, place: 'outside' })
    const { room } = compare([read.build()], { outdoor: null, shutAirChangesPerH: null }, ['wait'])
    expect(room!.outdoor).toMatchObject({ value: { airC: 4, rhPercent: 80 }, from: 'record' })
    expect(room!.shutAirChangesPerH.from).toBe('worked out')
  })

  it('WAY-11: a bay under its sheet is neither heated nor dried before its curing ends', () => {
    const early = laid + 3 * day
    const builder = storyOf({ zone: { moistureMethod: 'probe' } })
      .finished(laid)
      .sheetOn(laid + hour)
    builder.air(laid + day, { airC: 15, rhPercent: 66 })
    const young = compare([builder.build()], {}, ['wait', 'dehumidify'], early)
    const way = wayOf(young, 'dehumidify')
    expect(way.cautions.filter(({ stops }) => stops).map(({ says }) => says)).toEqual([
      expect.stringMatching(/is curing until 2026-01-13/),
      expect.stringMatching(/no drying by force until 2026-01-20, 7 days after curing/),
    ])
    expect(Date.parse(way.from)).toBe(laid + 7 * day)
    expect(wayOf(young, 'wait').cautions).toEqual([])
  })

  it('WAY-12: floor heating stands only where the floor has it, and only by its protocol', () => {
    const heated = compare([usual({ heated: true }).build()], {}, ['wait', 'floor heating'])
    const way = wayOf(heated, 'floor heating')
    expect(way.room.screedC).toBe(27)
    expect(way.daysGained).toBeGreaterThan(10)
    expect(way.cautions.map(({ says }) => says).join(' ')).toMatch(/Only by the heating protocol/)
    const hot = compare([usual({ heated: true }).build()], { heatedScreedC: 33 }, ['wait', 'floor heating'])
    expect(wayOf(hot, 'floor heating').cautions[0]).toMatchObject({ stops: true })
  })

  it('WAY-13: two bays of a room give their water together, and the slower one gives the dates', () => {
    const thick = usual().finished(laid, { meanThicknessMm: 95 }).build()
    const slow = { ...thick, bay: { ...thick.bay, id: 'other' as typeof thick.bay.id } }
    const both = compare([story, slow], {}, ['wait', 'dehumidify'])
    const way = wayOf(both, 'dehumidify')
    expect(way.slowest).toBe('other')
    expect(way.p50).toBe(way.bays.find(({ bay }) => bay === 'other')!.p50)
    expect(way.water.firstDayKg).toBeGreaterThan(1.5 * wayOf(found, 'dehumidify').water.firstDayKg)
    expect(both.room!.areaM2).toBeCloseTo(2 * found.room!.areaM2, 6)
  })

  it('WAY-14: an impossible plan names its field', () => {
    expect(() => compare([story], { airChangesPerH: 0 })).toThrow(InputError)
    expect(() => compare([story], { outdoor: { airC: 4, rhPercent: 120 } })).toThrow(/outdoor\.rhPercent/)
  })

  it('WAY-15: progress reaches its end', () => {
    const told: number[] = []
    waysOfStories(
      [story],
      {
        asOf,
        ways: ['wait', 'heat', 'floor heating'],
        plan,
        inputOf: (one) => forecastInputOfStory(one, { covering: one.zone.body.covering, asOf }),
        dayOf: String,
      },
      (done, of) => told.push(done / of),
    )
    expect(told.at(-1)).toBe(1)
    expect(told).toHaveLength(3)
  })
})

describe('what a way takes and costs', () => {
  const mild = { airC: 12, rhPercent: 95 }
  const found = compare([usual().build()], { outdoor: mild })
  const waiting = wayOf(found, 'wait')
  const meansOf = (way: WayId, change: Partial<Machines> = {}) =>
    meansOfWay(wayOf(found, way), waiting, found.room!, { ...machines, ...change })

  it('WAY-16: a rating at 30 °C and 80 % leaves 0.4 to 0.5 of itself at 20 °C and 60 %', () => {
    // Common practice; the same range as in `equipmentFor`.
    const share = shareOfRated({ airC: 20, rhPercent: 60 }, { airC: 30, rhPercent: 80 })
    expect(share).toBeGreaterThan(0.4)
    expect(share).toBeLessThan(0.5)
    // ASHRAE equations by psychrolib: published. 0.3 %: the formulas of saturation pressure differ by 0.27 %.
    const expected = (0.6 * psychrolib.GetSatVapPres(20)) / (0.8 * psychrolib.GetSatVapPres(30))
    expect(Math.abs(share / expected - 1)).toBeLessThan(0.003)
  })

  it('WAY-17: machines take the water of the floor and of the air that leaks in', () => {
    const { drying } = meansOf('heat and dehumidify')
    const { water, room } = wayOf(found, 'heat and dehumidify')
    const share = shareOfRated(room, machines.dehumidifier.rated)
    expect(drying!.ratedKgPerDay * share).toBeCloseTo(
      Math.max(0, water.sizingKgPerDay + water.leakKgPerDay!),
      9,
    )
    expect(drying!.units).toBe(Math.ceil(drying!.ratedKgPerDay / 30))
    expect(
      meansOf('dehumidify', { dehumidifier: { ...machines.dehumidifier, kgPerDay: null } }).drying!.units,
    ).toBeNull()
  })

  it('WAY-18: a condensing machine is not offered where its coil ices over', () => {
    const cold = compare([usual({}, { airC: 6, rhPercent: 70 }).build()], {}, ['wait', 'dehumidify'])
    const of = (kind: 'condensing' | 'desiccant') =>
      meansOfWay(wayOf(cold, 'dehumidify'), wayOf(cold, 'wait'), cold.room!, {
        ...machines,
        dehumidifier: { ...machines.dehumidifier, kind },
      })
    expect(of('condensing').drying!.unsuitable).toMatch(/ices over/)
    expect(of('desiccant').drying!.unsuitable).toBeNull()
  })

  it('WAY-19: heat is air, evaporation and shell over waiting; an unknown shell makes it a least', () => {
    const { heat } = meansOf('heat and ventilate')
    // 2 air changes of 2.5 m over the area from 12 to 22 °C, less 0.5 from 12 to 15 °C, at about 1.2 kg/m³.
    const { volumeM3 } = found.room!
    const byHand = ((volumeM3 * 1.19 * 1.006) / 3600) * (2 * 10 - 0.5 * 3)
    expect(Math.abs(heat!.airKW / byHand - 1)).toBeLessThan(0.02)
    expect(heat!.shellKW).toBeCloseTo(0.06 * (22 - waiting.room.airC), 6)
    expect(heat!.totalKW).toBeCloseTo(heat!.airKW + heat!.evaporationKW + heat!.shellKW!, 9)
    const unknown = meansOf('heat and ventilate', { shellLossWPerK: null })
    expect(unknown.heat!.shellKW).toBeNull()
    expect(meansOf('ventilate', { shellLossWPerK: null }).heat!.shellKW).toBe(0)
  })

  it('WAY-20: cost is hire and energy until the date, by hand', () => {
    const way = wayOf(found, 'heat and dehumidify')
    const means = meansOf('heat and dehumidify')
    const cost = costOfWay(way, means, machines, prices)
    const days = Math.ceil((Date.parse(way.p50!) - Date.parse(way.from)) / day)
    expect(cost.days.likely).toBe(days)
    const runs = Math.max(0, way.water.meanKgPerDay + way.water.leakKgPerDay!) / (30 * means.drying!.share)
    const perDay =
      24 * means.heat!.totalKW * 0.1 + runs * 24 * 0.9 * 0.3 + means.heaters! * 5 + means.drying!.units! * 12
    expect(cost.cost!.likely).toBeCloseTo(perDay * days, 6)
    expect(cost.cost!.cautious!).toBeGreaterThan(cost.cost!.likely!)
    expect(cost.gained).toBe(100 * Math.round(way.daysGained!))
    expect(cost.lacks).toEqual([])
  })

  it('WAY-21: a rate that nobody typed leaves the cost not known, and names it', () => {
    const way = wayOf(found, 'heat and dehumidify')
    const none = Object.fromEntries(Object.keys(prices).map((name) => [name, null])) as unknown as Prices
    const cost = costOfWay(way, meansOf('heat and dehumidify'), machines, none)
    expect(cost.cost).toBeNull()
    expect(cost.gained).toBeNull()
    expect(cost.lacks).toEqual(
      expect.arrayContaining([
        'price of heat',
        'hire of a dehumidifier',
        'price of electricity',
        'hire of a heater',
      ]),
    )
    expect(costOfWay(waiting, meansOf('wait'), machines, none)).toMatchObject({
      cost: { likely: 0 },
      lacks: [],
    })
  })

  it('WAY-22: burning propane gives 1.63 kg of water per kilogram', () => {
    // C3H8 + 5 O2 → 3 CO2 + 4 H2O with 44.1 and 18.0 g/mol: published.
    expect(waterOfPropane).toBeCloseTo(72.06 / 44.1, 2)
  })
})
