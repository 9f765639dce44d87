import type { Content } from 'pdfmake/interfaces.js'
import type { StoredOutline } from '#db/index.ts'
import type { ProjectPart } from '#model/contract/parts.ts'
import { roles } from '#model/record/people.ts'
import { coverings } from '#model/record/words.ts'
import { type EffectiveRules, limitText, listRules, ruleSets } from '#model/rules/index.ts'
import type { BayFile } from '../handover/bay-file.ts'
import type { Gap } from '../handover/gaps.ts'
import { dayText, fullMomentText } from '../site-text.ts'
import { ink } from './look.ts'
import { conditionMark, stateLooks, verdictStates, verdictWords } from './marks.ts'
import { block, chapter, factsTable, rowsTable, sentences, signatureLines } from './parts.ts'
import { statusKey, statusPlan } from './status-plan.ts'

export interface ProjectFile {
  outline: StoredOutline
  bays: readonly BayFile[]
  gaps: ReadonlyMap<string, readonly Gap[]>
  rules: EffectiveRules
  asOf: number
  /** SHA-256 over the hashes of all story files in it. */
  seal: string
}

/** What a file from a record that holds some bays only says on its first page. */
export function partText({ held, ofBays }: ProjectPart): string {
  const of = ofBays === null ? 'not all bays' : `${held.length} of ${ofBays} bays`
  return `The record behind this file holds ${of} of the project. Of the others nothing is known here, neither good nor bad.`
}

/** The first page: what this is, who stands behind it, how each bay stands. */
export function cover({ outline, bays, rules, asOf, seal, gaps }: ProjectFile): Content[] {
  const { body } = outline.project
  const openOf = ({ id }: BayFile) =>
    (gaps.get(id) ?? []).filter(({ answered, state }) => answered === null && state !== 'not yet').length
  const open = bays.reduce((sum, bay) => sum + openOf(bay), 0)
  const parties = outline.people.map(({ body: person }) =>
    [person.name, roles[person.role], person.firm].filter((part) => part !== undefined).join(', '),
  )
  return [
    { text: 'Handover file', fontSize: 12, bold: true, color: ink.accent, margin: [0, 40, 0, 6] },
    { text: body.name, style: 'title' },
    {
      text: `${bays.length === 1 ? '1 bay' : `${bays.length} bays`}, as the record stood ${fullMomentText(asOf, body.timeZone)}`,
      fontSize: 12,
      color: ink.soft,
      margin: [0, 6, 0, 18],
    },
    factsTable(
      [
        ...(outline.part === null ? [] : [['A part', partText(outline.part)] as [string, string]]),
        ['Client', body.client ?? null],
        ['Site', body.address ?? null],
        ['Contract', body.contract ?? null],
        [
          'Parties',
          parties.length === 0 ? null : { stack: parties.map((text) => ({ text, fontSize: 8.6 })) },
        ],
        [
          'Rules in force',
          `${rules.name}, version ${rules.version}; each limit with its source is in “Rules in force”`,
        ],
        ['Times', `Clock of the site, ${body.timeZone.replaceAll('_', ' ')}`],
        [
          'Known gaps',
          open === 0 ? 'None stands open.' : `${open} stand open; they come first, on the next pages.`,
        ],
        ['Seal', { text: seal, fontSize: 7.6 }],
      ],
      92,
    ),
    rowsTable({
      title: 'How the bays stand',
      none: 'No bay was chosen.',
      columns: [
        { head: '', width: 12 },
        { head: 'Bay', width: 90 },
        { head: 'Floor and zone', width: '*' },
        { head: 'For the covering', width: 96 },
        { head: 'Verdict', width: 74 },
        { head: 'On the plan', width: 62 },
        { head: 'Open gaps', width: 44, right: true },
      ],
      rows: bays.map((bay) => [
        conditionMark(verdictStates[bay.readiness.verdict], 8),
        { text: bay.name, style: 'cell', bold: true, linkToDestination: `bay-${bay.id}` },
        bay.place,
        coverings[bay.covering],
        { text: verdictWords[bay.readiness.verdict], style: 'cell', bold: true },
        stateLooks[bay.state.word].word,
        openOf(bay),
      ]),
    }),
    {
      margin: [0, 10, 0, 0],
      style: 'small',
      text: 'This record helps people see and keep facts. It does not certify. The seal is the SHA-256 over the story files of these bays, which “Copy for machines” lists one by one.',
    },
  ]
}

export function contents(): Content {
  return {
    pageBreak: 'before',
    toc: {
      title: { text: 'Contents', style: 'chapter' },
      numberStyle: { bold: false },
    },
  }
}

const stateWords: Record<Gap['state'], string> = {
  'not met': 'Not met',
  'not known': 'Not known',
  open: 'Open',
  'not yet': 'Not yet due',
}

/** What is missing, bay by bay, before anything that is there. */
export function gapsChapter({ bays, gaps }: ProjectFile): Content[] {
  return [
    ...chapter('Known gaps', {
      id: 'gaps',
      lead: 'What the record does not hold, or what stands open: said first, so that nobody has to look for it.',
    }),
    ...bays.map((bay) =>
      rowsTable({
        title: bay.name,
        none: 'Nothing is missing.',
        columns: [
          { head: 'What', width: 138 },
          { head: 'State', width: 56 },
          { head: 'Why', width: '*' },
          { head: 'Answered', width: 92 },
        ],
        rows: (gaps.get(bay.id) ?? []).map(({ what, state, because, answered }) => [
          what,
          { text: stateWords[state], style: 'cell', bold: state === 'not met' || state === 'open' },
          because,
          answered ?? 'no',
        ]),
      }),
    ),
  ]
}

export function plansChapter({ outline, bays }: ProjectFile): Content[] {
  const floors = outline.floors.filter(({ id }) => bays.some(({ story }) => story.floor.id === id))
  return [
    ...chapter('Plans', {
      id: 'plans',
      lead: 'Each bay with its state: the hatch and the word say the same.',
    }),
    ...floors.map((floor) => {
      const on = bays.filter(({ story }) => story.floor.id === floor.id)
      return block(
        floor.body.name,
        statusPlan(floor.body, on),
        statusKey(on, (floor.body.baseJoints ?? []).length > 0),
      )
    }),
  ]
}

/** Every limit with where it comes from; what the project chose and what it set itself first. */
export function rulesChapter({ outline, rules, asOf }: ProjectFile): Content[] {
  const listed = listRules(rules)
  const groups = [...new Set(listed.map(({ group }) => group))]
  const set = ruleSets[rules.ruleSet]
  const own = listed.filter(({ overridden }) => overridden)
  return [
    ...chapter('Rules in force', {
      id: 'rules',
      lead: `${rules.name}, version ${rules.version}, as of ${dayText(asOf, outline.project.body.timeZone)}. “Quoted second-hand” and “from memory” mean that nobody here has checked the number against the document: check it before you rely on it.`,
    }),
    rowsTable({
      title: 'Choices where sources disagree',
      none: 'This set leaves no choice.',
      columns: [
        { head: 'Question', width: '*' },
        { head: 'Answer of this project', width: '*' },
      ],
      rows: set.choices.map(({ id, question, options }) => [
        question,
        options.find((option) => option.id === rules.choices[id])?.label ?? null,
      ]),
    }),
    rowsTable({
      title: 'Own values of the project',
      none: 'The project has set no value of its own.',
      columns: [
        { head: 'Question', width: '*' },
        { head: 'Value', width: 80 },
        { head: 'Reason', width: '*' },
      ],
      rows: own.map(({ question, limit }) => [question, limitText(limit), limit.reason ?? null]),
    }),
    ...groups.map((group) =>
      rowsTable({
        title: group,
        none: '',
        columns: [
          { head: 'Question', width: '*' },
          { head: 'Limit', width: 92 },
          { head: 'Source', width: 168 },
          { head: 'How it is known', width: 78 },
        ],
        rows: listed
          .filter((rule) => rule.group === group)
          .map(({ question, limit }) => [
            question,
            limitText(limit),
            [limit.source, limit.edition, limit.clause].filter((part) => part !== undefined).join(', '),
            limit.provenance,
          ]),
      }),
    ),
  ]
}

/** What each party says with its hand; the hand itself goes on paper, or the decision into the record. */
export function signaturesChapter(): Content[] {
  return [
    ...chapter('Signatures', {
      id: 'signatures',
      lead: 'For this file as a whole. The floor layer signs on the release page of each bay.',
    }),
    ...statements.map(
      ([who, says]): Content => ({
        unbreakable: true,
        stack: [
          { text: who, style: 'part' },
          { text: says, margin: [0, 0, 0, 4] },
          signatureLines(['Name and firm', 'Signature', 'Date and time']),
        ],
      }),
    ),
  ]
}

const statements = [
  [
    'Site supervisor',
    'I was there, or was told by the person named with the entry. Times are those at which things happened; what was written down late is marked so.',
  ],
  [
    'Quality manager',
    'I have checked the requirements listed under “Known gaps” for these bays. What is not met is listed, with its answer where it has one. What lies below the surface I have seen only where there is a photo of it.',
  ],
  [
    'Client',
    'I have received this file, and know the gaps that it lists. The care of the floor that it describes is passed on to whoever uses it.',
  ],
] as const

/** Loads, heat, joints and water: what the owner keeps to. */
export function careChapter({ bays }: ProjectFile): Content[] {
  const heated = bays.filter(({ story }) => story.zone.body.heated)
  const hottest = heated.flatMap(({ story }) => story.zone.body.maxSurfaceC ?? [])
  return [
    ...chapter('Care of the floor', {
      id: 'care',
      lead: 'Common practice; the makers’ instructions and the design come before it.',
    }),
    sentences([
      'Loads: keep to the load the floor was designed for. Spread point loads; a screed on insulation dents and cracks under jacks, racks and small wheels.',
      heated.length === 0
        ? 'Heating: these floors have none. Do not fit heating under the covering without asking the maker of the covering.'
        : `Heating: raise and lower the flow in small steps, and never switch it off for good in frost.${hottest.length === 0 ? ' The highest surface temperature was not recorded: ask the designer.' : ` The surface stays at or below ${Math.min(...hottest)} °C.`} Rugs and furniture without legs make the floor below them hotter.`,
      'Joints: keep movement joints open and elastic; carry them through every later covering. A filled joint moves the crack elsewhere.',
      'Water: stop leaks at once and have the screed tested before it is covered again. Wash with as little water as will do.',
      'Drilling and cutting: find pipes and cables first. Dust of screed holds silica: water or extraction on the tool and a fitted mask.',
      'New coverings: test the moisture again with the method and limit of the new covering; this file speaks for the covering named in it only.',
    ]),
  ]
}

export function machineChapter({ bays, seal }: ProjectFile): Content[] {
  return [
    ...chapter('Copy for machines', {
      id: 'machines',
      lead: 'The story file of a bay (JSON) holds every entry with its versions and every reading. Made again as of the same instant it has the SHA-256 below, unless something was added about that time since. A hash shows that something was changed; it does not prove that the first entry was true.',
    }),
    rowsTable({
      title: 'Story files',
      none: 'No bay was chosen.',
      columns: [
        { head: 'Bay', width: 110 },
        { head: 'Entries', width: 44, right: true },
        { head: 'Readings', width: 52, right: true },
        { head: 'SHA-256', width: '*' },
      ],
      rows: bays.map(({ name, story, hash }) => [
        name,
        story.entries.length,
        story.series.reduce((sum, { at }) => sum + at.length, 0),
        { text: hash, fontSize: 7 },
      ]),
    }),
    { text: [{ text: 'Seal of this file: ', bold: true }, seal], fontSize: 8, margin: [0, 8, 0, 0] },
  ]
}

export function cautionsChapter(): Content[] {
  return [
    {
      unbreakable: true,
      margin: [0, 22, 0, 0],
      stack: [...chapter('What this file is not', { id: 'limits', newPage: false }), sentences(disclaimers)],
    },
  ]
}

const disclaimers = [
  'This record helps people see and keep facts. It does not certify. Limits are those entered for this project; check them against the contract, the current standard and the makers’ instructions.',
  'Forecast dates are estimates and never permit covering: only a valid test does.',
  'Probabilities of causes are aids to judgement, not findings. Ask a competent investigator before liability is alleged.',
  'Law, licences and codes differ by country; testing, heating work, electrical work and engineering may need licensed persons here.',
  'Structure is not judged here: cracks in the base with a step, deflection, cutting below the screed and stacking on it are for an engineer.',
  'Times are those that people or instruments gave. Entries written down late are marked so; withdrawn ones are shown with their reason.',
]
