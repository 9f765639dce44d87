import type { Content } from 'pdfmake/interfaces.js'
import { kinds } from '#model/record/kinds.ts'
import { entriesOf } from '#model/record/story.ts'
import { type MoistureMethod, moistureMethods } from '#model/record/words.ts'
import { limitText } from '#model/rules/index.ts'
import type { JudgedTest } from '#model/watch/facts/moisture.ts'
import { dayMs } from '#model/watch/facts/time.ts'
import type { BayFile } from '../../handover/bay-file.ts'
import type { Names } from '../../handover/names.ts'
import { calendarDayText, dayText, momentText, numberText, shortened } from '../../site-text.ts'
import { type FactRow, factsTable } from '../parts.ts'

/** The one reading that decides, with all that makes it count; or that there is none, and why the last proves nothing. */
export function governing({ facts, readiness, tests, story }: BayFile, names: Names): Content[] {
  const { timeZone } = story
  const asOf = facts.asOf
  if (readiness.governing === null)
    return [
      {
        text: 'These rules have no limit for this covering and the agreed test. Take it from the maker or the contract.',
      },
    ]
  const { test, limit } = readiness.governing
  const found = tests.find(({ entry }) => entry.id === test?.entry)
  const agreed = story.zone.body.moistureMethod
  const limitRow: FactRow = [
    'Limit',
    `${limitText(limit)}; ${limit.source}${limit.clause === undefined ? '' : `, ${limit.clause}`} (${limit.provenance})`,
  ]
  if (test === null || found === undefined) {
    const last = tests.at(-1)
    const said: Content[] =
      last === undefined
        ? []
        : [
            {
              text: `The last test, at ${shortened(last.entry.body.point, 20)} on ${momentText(last.at, timeZone, asOf)}, ${whyNot(last, agreed)} ${shortened([...last.contradictions, ...last.acceptance.reasons].join(' '), 170)}`,
              fontSize: 8.2,
              margin: [0, 0, 0, 3],
            },
          ]
    return [
      {
        text: 'No valid test by the agreed method. Without one nothing is proven.',
        fontSize: 9.4,
        bold: true,
        margin: [0, 0, 0, 3],
      },
      ...said,
      factsTable([['Agreed test', moistureMethods[agreed]], limitRow], 62),
    ]
  }
  const { body } = found.entry
  return [
    {
      columns: [
        { width: 'auto', text: `${numberText(test.value, 1)} ${test.unit}`, style: 'figure' },
        { width: '*', text: `limit ${limitText(limit)}`, fontSize: 10, margin: [8, 8, 0, 0] },
      ],
    },
    factsTable(
      [
        [
          'Place',
          `${shortened(test.point, 30)}${body.x === undefined || body.y === undefined ? '' : `, at ${numberText(body.x)} m, ${numberText(body.y)} m on the plan`}`,
        ],
        ['Method', moistureMethods[test.method]],
        ...(body.setAt === undefined
          ? []
          : [['Set', momentText(Date.parse(body.setAt), timeZone, asOf)] as const]),
        ['Read', `${momentText(test.at, timeZone, asOf)}, ${numberText(test.ageDays, 1)} days ago`],
        ['Instrument', instrumentText(found.entry.body.instrument, test.at, { facts, story }, names)],
        limitRow,
        [
          'Holds until',
          `${dayText(test.at + facts.rules.limits['test.ageDays'].value * dayMs, timeZone, asOf)}, or until anything wets the floor`,
        ],
      ],
      62,
    ),
  ]
}

/** A sound reading by another method tells something, but not what was agreed; a test that was done badly tells nothing. */
function whyNot({ valid, entry }: JudgedTest, agreed: MoistureMethod): string {
  const { method } = entry.body
  return valid && method !== agreed
    ? `was not the agreed one but by ${moistureMethods[method].toLowerCase()}:`
    : 'proves nothing:'
}

/** The instrument with its last check before the test: what counts is how it was then. */
function instrumentText(
  id: string | undefined,
  at: number,
  { story, facts }: Pick<BayFile, 'story' | 'facts'>,
  names: Names,
): string | null {
  if (id === undefined) return null
  const name = shortened(names.of(id), 34)
  const check = entriesOf(story, 'instrument-checked').findLast(
    (one) => one.subject === id && one.happenedAt <= at,
  )
  const due = entriesOf(story, 'instrument-added').find((one) => one.subject === id)?.body.dueOn
  const certificate = due === undefined ? '' : `; certificate to ${calendarDayText(due)}`
  if (check === undefined) return `${name}; no check recorded before the test${certificate}`
  const how = kinds['instrument-checked'].fields.check.options[check.body.check]
  const result = check.body.passed ? 'passed' : 'failed'
  return `${name}; ${how.charAt(0).toLowerCase()}${how.slice(1)} ${dayText(check.happenedAt, story.timeZone, facts.asOf)}: ${result}${certificate}`
}
