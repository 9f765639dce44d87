import type { BayState } from '#model/contract/index.ts'
import type { Condition, ReadyVerdict } from '#model/readiness/verdict.ts'

const states: Record<BayState['word'], string> = {
  planned: 'Planned',
  curing: 'Curing',
  drying: 'Drying',
  ready: 'Ready',
  'not proven': 'Not proven',
  covered: 'Covered',
  stopped: 'Stopped',
}
const verdicts: Record<ReadyVerdict, string> = {
  ready: 'READY',
  'not ready': 'NOT READY',
  'not proven': 'NOT PROVEN',
}
const conditions: Record<Condition['state'], string> = {
  met: 'Met',
  'not met': 'Not met',
  unknown: 'Not known',
}

export const shellWords = {
  app: 'Bayledger',
  waiting: 'Reading the record…',
  tryAgain: 'Try again',
  loadAgain: 'Load the program again',
  cancel: 'Cancel',
  close: 'Close',
  back: 'Back',
  notKnown: 'not known',
  states,
  verdicts,
  conditions,
  names: {
    bay: (name: string) => (/^bay\b/i.test(name) ? name : `Bay ${name}`),
    instrument: (type: string, serial: string) => `${type.charAt(0).toUpperCase()}${type.slice(1)} ${serial}`,
    unknown: 'unknown',
  },
  why: {
    ask: 'why?',
    of: (what: string) => `Why? ${what}`,
    from: 'Worked out from',
  },
  notHere: {
    title: 'No such page',
    lead: 'The address does not lead to anything in this record.',
    back: 'Go to Today',
  },
  nav: {
    label: 'Pages',
    skip: 'Skip to the page',
    today: 'Today',
    floors: 'Floors',
    ready: 'Ready to cover',
    faults: 'Faults',
    entries: 'Entries',
    setUp: 'Set-up',
    record: 'Write down a fact',
    imports: 'Read a logger file',
  },
  rail: {
    project: 'Project',
    writer: 'Who is writing',
    pickWriter: 'Pick your name',
    asOf: 'As of now',
    siteTime: (zone: string) => `Site time, ${zone.replaceAll('_', ' ')}`,
    demo: 'Demonstration: invented people, places and readings',
    theme: 'Light or dark',
    light: 'Light',
    dark: 'Dark',
    system: 'As the system',
    find: 'Find or do',
    findKeys: 'Ctrl K',
  },
  command: {
    title: 'Find or do',
    placeholder: 'A bay, a page, or a fact to write down',
    help: 'Type “B4 sheet off”, “air”, “import”… Arrows choose, Enter opens, Escape closes.',
    none: 'Nothing fits. Try the name of a bay, or a word such as “sheet”, “batch”, “moisture”.',
    groups: { bay: 'Bay', page: 'Page', record: 'Write down' },
    recordFor: (title: string, about: string) => `${title}: ${about}`,
    openBay: (name: string) => `${name}: its life`,
    readyBay: (name: string) => `${name}: ready to cover?`,
  },
  saved: {
    label: 'Last entry',
    saved: (title: string, about: string) => `Saved: ${title}, ${about}`,
    show: 'Show',
    undo: 'Undo',
    undoTitle: 'Undo the last entry',
    undoLead:
      'Nothing is deleted: the entry stays in the record, struck through, with your reason. Why was it wrong?',
    undoReason: 'Reason',
    undoReasons: ['Tapped by mistake', 'Wrong bay', 'Wrong value', 'Already written down'],
    undoOther: 'Other reason',
    undoDo: 'Withdraw the entry',
    undoCorrectionLead:
      'The fact will say again what it said before. Nothing is deleted: both versions stay in its history. Why was the correction wrong?',
    undoCorrectionDo: 'Take the correction back',
    done: 'Dismiss',
  },
} as const
