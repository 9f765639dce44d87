import type { Content } from 'pdfmake/interfaces.js'
import { type KindName, kinds } from '#model/record/kinds.ts'
import { holdPoints } from '#model/record/people.ts'
import { coverings, moistureMethods } from '#model/record/words.ts'
import { limitText } from '#model/rules/index.ts'
import { severities } from '#model/watch/alert.ts'
import type { BayPhotos } from '../handover/photos.ts'
import { defectKinds } from '../handover/shown-photos.ts'
import { momentText, numberText, shortened } from '../site-text.ts'
import { layingMap } from './bay-plan.ts'
import { batchTable, careTables, entriesTable, heatingTables, type Printing, said } from './bay-tables.ts'
import { firstWeek, lifeChart, lifeSpan } from './chart/life-chart.ts'
import { textWidth } from './look.ts'
import { stateLooks } from './marks.ts'
import { block, chapter, factsTable, nothing, rowsTable } from './parts.ts'
import { circuitPlans, photoPages } from './photo-pages.ts'
import { bodyTestTables, instrumentTable, moistureTable } from './test-tables.ts'

/** Everything about one bay, from what was agreed to what was changed afterwards; on a page of its own unless said. */
export function bayChapter(
  printing: Printing,
  photos: BayPhotos,
  { under, newPage = true }: { under?: string; newPage?: boolean } = {},
): Content[] {
  const { bay } = printing
  return [
    ...chapter(bay.name, {
      id: `bay-${bay.id}`,
      lead: `${bay.place}. ${stateLooks[bay.state.word].word}: ${shortened(bay.state.because, 200)}`,
      newPage,
      ...(under === undefined ? {} : { under }),
    }),
    block('What was agreed', agreed(printing)),
    ...charts(printing),
    entriesTable(
      printing,
      'Base, edge strip and joints',
      ['base-surveyed', 'edge-strip-fitted', 'joint-formed'],
      'Neither base nor edge strip nor joints are on record.',
    ),
    entriesTable(printing, 'Materials delivered', ['material-delivered'], 'No delivery was written down.'),
    batchTable(printing),
    entriesTable(
      printing,
      'Laying and thickness',
      ['lift-laid', 'bay-finished', 'thickness-measured'],
      'The laying was not written down.',
    ),
    ...whereLaid(printing),
    ...careTables(printing),
    ...heatingTables(printing),
    ...circuitPlans(printing, photos.circuitPlans),
    moistureTable(printing),
    ...bodyTestTables(printing),
    instrumentTable(printing),
    entriesTable(printing, 'Wetting', ['wet-event-noted'], 'No wetting was noted.'),
    entriesTable(printing, 'Defects, their causes and repairs', defectKinds, 'No defect is on record.'),
    ...photoPages(printing, photos.others),
    alertTable(printing),
    entriesTable(
      printing,
      'Non-conformances',
      ['nonconformance-raised', 'nonconformance-closed'],
      'None was raised by a person.',
    ),
    ...ending(printing),
  ]
}

/** Hold points, decisions and amendments; where they are few they stay together, so that no page holds a line alone. */
function ending(printing: Printing): Content[] {
  const { entries } = printing.bay.story
  const parts = [
    holdTable(printing),
    entriesTable(
      printing,
      'Decisions on the covering, and the covering',
      decisionKinds,
      'Nobody has decided on the covering.',
    ),
    amendments(printing),
  ]
  const rows = entries.filter(({ kind }) => decisionKinds.includes(kind)).length
  const changes = entries.reduce((sum, { versions }) => sum + versions.length - 1, 0)
  return rows + changes <= 4 ? [{ unbreakable: true, stack: parts }] : parts
}

const decisionKinds: readonly KindName[] = ['bay-decided', 'covering-laid']

function agreed({ bay }: Printing): Content {
  const { story, readiness, facts } = bay
  const { body } = story.bay
  const zone = story.zone.body
  const fields = kinds['bay-planned'].fields
  const limit = readiness.governing?.limit ?? null
  const optionalText = (value: string | undefined) => value ?? null
  const left = factsTable([
    ['Screed', fields.screed.options[body.screed]],
    ['Construction', fields.construction.options[body.construction]],
    ['Designation', optionalText(body.designation)],
    ['Area', `${numberText(facts.areaM2, 1)} m²`],
    [
      'Thickness',
      `${numberText(body.designThicknessMm)} mm by design${body.minThicknessMm === undefined ? '' : `, at least ${numberText(body.minThicknessMm)} mm`}`,
    ],
    ['Membrane', optionalText(body.membrane)],
    ['Insulation', optionalText(body.insulation)],
  ])
  const right = factsTable([
    ['Covering', coverings[bay.covering]],
    ['Moisture test', moistureMethods[zone.moistureMethod]],
    [
      'Moisture limit',
      limit === null
        ? null
        : `${limitText(limit)}, ${limit.source}${limit.reason === undefined ? '' : `: ${limit.reason}`} (${limit.provenance})`,
    ],
    ['Soundness', `Category ${zone.soundness}`],
    ['Flatness', `Class ${zone.regularity}`],
    [
      'Heating',
      zone.heated
        ? `Heated${zone.maxSurfaceC === undefined ? '' : `, surface at most ${numberText(zone.maxSurfaceC)} °C`}`
        : 'None',
    ],
    ['Use', optionalText(zone.use)],
  ])
  return {
    columns: [
      { width: '*', stack: [left] },
      { width: '*', stack: [right] },
    ],
    columnGap: 18,
  }
}

function whereLaid({ bay }: Printing): Content[] {
  const map = layingMap(bay, textWidth, 180)
  const key =
    'Numbered strips are batches. Squares are measured thicknesses; an empty one is below the least allowed.'
  return map === null
    ? []
    : [block('Where each batch lies, and how thick it is', { text: key, style: 'small' }, map)]
}

/** What the first page of a bay has left below what was agreed, with three lines under its name [pt]. */
const roomForLife = 500

function charts({ bay }: Printing): Content[] {
  const [life, week] = [lifeSpan(bay), firstWeek(bay)]
  if (life === null) return [nothing('Its life on one axis', 'Nothing has happened to this bay yet.')]
  return [
    block('Its life on one axis', lifeChart(bay, life, { evaporation: false, drying: true }, roomForLife)),
    ...(week === null
      ? []
      : [block('The first week', lifeChart(bay, week, { evaporation: true, drying: false }))]),
  ]
}

function alertTable({ bay, names, when }: Printing): Content {
  return rowsTable({
    title: 'Alerts, and how they were answered',
    note: 'Worked out from the record and the rules in force.',
    none: 'The record gives no cause for an alert.',
    columns: [
      { head: 'Since', width: 76 },
      { head: 'Until', width: 76 },
      { head: 'Weight', width: 48 },
      { head: 'Alert', width: 124 },
      { head: 'Answer', width: '*' },
    ],
    rows: bay.alerts.map(({ since, until, severity, title, nonconformance, answeredBy }) => [
      when(since),
      until === null ? 'still stands' : when(until),
      severities[severity],
      nonconformance ? `${title} (kept as a non-conformance)` : title,
      answeredBy === null
        ? 'not answered'
        : `${answeredBy.answer} ${names.of(answeredBy.person)}, ${when(answeredBy.at)}`,
    ]),
  })
}

function holdTable({ bay, names, when }: Printing): Content {
  return rowsTable({
    title: 'Hold points',
    none: 'No hold point applies.',
    columns: [
      { head: 'Hold point', width: 96 },
      { head: 'Stands', width: 62 },
      { head: 'What was seen, or why it stands so', width: '*' },
      { head: 'By', width: 92 },
      { head: 'When', width: 76 },
    ],
    rows: bay.chain
      .filter(({ state }) => state !== 'does not apply')
      .map(({ point, state, saw, because, by, at, passedBy, findings }) => [
        holdPoints[point],
        state,
        [
          saw ?? because,
          ...(passedBy.length === 0
            ? []
            : [`Work went past it ${passedBy.length === 1 ? 'once' : `${passedBy.length} times`}`]),
          ...findings.map(({ what }) => what),
        ]
          .map((sentence) => (/[.!?…]$/.test(sentence) ? sentence : `${sentence}.`))
          .join(' '),
        by === null ? null : names.personWithRole(by),
        at === null ? null : when(at),
      ]),
  })
}

/** What was corrected, withdrawn or written down late: struck out nowhere, and shown with the reason. */
function amendments({ bay, names }: Printing): Content {
  const { story, facts } = bay
  const moment = (at: number) => momentText(at, story.timeZone, facts.asOf)
  const rows = story.entries.flatMap((entry) =>
    entry.versions.slice(1).map((version, i) => {
      const before = entry.versions[i]!
      const shown = version.kind === 'entry-withdrawn'
      return [
        moment(version.recordedAt),
        kinds[entry.kind].title,
        shown ? 'withdrawn' : said(bay, { ...entry, body: version.body } as typeof entry, names),
        said(bay, { ...entry, body: before.body } as typeof entry, names),
        version.reason ?? null,
        names.of(version.person),
      ]
    }),
  )
  const late = story.entries.filter((entry) => entry.late && !entry.withdrawn).length
  return rowsTable({
    title: 'Amendments',
    note:
      late === 0
        ? 'Nothing was written down more than two days after it happened.'
        : `${late} entries were written down more than two days after they happened.`,
    none: `Nothing was corrected or withdrawn.${late === 0 ? '' : ` ${late} entries were written down more than two days after they happened.`}`,
    columns: [
      { head: 'Changed', width: 76 },
      { head: 'What', width: 76 },
      { head: 'Says now', width: '*' },
      { head: 'Said before', width: '*' },
      { head: 'Why', width: 88 },
      { head: 'By', width: 54 },
    ],
    rows,
  })
}
