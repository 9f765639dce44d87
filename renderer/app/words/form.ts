import { asSentence } from './trouble.ts'

/** Words of every form. Labels, units and choices come from the record's own field descriptions. */
export const formWords = {
  needed: (label: string) => `${label} is needed.`,
  notANumber: (label: string, typed: string) =>
    `“${typed}” under “${label}” is not a number. Write digits only, such as 12.5.`,
  outside: (label: string, why: string, typed: string) => asSentence(`${label} ${why}, not ${typed}`),
  noTime: (label: string, day: string, clock: string) =>
    `${label}: “${`${day} ${clock}`.trim()}” is not a day and time. Write the time as 07:15.`,
  skippedHour: (label: string, clock: string) =>
    `${label}: no clock on site showed ${clock} that night, because the clocks went forward. Give the time before or after.`,
  unusual: (label: string, value: string, [least, most]: readonly [string, string], unit: string) =>
    `${label} is ${value}${unit === '' ? '' : ` ${unit}`}; usual is ${least === most ? least : `${least} to ${most}`}${
      unit === '' ? '' : ` ${unit}`
    }. Is that right?`,
  usual: (least: string, most: string) => (least === most ? `usual ${least}` : `usual ${least} to ${most}`),
  allowed: (least: string, most: string) => `${least} to ${most}`,
  optional: 'optional',
  sure: 'Yes, it is right',
  sureWhy: 'Why it is so (kept with the entry)',
  sureDefault: 'Checked and right.',
  sureNeeded: (label: string) => `Say whether ${label.toLowerCase()} is right, or correct it.`,
  yes: 'Yes',
  no: 'No',
  clear: 'Clear',
  clearForm: 'Clear the form',
  kept: 'Not saved yet; kept on this machine while you work elsewhere.',
  keptMeantime: 'This form was begun earlier and is not saved yet.',
  when: 'When',
  now: 'Now',
  tenAgo: '10 min ago',
  hourAgo: '1 h ago',
  day: 'Day',
  clock: 'Time',
  again: 'The clocks went back that night and this hour came twice. Which one?',
  firstPass: 'The first, before the clocks went back',
  secondPass: 'The second, after',
  future: 'This is in the future. A fact is written down when it has happened.',
  more: 'More, if known',
  fewer: 'Fewer',
  choose: 'Choose',
  none: 'None recorded yet',
  addItem: 'Add one',
  removeItem: (index: number) => `Remove ${index}`,
  item: (index: number) => `${index}`,
  outline: {
    title: 'Outline',
    sides: 'Length and width',
    corners: 'Corner by corner',
    lengthM: 'Length',
    widthM: 'Width',
    x: 'Starts at x',
    y: 'Starts at y',
    digits: 'Digits only, such as 6.4.',
    empty: 'The bay is drawn here to scale as you type.',
    shape: (area: string, side: string) => `${area} m², longest side ${side} m`,
  },
  reason: 'Why is it corrected?',
  reasonHelp: 'Stands beside the old version for everybody to read.',
  reasonNeeded: 'Say why it is corrected: the reason stands beside the old version.',
  save: 'Save',
  saveCorrection: 'Save the correction',
  saving: 'Saving…',
  putRight: (count: number) => (count === 1 ? 'One thing to put right' : `${count} things to put right`),
  carried: (what: string, when: string) =>
    `Filled in from the last one (${what}, ${when}). Change what differs.`,
} as const
