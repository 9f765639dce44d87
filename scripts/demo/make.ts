import type { HeatingStep } from '#model/drying/index.ts'
import type { BayId, FloorId, PersonId, ProjectId, ZoneId } from '#model/record/ids.ts'
import { careForBay, logClimate } from './after-care.ts'
import { type Book, openBook } from './book.ts'
import { type Cast, introduceCast, saltCheck } from './cast.ts'
import { type Chance, chanceFrom, round } from './chance.ts'
import { followFaults } from './fault.ts'
import { confirmHeating, heatingDaysC, runHeating, testPipes } from './heating.ts'
import { type FollowedBay, letGoHoldPoints } from './hold-points.ts'
import { drawPhotos } from './photos.ts'
import { pourBay, prepareBase } from './pour.ts'
import { boxTest, carbideTest, probeReading, testBody } from './proof.ts'
import { type BayPlan, bayPlans, floorPlans, zonePlans } from './scenario.ts'
import { dayMs, hourMs, iso, minuteMs, siteClock, siteZone } from './site-clock.ts'
import { dryForReal, type TrueBay } from './true-bay.ts'
import { inventWinter, type RoomKeeping, roomAir, type Weather } from './weather.ts'
import { writePages } from './write.ts'

export interface DemoOptions {
  seed?: number
  /** The instant at which the demonstration stands; its days count back from here. */
  now: number
}

/**
 * Writes the demonstration project into a new record: an invented winter job that goes through the ledger like real
 * entries. One seed and one `now` always give the same project (the device key apart). Moisture readings come from
 * the drying model with noise and say so.
 */
export async function makeDemo(file: string, { seed = 20, now }: DemoOptions): Promise<void> {
  const chance = chanceFrom(seed)
  const site = siteClock(now)
  const openedAt = site(140, '09:00')
  const coldNight = site(65 - 1, '03:00')
  const weather = inventWinter(chance, openedAt, now + 2 * dayMs, [{ at: coldNight, lowestC: -6.5 }])

  const projectId = chance.id<'project'>(openedAt)
  const book = openBook(projectId, chance, now)
  const cast = openJob(book, projectId, openedAt, chance)
  const zones = addBuilding(book, cast, openedAt + hourMs)

  for (const [key, zone] of Object.entries(zonePlans)) {
    if (!zone.heated) continue
    testPipes(book, cast, zones[key as keyof typeof zonePlans].zone, site(120, '10:00'))
  }
  const heatingOff = {
    groundEast: runHeating(book, cast, zones.groundEast.zone, site(84, '07:30'), chance),
    groundWest: runHeating(book, cast, zones.groundWest.zone, site(52, '07:30'), chance),
  }
  for (const daysAgo of [135, 110, 85, 62, 40, 22, 9]) {
    saltCheck(book, cast, cast.hygrometer, site(daysAgo, '16:30'), round(75 + chance.noise(0.6), 1))
  }
  saltCheck(book, cast, cast.oldHygrometer, site(70, '16:45'), 71.4)

  const followed: FollowedBay[] = []
  for (const plan of bayPlans) {
    const { zone } = zones[plan.zone]
    const bay = book.note('bay-planned', {
      at: openedAt + 3 * hourMs,
      person: cast.qualityManager,
      body: plannedBody(plan, zone, site),
    }) as unknown as BayId
    followed.push(layAndFollow({ book, cast, bay, plan, weather, site, chance, now, heatingOff, coldNight }))
  }
  for (const bay of followed) letGoHoldPoints(book, cast, bay)
  forecastTheWeek(book, cast, projectId, site)
  for (const bay of followed) followFaults(book, cast, bay)
  await drawPhotos(file, book)
  writePages(file, book.pages(), { now, project: projectId, chance })
}

function openJob(book: Book, project: ProjectId, openedAt: number, chance: Chance): Cast {
  const qualityManager = chance.id<'person'>(openedAt)
  book.begin('project-opened', project, {
    at: openedAt,
    person: qualityManager,
    body: {
      name: 'Winter job (demonstration)',
      client: 'Invented for this demonstration',
      contract: 'Invented',
      timeZone: siteZone,
      currency: 'GBP',
      ruleSet: 'british',
    },
  })
  book.begin('person-added', qualityManager, {
    at: openedAt,
    person: qualityManager,
    body: { name: 'Nora Vale', firm: 'Screed contractor', role: 'quality manager' },
  })
  return introduceCast(book, openedAt, qualityManager as PersonId, chance)
}

type ZoneKey = keyof typeof zonePlans

function addBuilding(book: Book, cast: Cast, at: number): Record<ZoneKey, { floor: FloorId; zone: ZoneId }> {
  const person = cast.qualityManager
  const floors = new Map<string, FloorId>()
  for (const [key, floor] of Object.entries(floorPlans)) {
    const { name, level, base, baseJoints } = floor
    const id = book.note('floor-added', {
      at,
      person,
      body: { name, level, base, baseJoints: [...baseJoints] },
    })
    floors.set(key, id as unknown as FloorId)
  }
  const zones = Object.entries(zonePlans).map(([key, { floor, ...zone }]) => {
    const floorId = floors.get(floor)!
    const id = book.note('zone-added', { at: at + 60_000, person, body: { ...zone, floor: floorId } })
    return [key, { floor: floorId, zone: id as unknown as ZoneId }] as const
  })
  return Object.fromEntries(zones) as Record<ZoneKey, { floor: FloorId; zone: ZoneId }>
}

function plannedBody(plan: BayPlan, zone: ZoneId, site: ReturnType<typeof siteClock>) {
  const { x, y, w, h } = plan.rect
  const flowing = plan.screed === 'calcium sulfate'
  return {
    zone,
    name: plan.name,
    outline: [
      { x, y },
      { x: x + w, y },
      { x: x + w, y: y + h },
      { x, y: y + h },
    ],
    screed: plan.screed,
    designation: flowing ? 'CAF-C25-F5' : 'CT-C25-F4',
    construction: plan.construction,
    designThicknessMm: plan.thicknessMm,
    minThicknessMm: plan.construction === 'floating' ? 65 : flowing ? 30 : 50,
    ...(flowing ? {} : { cementClass: 'N' as const, fcm28MPa: 28 }),
    membrane: 'Polyethylene 250 µm, laps taped',
    ...(plan.construction === 'floating' ? { insulation: 'Rigid boards 80 mm', pipeCoverMm: 50 } : {}),
    ...(plan.laidDaysAgo < 0 ? { plannedFor: iso(site(plan.laidDaysAgo, plan.laidAt)) } : {}),
  }
}

interface Following {
  book: Book
  cast: Cast
  bay: BayId
  plan: BayPlan
  weather: Weather
  site: ReturnType<typeof siteClock>
  chance: Chance
  now: number
  heatingOff: { groundEast: number; groundWest: number }
  coldNight: number
}

function layAndFollow({
  book,
  cast,
  bay,
  plan,
  weather,
  site,
  chance,
  now,
  heatingOff,
  coldNight,
}: Following): FollowedBay {
  const inHand = plan.laidAt === 'now'
  const startAt = inHand ? now - 75 * minuteMs : site(plan.laidDaysAgo, plan.laidAt)
  if (startAt > now) {
    const surveyedAt = now - 4 * hourMs
    prepareBase(book, cast, bay, surveyedAt, chance)
    book.note('protection-on', {
      subject: bay,
      at: now - 3 * hourMs,
      person: cast.supervisor,
      body: { what: 'electric heater', planned: true, note: 'Two heaters and blankets booked for the night' },
    })
    return { bay, plan, surveyedAt, finishAt: null, testedAt: null }
  }
  if (plan.laidDaysAgo <= 5) {
    const body = { what: 'electric heater', note: 'Two heaters and a thermostat at 14 °C' } as const
    book.note('protection-on', { subject: bay, at: startAt - 2 * hourMs, person: cast.supervisor, body })
  }
  const finishAt = pourBay(book, cast, bay, plan, startAt, chance)
  const keeping: RoomKeeping = {
    ...(plan.zone === 'groundEast' || plan.zone === 'groundWest'
      ? { setC: 20, leak: 0.06, moistureGPerM3: 1.6 }
      : { setC: 17.5, leak: 0.12, moistureGPerM3: 1.9 }),
    ...(plan.fate === 'frozen on night 2'
      ? { heaterOff: { from: coldNight - 9 * hourMs, until: coldNight + 5 * hourMs, leak: 0.95 } }
      : {}),
  }
  const room = roomAir(weather, keeping, startAt - 6 * hourMs, now, chance)
  logClimate(book, cast, bay, plan, room, startAt, finishAt, now, chance)
  const laid: FollowedBay = { bay, plan, surveyedAt: startAt - dayMs, finishAt, testedAt: null }
  if (finishAt > now) return { ...laid, finishAt: null }
  const uncoveredAt = careForBay(book, cast, bay, plan, finishAt)
  testBody(book, cast, bay, plan, finishAt, plan.zone.startsWith('ground') ? '2' : '4', chance)
  noteDefects(book, cast, bay, plan, finishAt)
  if (now < uncoveredAt + 3 * dayMs) return laid

  const offAt = plan.zone === 'groundEast' ? heatingOff.groundEast : heatingOff.groundWest
  const heating = plan.zone.startsWith('ground') ? heatingSteps(offAt, finishAt, now) : []
  if (heating.at(-1)?.flowC === null) confirmHeating(book, cast, bay, offAt + 3 * hourMs)
  const truth = dryForReal(plan, room, finishAt, Math.min(uncoveredAt, now - hourMs), now, heating)
  const { x, y, w, h } = plan.rect
  if (plan.fate === 'tested well' || plan.fate === 'tested badly')
    readFloorToday(book, cast, bay, truth, now - 100 * minuteMs)
  if (plan.fate === 'tested well') {
    const places = [
      { point: 'B1', x: x + 0.8, y: y + 0.8, wettest: true },
      { point: 'B2', x: x + w / 2, y: y + h / 2, wettest: false },
      { point: 'B3', x: x + w - 0.9, y: y + h - 1, wettest: false },
    ]
    for (const place of places) {
      const test = {
        ...place,
        setAt: site(9, '09:30'),
        hours: 72,
        instrument: cast.hygrometer,
        heatingOffSince: offAt,
        repeat: true,
      }
      boxTest(book, cast, bay, truth, test, chance)
    }
    return { ...laid, testedAt: site(9, '09:30') + 4 * dayMs }
  }
  if (plan.fate === 'tested badly') {
    const test = {
      point: 'B1',
      x: x + 1,
      y: y + 1,
      wettest: false,
      setAt: site(12, '14:00'),
      hours: 20,
      instrument: cast.oldHygrometer,
      heatingOffSince: offAt,
      repeat: false,
    }
    boxTest(book, cast, bay, truth, test, chance)
    return { ...laid, testedAt: test.setAt + test.hours * hourMs }
  }
  if (plan.screed === 'calcium sulfate') {
    for (const daysAgo of [9, 2]) carbideTest(book, cast, bay, plan, truth, site(daysAgo, '10:00'), chance)
    return laid
  }
  if (heating.length > 0) return laid
  const drilledAt = finishAt + 18 * dayMs
  for (const day of [22, 30, 38, 45, 52])
    probeReading(book, cast, bay, plan, truth, drilledAt, finishAt + day * dayMs, chance)
  return laid
}

/** Air and floor on the morning on which somebody asks whether the bay can be covered. */
function readFloorToday(book: Book, cast: Cast, bay: BayId, truth: TrueBay, at: number): void {
  const airC = round(truth.roomC(at), 1)
  const body = {
    airC,
    rhPercent: round(truth.roomRhPercent(at), 0),
    surfaceC: round(airC - 0.5, 1),
    openings: 'closed',
    place: 'room',
  } as const
  book.note('air-read', { subject: bay, at, person: cast.supervisor, body })
}

/** The plan of the run as the model of the layer wants it; nothing when the zone ran before this bay was laid. */
function heatingSteps(offAt: number, finishAt: number, now: number): HeatingStep[] {
  const firstAt = offAt - heatingDaysC.length * dayMs
  if (firstAt < finishAt || firstAt > now) return []
  const steps = [...heatingDaysC, null].map((flowC, day) => ({ at: firstAt + day * dayMs, flowC }))
  return steps.filter((step) => step.at < now)
}

function noteDefects(book: Book, cast: Cast, bay: BayId, plan: BayPlan, finishAt: number): void {
  const found = (
    symptom: string,
    day: number,
    extent: 'spot' | 'part' | 'whole',
    areaM2: number,
    note: string,
  ) =>
    book.note('defect-found', {
      subject: bay,
      at: finishAt + day * dayMs,
      person: cast.qualityManager,
      body: {
        symptom,
        firstSeenOn: iso(finishAt + day * dayMs).slice(0, 10),
        extent,
        areaM2,
        growing: 'not known',
        note,
      },
    })
  if (plan.fate === 'frozen on night 2')
    found('S02', 12, 'part', 9, 'Along the north wall a nail goes in to the membrane')
  if (plan.fate === 'curing skipped') {
    found('S01', 13, 'whole', 36, 'White hand; 1 to 2 mm of powder, hard below')
    found('S04', 13, 'part', 14, 'Hairline cells of about 50 mm, worst by the windows')
  }
}

function forecastTheWeek(
  book: Book,
  cast: Cast,
  project: ProjectId,
  site: ReturnType<typeof siteClock>,
): void {
  book.note('weather-forecast-noted', {
    subject: project,
    at: site(0, '00:05'),
    person: cast.supervisor,
    body: {
      from: iso(site(0, '12:00')),
      until: iso(site(-5, '12:00')),
      lowestC: -2,
      highestC: 6,
      rhPercent: 82,
      windMs: 4,
      givenBy: 'Invented for this demonstration',
    },
  })
}
