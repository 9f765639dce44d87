import type { Content } from 'pdfmake/interfaces.js'
import { proportionsOf } from '#model/mix/index.ts'
import type { StoryEntry } from '#model/record/entry.ts'
import { type KindName, kinds } from '#model/record/kinds.ts'
import { entriesOf } from '#model/record/story.ts'
import { protections, trafficClasses } from '#model/record/words.ts'
import { bodyText, symptomText } from '../entry-text.ts'
import type { BayFile } from '../handover/bay-file.ts'
import type { Names } from '../handover/names.ts'
import { momentText, numberText } from '../site-text.ts'
import { nothing, rowsTable } from './parts.ts'

export interface Printing {
  bay: BayFile
  names: Names
  /** "Tue 24 Nov 07:15" on the site's clock. */
  when: (at: number) => string
}

export function printingOf(bay: BayFile, names: Names): Printing {
  const { story, facts } = bay
  return { bay, names, when: (at) => momentText(at, story.timeZone, facts.asOf) }
}

/** Entries of some kinds, each as a row with what it says; `none` is said when there is nothing. */
export function entriesTable(
  { bay, names, when }: Printing,
  title: string,
  wanted: readonly KindName[],
  none: string,
): Content {
  const entries = bay.story.entries.filter(({ kind, withdrawn }) => !withdrawn && wanted.includes(kind))
  return rowsTable({
    title,
    none,
    columns: [
      { head: 'When', width: 78 },
      ...(wanted.length > 1 ? [{ head: 'What', width: 96 }] : []),
      { head: 'As written down', width: '*' },
      { head: 'By', width: 66 },
    ],
    rows: entries.map((entry) => [
      when(entry.happenedAt),
      ...(wanted.length > 1 ? [kinds[entry.kind].title] : []),
      said(bay, entry, names),
      `${names.of(entry.person)}${entry.late ? ' (late)' : ''}`,
    ]),
  })
}

export function said({ story, facts }: BayFile, { kind, body }: StoryEntry, names: Names): string {
  const entryOf = (id: string) => {
    const entry = story.entries.find(
      (one) => one.id === id || one.versions.some((version) => version.id === id),
    )
    if (entry === undefined) return null
    const name = entry.kind === 'defect-found' ? symptomText(entry.body.symptom) : kinds[entry.kind].title
    return `${name}, ${momentText(entry.happenedAt, story.timeZone, facts.asOf)}`
  }
  const reading = { names, zone: story.timeZone, now: facts.asOf, entryOf }
  return bodyText(kind, body as Record<string, unknown>, reading)
}

/** Every batch with what was weighed in, and the two ratios that follow from it. */
export function batchTable({ bay, when }: Printing): Content {
  const batches = entriesOf(bay.story, 'batch-mixed')
  const options = kinds['batch-mixed'].fields
  return rowsTable({
    title: 'Batches',
    note: 'Sand : cement is by dry mass; water : cement counts the water in the sand and the admixture.',
    none: 'No batch was written down.',
    columns: [
      { head: 'No.', width: 20, right: true },
      { head: 'Mixed', width: 67 },
      { head: 'Cement kg', width: 32, right: true },
      { head: 'Damp sand kg', width: 36, right: true },
      { head: 'Moisture %', width: 36, right: true },
      { head: 'Water kg', width: 26, right: true },
      { head: 'Sand : cement', width: 34, right: true },
      { head: 'Water : cement', width: 34, right: true },
      { head: 'Mixing min', width: 28, right: true },
      { head: 'Squeeze', width: '*' },
      { head: 'Laid', width: 24 },
    ],
    rows: batches.map(({ body, happenedAt }) => {
      const ratios = ratiosOf(body)
      const squeeze = body.squeeze === undefined ? null : options.squeeze.options?.[body.squeeze]
      return [
        body.number,
        when(happenedAt),
        numberText(body.cementKg, 1),
        numberText(body.dampSandKg, 0),
        body.sandMoisturePercent === undefined ? null : numberText(body.sandMoisturePercent, 1),
        numberText(body.addedWaterKg, 1),
        ratios === null ? null : numberText(ratios.sandPerCement, 1),
        ratios === null ? null : ratios.waterCement.toFixed(2),
        body.mixingMinutes === undefined ? null : numberText(body.mixingMinutes, 1),
        squeeze ?? null,
        body.laidAt === undefined ? null : when(Date.parse(body.laidAt)).slice(-5),
      ]
    }),
  })
}

function ratiosOf(body: ReturnType<typeof entriesOf<'batch-mixed'>>[number]['body']) {
  const { cementKg, dampSandKg, sandMoisturePercent, addedWaterKg, admixtureWaterKg } = body
  return sandMoisturePercent === undefined
    ? null
    : proportionsOf({ cementKg, dampSandKg, sandMoisturePercent, addedWaterKg, admixtureWaterKg })
}

/** The sheets, what protected the bay, and what went over it. */
export function careTables({ bay, names, when }: Printing): Content[] {
  const { facts, story } = bay
  const fields = kinds['sheet-on'].fields
  const why = kinds['sheet-off'].fields.why.options
  const { curing, rules } = facts
  const counted =
    curing === null
      ? undefined
      : `${numberText(curing.provenHours / 24, 1)} days count; ${numberText(curing.coldHours, 0)} h too cold, ${numberText(curing.unknownHours, 0)} h without a temperature; asked for ${rules.limits['cure.days'].value} days.`
  return [
    rowsTable({
      title: 'Curing',
      ...(counted === undefined ? {} : { note: counted }),
      none: 'No sheet was written down.',
      columns: [
        { head: 'On', width: 82 },
        { head: 'Off', width: 82 },
        { head: 'Cover', width: 110 },
        { head: 'Covered %', width: 44, right: true },
        { head: 'Why it came off', width: '*' },
      ],
      rows: facts.cover.map(({ from, until, on, off }) => [
        when(from),
        until === null ? 'still on' : when(until),
        fields.material.options[on.body.material],
        numberText(on.body.coveredPercent, 0),
        off === null ? null : why[off.body.why],
      ]),
    }),
    rowsTable({
      title: 'Protection',
      none: 'No protection was written down.',
      columns: [
        { head: 'On', width: 82 },
        { head: 'Off', width: 82 },
        { head: 'What', width: 150 },
        { head: 'Note', width: '*' },
      ],
      rows: facts.protections.spans.map(({ what, from, until, on }) => [
        when(from),
        until === null ? 'still on' : when(until),
        protections[what],
        on.body.note ?? null,
      ]),
    }),
    rowsTable({
      title: 'Traffic',
      none: 'Nothing was written down: neither traffic nor that there was none.',
      columns: [
        { head: 'When', width: 82 },
        { head: 'What', width: 110 },
        { head: 'Mass kg', width: 40, right: true },
        { head: 'On boards', width: 46 },
        { head: 'Said', width: '*' },
        { head: 'By', width: 70 },
      ],
      rows: story.entries.flatMap((entry) => {
        if (entry.withdrawn) return []
        if (entry.kind === 'no-traffic-confirmed')
          return [
            [
              when(entry.happenedAt),
              'None, confirmed',
              null,
              null,
              `Kept by ${entry.body.heldBy}`,
              names.of(entry.person),
            ],
          ]
        if (entry.kind !== 'traffic-seen') return []
        const { traffic, massKg, boards, authorisedBy, note } = entry.body
        const more = [authorisedBy === undefined ? '' : `allowed by ${authorisedBy}`, note ?? '']
          .filter(Boolean)
          .join('; ')
        return [
          [
            when(entry.happenedAt),
            trafficClasses[traffic],
            massKg ?? null,
            boards ? 'yes' : 'no',
            more === '' ? null : more,
            names.of(entry.person),
          ],
        ]
      }),
    }),
  ]
}

/** The pressure test, and the log of the first run. */
export function heatingTables(printing: Printing): Content[] {
  const { bay, when } = printing
  const { facts, story } = bay
  if (!story.zone.body.heated) return [nothing('Heating', 'This floor has no heating.')]
  const states = kinds['heating-noted'].fields.state.options
  const noted = new Map(entriesOf(story, 'heating-noted').map((entry) => [entry.id as string, entry]))
  return [
    entriesTable(
      printing,
      'Pressure test of the pipes',
      ['pipes-pressure-tested'],
      'No pressure test is on record.',
    ),
    rowsTable({
      title: 'Heating log',
      none: 'Nothing was written down about the heating.',
      note: facts.heating.length > 80 ? 'The first 80 of the log; the tables hold all.' : undefined,
      columns: [
        { head: 'When', width: 82 },
        { head: 'State', width: 50 },
        { head: 'Flow °C', width: 44, right: true },
        { head: 'Return °C', width: 48, right: true },
        { head: 'Surface °C', width: 52, right: true },
        { head: 'Circuit', width: 60 },
        { head: 'Step', width: '*' },
      ],
      rows: facts.heating.slice(0, 80).map(({ at, state, flowC, surfaceC, circuit, entry }) => {
        const body = noted.get(entry)?.body
        return [
          when(at),
          states[state],
          flowC === null ? null : numberText(flowC, 1),
          body?.returnC === undefined ? null : numberText(body.returnC, 1),
          surfaceC === null ? null : numberText(surfaceC, 1),
          circuit,
          body?.step ?? null,
        ]
      }),
    }),
  ]
}
