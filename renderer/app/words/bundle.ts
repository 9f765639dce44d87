const count = (number: number, one: string, many: string) =>
  `${number.toLocaleString('en-GB')} ${number === 1 ? one : many}`

export const bundleWords = {
  title: 'Signed bundle',
  lead: 'The record in one file that others can check without Bayledger, and that another machine can take in.',
  make: {
    title: 'Make a bundle',
    scope: 'What goes into it',
    scopes: { project: 'The whole project', bays: 'Some bays', record: 'The whole record' },
    scopeHelp: {
      project: 'Every entry of this project, with logger files, readings, photos and rules.',
      bays: 'What is about these bays, and what it refers to. Of every other entry only its hash goes along, so that nothing can be hidden. A record that has nothing of this project can take it in; it then says on every page that it is a part.',
      record: 'Every project of this record. Choose this to go on working on another machine.',
    } as Record<string, string>,
    bays: 'Bays',
    needBays: 'Choose at least one bay.',
    reason: 'What it is for, if anything special',
    reasonHelp: 'Stands in the bundle, such as the fault or the handover that it is made for.',
    start: 'Sign and write the bundle',
    running: (percent: number) => `Writing: ${percent} %`,
    stop: 'Stop',
    stopped: 'Stopped. No bundle was made.',
    done: 'The bundle is written and signed.',
    note: 'Note this fingerprint where others hold it: in the handover letter, the minutes, a message. With it anybody can tell this bundle from every other one.',
  },
  kept: {
    title: 'Bundles on this machine',
    none: 'No bundle yet. Made ones stay here until you take them away.',
    where: (folder: string) => `They lie in ${folder}`,
    save: 'Save a copy',
    tooLarge: 'Too large to save from here; copy the file from the folder.',
    fingerprint: 'Fingerprint',
    copy: 'Copy the fingerprint',
    copied: 'Copied',
  },
  line: (scope: string, entries: number, when: string) =>
    `${scope}, ${count(entries, 'entry', 'entries')}, ${when}`,
  scopeOf: {
    record: () => 'Whole record',
    project: () => 'Whole project',
    bays: (bays: readonly string[]) =>
      bays.length > 6
        ? `${bays.slice(0, 6).join(', ')} and ${bays.length - 6} more bays`
        : `${bays.length === 1 ? 'Bay' : 'Bays'} ${bays.join(', ')}`,
  },
  part: {
    title: (held: number, of: number | null) =>
      of === null
        ? `This record holds ${count(held, 'bay', 'bays')} of the project, not all of it. Of the others nothing is known here.`
        : `This record holds ${held} of ${count(of, 'bay', 'bays')} of the project. Of the others nothing is known here.`,
    what: (bays: readonly string[], when: string) =>
      `Here: ${bays.length === 0 ? 'none' : bays.join(', ')}, as of ${when}. What was recorded of the other bays is not here: no page says that they are dry, ready or without faults.`,
    named: (bays: readonly string[]) =>
      `Only their plan is here, because the others are judged beside them: ${bays.slice(0, 12).join(', ')}${bays.length > 12 ? ` and ${bays.length - 12} more` : ''}.`,
    taking: (of: string) =>
      `It is a part, ${of}. This record will say so on every page. For more bays later, take a fuller bundle into a new, empty record, and after it a bundle made here: what was written here goes along.`,
    ofAll: (given: number, of: number | null) =>
      of === null ? count(given, 'bay', 'bays') : `${given} of ${count(of, 'bay', 'bays')} of the project`,
  },
  received: {
    title: 'Check a bundle that you received',
    lead: 'It is read from its first byte to its last. Nothing is written by the check.',
    choose: 'Choose a bundle',
    drop: 'or drop it here',
    chosen: (name: string, size: string) => `${name}, ${size}`,
    sending: 'Reading the file',
    checking: (percent: number) => `Checking: ${percent} %`,
    stop: 'Stop',
    stopped: 'Stopped. Nothing was written.',
    good: 'Good. Nothing in it was changed since it was signed.',
    unsigned: 'Signature not checked: this machine cannot. Everything else agrees, but that is not good.',
    broken: (difference: string) => `Not good. First difference: ${difference}`,
    brokenNext: 'Nothing was taken in. Ask for the bundle again, and tell the sender what differs.',
    compare:
      'Compare the fingerprint with the one the sender noted. Only that shows that it is the very bundle.',
    about: {
      fingerprint: 'Fingerprint',
      project: 'Project',
      scope: 'Holds',
      part: 'Is a part',
      made: 'Made',
      madeBy: (when: string, by: string, machine: string) => `${when}, by ${by}, on ${machine}`,
      asOf: 'As of',
      reason: 'What for',
      entries: 'Entries',
      entriesOf: (given: number, leftOut: number) =>
        leftOut === 0
          ? count(given, 'entry', 'entries')
          : `${count(given, 'entry', 'entries')}; ${leftOut} left out, only their hash is in it`,
      with: 'With',
      withOf: (files: number, photos: number) =>
        `${count(files, 'logger file', 'logger files')}, ${count(photos, 'photo', 'photos')}`,
      missing: 'Not in it',
      missingOf: (files: number) => `${count(files, 'photo or file', 'photos or files')} that entries name`,
      key: 'Signing key',
    },
    trust: {
      known: (since: string) => `The key that this record has known of that machine since ${since}.`,
      'first seen': () =>
        'This record sees that machine for the first time. Ask the sender to read the fingerprint to you.',
      another: (since: string) =>
        `Not the key that this record has known of that machine since ${since}. It may be a new key after a loss, or somebody else. Ask the sender before you take it in.`,
    },
  },
  takeIn: {
    title: 'Take it into this record',
    would: (added: number, known: number) =>
      `${count(added, 'entry is', 'entries are')} new here, ${known.toLocaleString('en-GB')} known.`,
    withConflicts: (conflicts: number) =>
      `${count(conflicts, 'fact will', 'facts will')} then have two corrections, for you to settle below.`,
    nothing: 'Everything in it is in this record already.',
    confirm: 'I compared the fingerprint with the one that the sender noted',
    start: 'Take it in',
    running: (percent: number) => `Checking again and taking in: ${percent} %`,
    done: (added: number) => `Taken in: ${count(added, 'new entry', 'new entries')}.`,
    doneConflicts: (conflicts: number) =>
      `${count(conflicts, 'fact has', 'facts have')} two corrections now. Settle them below.`,
    cannot: (why: string) => `It cannot be taken in. ${why}`,
  },
  conflicts: {
    title: 'Two corrections of one fact',
    lead: 'Two machines corrected the same entry. Both are kept. Say which one holds; the other is withdrawn in your name and stays readable.',
    none: 'No fact has two corrections.',
    by: (who: string, when: string) => `${who}, ${when}`,
    because: (reason: string) => `Because: ${reason}`,
    holds: 'This one holds',
    reason: 'Why this one',
    needReason: 'Say why: the other person will read it.',
    settle: 'Settle it',
    pick: 'Pick the one that holds.',
    history: 'Whole history',
  },
  verifier: {
    title: 'The verifier',
    lead: 'Give it to whoever shall check a bundle without Bayledger. It needs no network and sends nothing. It comes from here and not with the bundle: a verifier that comes with what it judges can say anything.',
    program: 'Save verify.mjs (for Node)',
    page: 'Save verify.html (for a browser)',
    none: 'The verifier is not part of this build.',
  },
  caution:
    'A good bundle proves that nothing was changed since it was signed. It does not prove that an entry is true, that the record is complete, who a person is, or that a floor is ready.',
} as const
