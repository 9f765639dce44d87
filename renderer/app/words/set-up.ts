const ofCount = (count: number, one: string, many: string) => `${count} ${count === 1 ? one : many}`

export const setUpWords = {
  parts: {
    project: 'Project',
    rules: 'Rules',
    places: 'Floors, zones and bays',
    people: 'People',
    instruments: 'Instruments',
    record: 'The record',
  },
  leads: {
    project: 'What this project is and which standards it works to. A change is a correction with a reason.',
    rules:
      'Every limit that an alert or a verdict uses: its value, where it comes from and how sure that is. Check them against the contract, the current standard and the makers’ instructions.',
    places: 'A floor holds zones, a zone holds bays. A bay is what is laid in one go.',
    people: 'Everybody who writes in this record or is named in it. Every entry is signed by one of them.',
    instruments:
      'What readings are taken with, and when each was last checked. A test with an unchecked instrument proves nothing.',
    record: 'Where the record lies on this machine, its backups, and whether it is whole.',
  },
  firstRun: {
    title: 'Open the first project',
    lead: 'This record is empty. It begins with a project and the person who opens it. Floors, zones and bays come next.',
    project: 'The project',
    person: 'You',
    open: 'Open the project',
    caution:
      'This record helps people see and keep facts. It does not certify. Limits are those entered for the project; check them against the contract, the current standard and the makers’ instructions. Law, licences and codes differ by country.',
  },
  change: 'Change',
  add: 'Add',
  backToList: 'Back without saving',
  project: {
    version: (name: string, version: string) => `Rule set in force: ${name}, version ${version}`,
  },
  rules: {
    question: 'Question',
    value: 'Value',
    source: 'Where it comes from',
    own: 'own value',
    because: (reason: string) => `Because: ${reason}`,
    change: 'Set own value',
    changeOf: (question: string) => `Set own value: ${question}`,
    back: 'Take back the own value',
    range: (least: string, most: string, unit: string) => `A project may set ${least} to ${most} ${unit}`,
    reason: 'Why this project differs',
    reasonHelp: 'The contract clause or the maker’s data sheet that asks for it.',
    save: 'Save own value',
    choices: 'Where sources disagree',
    choicesLead: 'Each has its reason, which stands below it. The project says which one it works to.',
    choiceReason: 'Why the choice changes',
    saveChoice: 'Save the choice',
    filter: 'Find a rule',
    none: 'No rule holds these words.',
    takenBack: 'Own value taken back',
    overrideReason: (question: string, reason: string) => `Own value for “${question}”: ${reason}`,
    choiceChanged: (question: string, reason: string) => `Choice “${question}”: ${reason}`,
    outside: (least: string, most: string, unit: string) =>
      `The value must be a number from ${least} to ${most} ${unit}.`,
    needReason: 'Say why: a limit without a reason cannot be defended.',
  },
  places: {
    addFloor: 'Add a floor',
    addZone: 'Add a zone',
    addBay: 'Add a bay',
    saveFloor: 'Save the floor',
    saveZone: 'Save the zone',
    saveBay: 'Save the bay',
    emptyTitle: 'No floor yet',
    empty:
      'Begin with the lowest floor: its name and what the screed will lie on. Then its zones, then the bays.',
    noZones: 'No zone yet. A zone is rooms with one use, one covering and one way of heating.',
    noBays: 'No bay yet. A bay is one pour between joints or walls.',
    floorLine: (base: string) => base,
    zoneLine: (covering: string, heated: boolean, method: string) =>
      `${covering}; ${heated ? 'heated' : 'not heated'}; tested by ${method.toLowerCase()}`,
    bayLine: (area: string, thickness: string, screed: string, construction: string) =>
      `${area}, ${thickness}, ${screed.toLowerCase()}, ${construction.toLowerCase()}`,
    openBay: 'Open',
    drawn: 'Bays can also be drawn and joined to a plan under Floors.',
    shapeTitle: 'Shape against the rules',
    shapeLead: 'By the rules in force for this zone:',
  },
  people: { add: 'Add a person', save: 'Save the person' },
  instruments: {
    add: 'Add an instrument',
    save: 'Save the instrument',
    emptyTitle: 'No instrument yet',
    empty:
      'Add the hygrometers, probes and vessels that readings are taken with. Their checks decide whether a test is valid.',
    check: 'Write down a check',
    never: 'Never checked in this record',
    checked: (when: string, passed: boolean | null) =>
      `Last checked ${when}: ${passed === null ? 'result not known' : passed ? 'passed' : 'failed'}`,
    failed: 'Failed its check',
    ranOut: 'Certificate ran out',
    due: (day: string) => `certificate due ${day}`,
  },
  tuning: {
    title: 'Rules that fire on most bays',
    lead: 'An alert on more than 40 of 100 bays tells of the rule, or of how the whole job is done. Change the rule with a reason, or change the work.',
    fired: (bays: number, of: number, percent: number) => `on ${bays} of ${of} bays (${percent} %)`,
  },
  notifications: {
    title: 'Reminders of this machine',
    label: 'Remind at 07:00 and 15:00 of the site, and when an alert says stop',
    lead: 'A reminder shows the bay and the act only, because it can be read on a locked screen.',
  },
  record: {
    folder: 'Data folder',
    device: 'This machine in the record',
    version: 'Version',
    host: { desktop: 'Desktop', browser: 'In the browser, on this machine only' },
    hostLabel: 'Opened',
    backups: 'Backups',
    backupsLead:
      'Each holds the record, opened again and checked before it counts, the photos that it names and the files of frozen evidence. A photo or a report is checked from its first byte to its last, a bundle by its head. A photo is saved once for all backups. To be safe from a lost disk, copy the whole folder of backups elsewhere.',
    backUp: 'Back up now',
    backedUp: (file: string, photos: string) => `Backed up and checked, ${photos}: ${file}`,
    noBackup: 'No backup yet. Make one now, and keep a copy on another disk.',
    backup: (when: string, age: string, size: string, photos: string) =>
      `${when} (${age}), ${size}, ${photos}`,
    recordOnly: 'the record without photos',
    withPhotos: (saved: number, size: string) => `with ${ofCount(saved, 'photo', 'photos')} (${size})`,
    lacksPhotos: (saved: number, named: number, size: string) =>
      `with ${saved} of ${ofCount(named, 'photo', 'photos')} (${size}); the others were not there or not as they were kept: check the record`,
    andFrozen: (photos: string, saved: number, named: number) =>
      saved === named
        ? `${photos}, and ${ofCount(saved, 'file', 'files')} of frozen evidence`
        : `${photos}, and only ${saved} of ${ofCount(named, 'file', 'files')} of frozen evidence; the others were not there or not as they were frozen`,
    verified: 'Checked',
    notVerified: 'Not checked',
    verify: 'Check the whole record',
    verifyTitle: 'Is the record whole?',
    verifyLead:
      'Reads every entry again, follows the chain of each machine, rebuilds all views beside the present ones and compares.',
    verifying: (done: number, of: number) => `${done} of ${of} entries`,
    whole: (entries: number, series: number) =>
      `The record is whole. ${ofCount(entries, 'entry', 'entries')} and ${ofCount(series, 'series', 'series')} of readings agree with their chains.`,
    photos: (kept: number) => `${ofCount(kept, 'photo', 'photos')} as they were kept.`,
    strayPhotos: (count: number) =>
      `${ofCount(count, 'file', 'files')} in the folder of photos that no entry names: left by an interruption. They do no harm.`,
    broken: (difference: string) =>
      `The record is not whole. First difference: ${difference} Make a copy of the data folder before anything else, and go on with the last checked backup.`,
    chain: (entries: number, head: string) => `${ofCount(entries, 'entry', 'entries')}, newest ${head}`,
    cancelled: 'Stopped. Nothing was changed.',
    stop: 'Stop',
    caution:
      'Whoever owns the disk can replace the whole file. Use disk encryption, and keep backups where others hold them.',
  },
} as const
