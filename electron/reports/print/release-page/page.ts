import type { Column, Content } from 'pdfmake/interfaces.js'
import { kinds } from '#model/record/kinds.ts'
import { entriesOf } from '#model/record/story.ts'
import { coverings } from '#model/record/words.ts'
import type { BayFile } from '../../handover/bay-file.ts'
import type { Names } from '../../handover/names.ts'
import type { PrintedPhoto } from '../../handover/photos.ts'
import { fullMomentText, momentText, shortened } from '../../site-text.ts'
import { bayPlan } from '../bay-plan.ts'
import { ink, textWidth } from '../look.ts'
import { conditionMark, verdictInk, verdictStates, verdictWords } from '../marks.ts'
import { body, surroundings } from './body.ts'
import { conditions } from './conditions.ts'
import { faultPhotos, linesOfPhotos } from './fault-photos.ts'
import { governing } from './reading.ts'

const leftWidth = 268
const rightWidth = textWidth - leftWidth - 18

const meanings = {
  ready: 'Every condition below is met.',
  'not ready': 'At least one condition below is not met. Do not cover.',
  'not proven': 'Nothing says that it is wet, and nothing proves that it is dry. Do not cover.',
}

/** The one page that a floor layer decides on; see `qrText` for what its code holds. */
export function releasePage(bay: BayFile, names: Names, faults: readonly PrintedPhoto[] = []): Content[] {
  return [
    verdictBand(bay),
    {
      margin: [0, 6, 0, 0],
      columnGap: 18,
      columns: [
        { width: leftWidth, stack: [title('The reading that decides'), ...governing(bay, names)] },
        {
          width: rightWidth,
          stack: [
            title('The bay and its test points'),
            bayPlan(bay, rightWidth, 120),
            {
              text: 'Full square: a valid test. Empty: it proves nothing. Ring: it decides.',
              style: 'small',
            },
          ],
        },
      ],
    },
    {
      columnGap: 18,
      columns: [
        { width: leftWidth, stack: [title('Body and surface'), body(bay)] },
        { width: rightWidth, stack: [title('Heating, defects, joints'), surroundings(bay)] },
      ],
    },
    ...faultPhotos(bay, faults),
    title('Conditions'),
    conditions(bay.readiness.conditions, faults.length === 0 ? 0 : linesOfPhotos),
    { text: decided(bay, names), margin: [0, 7, 0, 0], fontSize: 8.6 },
    signature(bay),
  ]
}

const title = (text: string): Content => ({ text, fontSize: 10, bold: true, margin: [0, 6, 0, 2] })

function verdictBand({ name, place, covering, readiness, facts, story }: BayFile): Content {
  const { verdict } = readiness
  const colour = verdictInk[verdict]
  return {
    layout: {
      hLineWidth: () => 1.4,
      vLineWidth: () => 1.4,
      hLineColor: () => colour,
      vLineColor: () => colour,
      paddingLeft: () => 10,
      paddingRight: () => 10,
      paddingTop: () => 7,
      paddingBottom: () => 7,
    },
    table: {
      widths: ['*'],
      body: [
        [
          {
            border: [true, true, true, true],
            columns: [
              { width: 42, stack: [conditionMark(verdictStates[verdict], 32)], margin: [0, 3, 0, 0] },
              {
                width: '*',
                stack: [
                  { text: verdictWords[verdict], fontSize: 30, bold: true, color: colour, lineHeight: 1 },
                  { text: `for ${coverings[covering].toLowerCase()}`, fontSize: 12, bold: true },
                  { text: meanings[verdict], fontSize: 8.4, color: ink.soft, margin: [0, 2, 0, 0] },
                ],
              },
              {
                width: 190,
                alignment: 'right',
                stack: [
                  { text: shortened(name, 40), fontSize: 15, bold: true, lineHeight: 1.05 },
                  { text: shortened(place, 90), fontSize: 8.6 },
                  {
                    text: `As the record stood ${fullMomentText(facts.asOf, story.timeZone)}`,
                    fontSize: 7.6,
                    color: ink.soft,
                    margin: [0, 3, 0, 0],
                  },
                ],
              },
            ],
          },
        ],
      ],
    },
  }
}

/** Who released the bay and when, for this covering. */
function decided({ story, covering, facts, readiness }: BayFile, names: Names): Content[] {
  const decision = entriesOf(story, 'bay-decided').findLast(({ body }) => body.covering === covering)
  const { decision: field } = kinds['bay-decided'].fields
  if (decision === undefined) {
    const more = readiness.verdict === 'ready' ? 'Nobody has taken it over yet.' : 'Nobody has decided on it.'
    return [{ text: 'Released by: ', bold: true }, { text: more }]
  }
  const { body, person, happenedAt } = decision
  const why = body.ownReading ?? (body.reasons ?? []).map(({ reason }) => reason).join(' ')
  return [
    { text: `${field.options[body.decision]}: `, bold: true },
    { text: `${names.personWithRole(person)}, ${momentText(happenedAt, story.timeZone, facts.asOf)}. ` },
    { text: shortened(why, 200), italics: true },
  ]
}

/** Room for the floor layer's own check and hand, beside the code that leads to the full file. */
function signature(bay: BayFile): Content {
  const line = (width: number) => ({
    canvas: [{ type: 'line' as const, x1: 0, y1: 0, x2: width, y2: 0, lineWidth: 0.6, lineColor: ink.faint }],
  })
  const blank = (label: string, width: number): Column => ({
    width,
    stack: [
      { text: ' ', fontSize: 13 },
      line(width - 8),
      { text: label, style: 'label', margin: [0, 1.5, 0, 0] },
    ],
  })
  const width = textWidth - 92
  return {
    margin: [0, 6, 0, 0],
    unbreakable: true,
    columns: [
      {
        width,
        stack: [
          {
            text: `I have read this page, made the check below myself, and take this bay over to lay ${coverings[bay.covering].toLowerCase()} on it and nothing else. What is hidden below the surface I cannot see and do not take over.`,
            fontSize: 7.8,
          },
          {
            columns: [
              blank('My own check reading: value, place, instrument', width * 0.62),
              blank('Taken over, or not because', width * 0.38),
            ],
          },
          {
            columns: [
              blank('Name and firm', width * 0.36),
              blank('Signature', width * 0.36),
              blank('Date and time', width * 0.28),
            ],
          },
        ],
      },
      {
        width: 92,
        stack: [
          { qr: qrText(bay), fit: 84, eccLevel: 'M', alignment: 'right', foreground: ink.text },
          {
            text: `Story file\n${bay.hash.slice(0, 8)} ${bay.hash.slice(8, 16)}`,
            fontSize: 6.4,
            color: ink.soft,
            alignment: 'right',
            margin: [0, 2, 0, 0],
          },
        ],
      },
    ],
  }
}

/** What the code on the page says: which bay, as of when, and the SHA-256 of its story file, by which the file is known again. */
export function qrText({
  id,
  facts,
  hash,
}: Pick<BayFile, 'id' | 'hash'> & { facts: { asOf: number } }): string {
  return `bay ${id}\nas of ${new Date(facts.asOf).toISOString()}\nsha256 ${hash}`
}
