import type { Column, Content } from 'pdfmake/interfaces.js'
import { soundnessLimit } from '#model/checks/index.ts'
import type { Condition } from '#model/readiness/verdict.ts'
import { kinds } from '#model/record/kinds.ts'
import { entriesOf } from '#model/record/story.ts'
import { coverings, moistureMethods, symptoms } from '#model/record/words.ts'
import { limitText } from '#model/rules/index.ts'
import { airTrace, nearestReading } from '#model/watch/facts/air.ts'
import { dayMs, hourMs } from '#model/watch/facts/time.ts'
import type { BayFile } from '../handover/bay-file.ts'
import type { Names } from '../handover/names.ts'
import { calendarDayText, dayText, fullMomentText, momentText, numberText, shortened } from '../site-text.ts'
import { bayPlan } from './bay-plan.ts'
import { factsLayout, ink, textWidth } from './look.ts'
import { conditionMark, conditionWords, verdictInk, verdictStates, verdictWords } from './marks.ts'
import { type FactRow, factsTable } from './parts.ts'

const leftWidth = 268
const rightWidth = textWidth - leftWidth - 18

const meanings = {
  ready: 'Every condition below is met.',
  'not ready': 'At least one condition below is not met. Do not cover.',
  'not proven': 'Nothing says that it is wet, and nothing proves that it is dry. Do not cover.',
}

/** The one page that a floor layer decides on; see `qrText` for what its code holds. */
export function releasePage(bay: BayFile, names: Names): Content[] {
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
    title('Conditions'),
    conditions(bay.readiness.conditions),
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

function governing({ facts, readiness, tests, story }: BayFile, names: Names): Content[] {
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
              text: `The last test, at ${shortened(last.entry.body.point, 20)} on ${momentText(last.at, timeZone, asOf)}, proves nothing: ${shortened([...last.contradictions, ...last.acceptance.reasons].join(' '), 230)}`,
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
      factsTable([['Agreed test', moistureMethods[story.zone.body.moistureMethod]], limitRow], 62),
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
        [
          'Instrument',
          instrumentText(found.entry.body.instrument, test.at, { facts, story } as BayFile, names),
        ],
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

/** The instrument with its last check before the test: what counts is how it was then. */
function instrumentText(
  id: string | undefined,
  at: number,
  { story, facts }: BayFile,
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

function body({ facts, story, readiness }: BayFile): Content {
  const { life, thickness, air, asOf, rules } = facts
  const { screed, construction, designation } = story.bay.body
  const mm = thickness.map((point) => point.mm)
  const mean = mm.reduce((sum, one) => sum + one, 0) / Math.max(1, mm.length)
  const surface = nearestReading(airTrace(air, 'surfaceC'), asOf, 24 * hourMs)
  const rh = nearestReading(airTrace(air, 'rhPercent'), asOf, 24 * hourMs)
  const drops = entriesOf(story, 'soundness-tested').at(-1)
  const soundness = soundnessLimit(story.zone.body.soundness, construction, rules)
  const flat = entriesOf(story, 'regularity-checked').at(-1)
  const says = (name: string) => readiness.conditions.find((one) => one.name === name)?.because ?? null
  const base = entriesOf(story, 'surface-tested').at(-1)
  return factsTable(
    [
      [
        'Screed',
        `${kinds['bay-planned'].fields.screed.options[screed]}, ${kinds['bay-planned'].fields.construction.options[construction].toLowerCase()}${designation === undefined ? '' : `, ${designation}`}`,
      ],
      [
        'Age',
        life.ageDays === null
          ? 'not laid'
          : `${Math.floor(life.ageDays)} days; finished ${dayText(life.t0!, story.timeZone, asOf)}`,
      ],
      [
        'Thickness',
        mm.length === 0
          ? null
          : `${numberText(mean, 0)} mm on average, ${numberText(Math.min(...mm))} to ${numberText(Math.max(...mm))} at ${mm.length} points`,
      ],
      [
        'Floor now',
        surface === null || rh === null
          ? null
          : `${numberText(surface.value, 1)} °C on the surface, ${numberText(rh.value, 0)} % RH in the air, read ${momentText(rh.at, story.timeZone, asOf)}`,
      ],
      [
        'Soundness',
        drops === undefined
          ? null
          : `deepest ${numberText(Math.max(...drops.body.points.map(({ indentationMm }) => indentationMm)), 1)} mm (${limitText(soundness)}), ${drops.body.points.length} points, category ${story.zone.body.soundness}`,
      ],
      [
        'Flatness',
        flat === undefined
          ? null
          : `greatest gap ${numberText(Math.max(...flat.body.gapsMm.map(({ mm: one }) => one)), 1)} mm, ${flat.body.gapsMm.length} lines of ${numberText(flat.body.straightedgeM)} m, class ${story.zone.body.regularity}`,
      ],
      [
        'Surface',
        base === undefined
          ? says('Surface')
          : `${kinds['surface-tested'].fields.method.options[base.body.method].toLowerCase()}${base.body.grade === undefined ? '' : `, grade ${base.body.grade}`}${base.body.pullOffMPa === undefined ? '' : `, ${base.body.pullOffMPa} N/mm²`}`,
      ],
    ],
    62,
  )
}

function surroundings({ facts, story }: BayFile): Content {
  const { heating, asOf } = facts
  const { timeZone } = story
  const running = heating.filter(({ state }) => state === 'running')
  const flows = running.flatMap(({ flowC }) => flowC ?? [])
  const lastRun = heating.findLastIndex(({ state }) => state === 'running')
  const off = heating[lastRun + 1]
  const log = !story.zone.body.heated
    ? 'This floor has no heating.'
    : heating.length === 0
      ? null
      : `First ${running[0] === undefined ? 'run not known' : dayText(running[0].at, timeZone, asOf)}, at most ${flows.length === 0 ? '?' : numberText(Math.max(...flows), 0)} °C, ended ${running.length === 0 ? 'not known' : dayText(running.at(-1)!.at, timeZone, asOf)}; ${off === undefined ? 'still running' : `off since ${momentText(off.at, timeZone, asOf)}`}`
  const closed = new Map(entriesOf(story, 'defect-closed').map((entry) => [String(entry.body.defect), entry]))
  const found = entriesOf(story, 'defect-found')
  const defectWords: Readonly<Record<string, string>> = symptoms
  const defects = found.map(({ id, body }) => {
    const end = closed.get(id)
    const how =
      end === undefined ? 'open' : kinds['defect-closed'].fields.how.options[end.body.how].toLowerCase()
    return `${defectWords[body.symptom] ?? body.symptom} (${how})`
  })
  const joints = entriesOf(story, 'joint-formed')
  const base = story.floor.body.baseJoints?.length ?? 0
  const flat = (options: Readonly<Record<string, string>>) =>
    [...new Set(joints.map(({ body }) => options[body.joint]!.toLowerCase()))].join(', ')
  return factsTable(
    [
      ['Heat log', log],
      ['Defects', defects.length === 0 ? 'None is on record.' : shortened(`${defects.join('; ')}.`, 190)],
      [
        'Joints',
        `${joints.length === 0 ? 'None recorded' : `${joints.length}: ${flat(kinds['joint-formed'].fields.joint.options)}`}${base === 0 ? '.' : `; ${base} of the base below. Movement joints are carried through the covering.`}`,
      ],
      ['Before laying', preparation(story.bay.body.screed)],
    ],
    62,
  )
}

/** What the trade does to a surface before it is covered. @provenance common practice */
function preparation(screed: BayFile['story']['bay']['body']['screed']): string {
  const sanding =
    screed === 'calcium sulfate' ? 'Sand off the skin, vacuum' : 'Remove laitance and dust, vacuum'
  return `${sanding}; primer and levelling compound as the maker of the covering says.`
}

/** What is not met and not known in full; what is met by its name alone, so that the page stays one page. */
function conditions(all: readonly Condition[]): Content {
  const open = all.filter(({ state }) => state !== 'met')
  const met = all.filter(({ state }) => state === 'met').map(({ name }) => name)
  const most = Math.max(70, Math.floor(620 / Math.max(1, open.length)))
  return {
    layout: factsLayout,
    table: {
      widths: [10, 52, 116, '*'],
      dontBreakRows: true,
      body: [
        ...open.map(({ name, state, because }) => [
          conditionMark(state, 8),
          { text: conditionWords[state], fontSize: 8, bold: true },
          { text: name, fontSize: 8, bold: true },
          { text: shortened(because, most), fontSize: 7.8 },
        ]),
        ...(met.length === 0
          ? []
          : [
              [
                conditionMark('met', 8),
                { text: 'Met', fontSize: 8, bold: true },
                { text: met.join(' · '), colSpan: 2, fontSize: 8 },
                '',
              ],
            ]),
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
          { qr: qrText(bay), fit: 74, eccLevel: 'M', alignment: 'right', foreground: ink.text },
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
