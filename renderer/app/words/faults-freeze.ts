/** Words of freezing the evidence of a fault for a claim, and of what the options are asked. */
export const freezeWords = {
  freeze: {
    title: 'Evidence frozen for a claim',
    lead: 'Keeps all that the record holds of these bays as it stands now: a report to read and a signed bundle that others can check. What is written later changes neither.',
    none: 'Nothing has been frozen.',
    open: 'Freeze the evidence',
    formTitle: 'Freeze the evidence',
    bays: 'Bays that belong to it',
    baysHelp: 'The bay of the fault and those beside it. A sound neighbour is evidence too.',
    ownBay: 'the bay of the fault, always in it',
    more: 'Another bay',
    reason: 'Why it is frozen',
    reasonHelp: 'Such as the claim that it answers. It stands in the bundle and in the record.',
    reasonNeeded: 'Write why: whoever opens it later wants to know.',
    nobody: 'Pick your name under “Who is writing” first: evidence is frozen by a person.',
    start: (name: string) => `Freeze as ${name}`,
    startNobody: 'Freeze it',
    steps: {
      report: (percent: number) => `Making the report: ${percent} %`,
      bundle: (percent: number) => `Signing the bundle: ${percent} %`,
    },
    stopped: 'Stopped. Nothing was frozen.',
    done: 'Frozen. Note the hash where others hold it, such as in a letter.',
    by: (who: string, when: string) => `Frozen by ${who}, ${when}`,
    what: (bays: string, entries: number) => `${bays}: ${entries} entries`,
    hash: 'SHA-256 of the bundle',
    reportHash: 'SHA-256 of the report',
    save: { bundle: 'Save the signed bundle', report: 'Save the report (PDF)' },
    elsewhere: 'Its files lie on the machine where it was frozen.',
  },
  daysLeft: {
    label: 'Days that the programme has left before the covering',
    help: 'Only days lost beyond them count as delay. Not written to the record; remembered on this machine.',
    wrong: (most: number) => `A whole number of days from 0 to ${most}, or leave it empty.`,
    counted: (days: number) => `Days left in the programme: ${days}.`,
  },
  newScreed: {
    ask: 'Work out how long new screed would dry here',
    running: (percent: number) => `Working it out: ${percent} %`,
    rule: 'Drying of new screed: by the rule of thumb.',
    found: (p50: number, p90: number) =>
      `Drying of new screed by the forecast for this room: ${p50} to ${p90} days from laying, curing among them. It plans and never releases.`,
    notReached:
      'In the room as it stands new screed may not keep its limit within two years: dry the room first. The rule of thumb stays.',
    missing: (what: string) => `It cannot be worked out. Missing: ${what} The rule of thumb stays.`,
  },
} as const
