import type { BayGap, ReportKind } from '#model/contract/reports.ts'

const kinds: Record<ReportKind, string> = {
  project: 'Handover file (PDF)',
  bay: 'Bay files (PDF)',
  release: 'Release pages (PDF)',
  workbook: 'Tables (XLSX)',
  tables: 'Tables (CSV)',
  story: 'Story for another program (JSON)',
}
const kindHelp: Record<ReportKind, string> = {
  project:
    'Known gaps first, then the plans, a release page a bay, all about each bay, the rules with their sources, the care of the floor.',
  bay: 'For each bay its release page and all about it: chart, batches, curing, heating, tests, defects, alerts, sign-offs.',
  release: 'One page a bay, for a floor layer to decide and sign on.',
  workbook: 'A sheet a kind of thing, units in the headings, times in UTC and by the clock of the site.',
  tables: 'The same tables as text files in one archive, with every reading of the loggers.',
  story:
    'Every entry with its versions and every reading. The SHA-256 on a release page is that of this file.',
}
const gapStates: Record<BayGap['state'], string> = {
  'not met': 'Not met',
  'not known': 'Not known',
  open: 'Open',
  'not yet': 'Not yet due',
}

/** Words of the handover. */
export const handoverWords = {
  nav: 'Handover',
  title: 'Handover',
  lead: 'Choose bays, see what is missing, make the file.',
  noBays: 'No bay yet',
  noBaysLead: 'Bays are planned under Floors. What is written down about them is handed over from here.',
  toFloors: 'To the floors',
  bays: {
    title: 'Which bays',
    all: 'All',
    none: 'None',
    ready: 'Only READY ones',
    chosen: (count: number, of: number) => `${count} of ${of} chosen`,
    gaps: (open: number) =>
      open === 0 ? 'nothing missing' : open === 1 ? '1 thing missing' : `${open} things missing`,
  },
  gaps: {
    title: 'What is missing',
    lead: 'What is not yet due is not counted. A file can be made with gaps: it says them on its first pages.',
    none: 'Nothing is missing of the chosen bays.',
    noneChosen: 'Choose a bay to see what is missing.',
    later: (count: number) => `${count} more not yet due`,
    states: gapStates,
    answered: 'Answered',
  },
  file: {
    title: 'The file',
    kind: 'What to make',
    kinds,
    kindHelp,
    covering: 'Covering',
    asPlanned: 'As planned for each bay',
    estimates: 'With drying estimates in the charts',
    estimatesHelp: 'For bays that still dry. It takes some seconds a bay.',
    make: 'Make the file',
    choose: 'Choose at least one bay first.',
    working: { estimates: 'Working out the drying estimates', file: 'Making the file' },
    percent: (percent: number) => `${percent} %`,
    stop: 'Stop',
    stopped: 'Stopped. No file was made.',
    done: (name: string, size: string) => `${name}, ${size}, is made and was handed to you.`,
    hash: 'SHA-256 of the file',
    again: 'Save it again',
  },
  bundle: {
    title: 'Signed bundle',
    lead: 'The record itself, signed by this machine, for another Bayledger or for a court; or check one that was received.',
    open: 'Sign or check a bundle',
  },
} as const
