import type { Content } from 'pdfmake/interfaces.js'
import { kinds } from '#model/record/kinds.ts'
import { entriesOf } from '#model/record/story.ts'
import { moistureMethods } from '#model/record/words.ts'
import { limitText } from '#model/rules/index.ts'
import type { Limit } from '#model/rules/limit.ts'
import { calendarDayText, numberText } from '../site-text.ts'
import { entriesTable, type Printing } from './bay-tables.ts'
import { rowsTable } from './parts.ts'

const verdicts = {
  pass: 'passes',
  fail: 'fails',
  invalid: 'proves nothing',
  'not known': 'not known',
} as const

/** Every moisture test with what it shows, whether it counts, and why. */
export function moistureTable({ bay, names, when }: Printing): Content {
  return rowsTable({
    title: 'Moisture tests',
    note: 'A test that was not done as its method demands proves nothing, whatever it reads.',
    none: 'No moisture test was made.',
    columns: [
      { head: 'Read', width: 74 },
      { head: 'Place', width: 34 },
      { head: 'Method', width: 62 },
      { head: 'Value, and limit', width: 50 },
      { head: 'Result', width: 50 },
      { head: 'Why', width: '*' },
      { head: 'Instrument', width: 52 },
    ],
    rows: bay.tests.map(({ at, entry, acceptance, limit, valid, contradictions }) => [
      when(at),
      entry.body.point,
      moistureMethods[entry.body.method],
      valueAndLimit(acceptance.value, acceptance.unit, limit),
      contradictions.length > 0 && !valid ? 'proves nothing' : verdicts[acceptance.verdict],
      [...contradictions, ...acceptance.reasons, ...acceptance.cautions].join(' '),
      entry.body.instrument === undefined ? null : names.of(entry.body.instrument),
    ]),
  })
}

function valueAndLimit(value: number | null, unit: string, limit: Limit | null): string {
  const found = value === null ? 'none' : `${numberText(value, 1)} ${unit}`
  return `${found}, ${limit === null ? 'no limit' : limitText(limit)}`
}

/** Soundness point by point, surface, flatness and level, each with the limit that it is held against. */
export function bodyTestTables(printing: Printing): Content[] {
  const { bay, when, names } = printing
  const { story, facts } = bay
  const { zone } = story
  const places = kinds['soundness-tested'].fields.points.item.place.options
  return [
    rowsTable({
      title: 'Soundness, by dropped weight',
      note: `Category ${zone.body.soundness}.`,
      none: 'No drop-weight test was made.',
      columns: [
        { head: 'When', width: 82 },
        { head: 'Weight', width: 40 },
        { head: 'Blows', width: 32, right: true },
        { head: 'Indentations mm', width: '*' },
        { head: 'Deepest mm', width: 52, right: true },
        { head: 'By', width: 70 },
      ],
      rows: entriesOf(story, 'soundness-tested').map(({ happenedAt, body, person }) => [
        when(happenedAt),
        `${body.weightKg} kg`,
        body.blows,
        body.points
          .map(({ indentationMm, place }) =>
            place === undefined || place === 'field'
              ? numberText(indentationMm, 1)
              : `${numberText(indentationMm, 1)} (${(places?.[place] ?? place).toLowerCase()})`,
          )
          .join(', '),
        numberText(Math.max(...body.points.map(({ indentationMm }) => indentationMm)), 1),
        names.of(person),
      ]),
    }),
    rowsTable({
      title: 'Flatness',
      note: `Class ${zone.body.regularity}: ${limitText(facts.rules.limits[`regularity.${zone.body.regularity}`])} under the straightedge.`,
      none: 'Flatness was not checked.',
      columns: [
        { head: 'When', width: 82 },
        { head: 'Straightedge m', width: 62, right: true },
        { head: 'Greatest gap on each line mm', width: '*' },
        { head: 'Worst mm', width: 44, right: true },
        { head: 'By', width: 70 },
      ],
      rows: entriesOf(story, 'regularity-checked').map(({ happenedAt, body, person }) => [
        when(happenedAt),
        numberText(body.straightedgeM),
        body.gapsMm.map(({ mm }) => numberText(mm, 1)).join(', '),
        numberText(Math.max(...body.gapsMm.map(({ mm }) => mm)), 1),
        names.of(person),
      ]),
    }),
    entriesTable(
      printing,
      'Level and surface',
      ['level-checked', 'surface-tested'],
      'Level and surface were not tested.',
    ),
  ]
}

/** The instruments that the bay's tests name, with their checks; validity is judged as on the day of the test. */
export function instrumentTable({ bay, names, when }: Printing): Content {
  const { story } = bay
  const { check: field } = kinds['instrument-checked'].fields
  return rowsTable({
    title: 'Instruments used, and their checks',
    none: 'No test names its instrument.',
    columns: [
      { head: 'Instrument', width: 110 },
      { head: 'Certificate', width: 130 },
      { head: 'Checks', width: '*' },
    ],
    rows: entriesOf(story, 'instrument-added').map(({ subject, body }) => [
      names.of(subject),
      body.certificate === undefined && body.dueOn === undefined
        ? 'none on record'
        : [body.certificate, body.dueOn === undefined ? undefined : `to ${calendarDayText(body.dueOn)}`]
            .filter((part) => part !== undefined)
            .join(', '),
      entriesOf(story, 'instrument-checked')
        .filter((one) => one.subject === subject)
        .map(({ happenedAt, body: found }) => {
          const reading =
            found.foundPercent === undefined ? '' : ` read ${numberText(found.foundPercent, 1)} %`
          return `${field.options[found.check]}${reading}, ${when(happenedAt)}: ${found.passed ? 'passed' : 'failed'}`
        })
        .join('; ') || 'none on record',
    ]),
  })
}
