/** Words of faults and their repair that the record keeps: stored value → words on screen. */

/** How somebody looked at a fault. */
export const lookMethods = {
  look: 'Looked at',
  told: 'Told by someone',
  paper: 'Found on paper or in a photograph',
  tapping: 'Tapping',
  scratch: 'Scratch',
  grinding: 'Grinding a small patch in steps',
  'drop weight': 'Drop-weight test',
  'pull-off': 'Pull-off',
  core: 'Core',
  laboratory: 'Laboratory',
  dye: 'Indicator dye on a fresh break',
  gauge: 'Crack gauge',
  'thermal image': 'Thermal image',
  'meter map': 'Meter map',
  other: 'Another way',
} as const
export type LookMethod = keyof typeof lookMethods

export const repairOptionWords = {
  leave: 'Leave as it is',
  'remove skin': 'Remove the weak skin, prime and re-level',
  fill: 'Fill with low-viscosity resin',
  consolidate: 'Consolidate with penetrating resin, after a trial',
  patch: 'Cut out and replace a patch',
  replace: 'Replace the whole bay',
  'turn into joint': 'Turn the crack into a joint',
} as const
export type RepairOptionId = keyof typeof repairOptionWords
export const repairOptionIds = Object.keys(repairOptionWords) as RepairOptionId[]

/** The lines of a table of unit rates. The unit stands behind the words; money is in the project's currency. */
export const rateItems = {
  setUp: 'Set-up, each visit',
  crackFillPerM: 'Crack filled with resin, preparation included, per m',
  tieEach: 'Tie across a crack, each',
  jointPerM: 'Joint formed in existing screed, per m',
  grindPerM2: 'Grinding 2 mm with extraction, per m²',
  skimPerM2: 'Skim of 3 mm with primer, per m²',
  consolidantPerKg: 'Consolidant, per kg',
  consolidatingPerM2: 'Labour to consolidate, per m²',
  blindingPerM2: 'Blinding with sand, per m²',
  breakOutPerM2: 'Breaking out by area, per m²',
  breakOutByHandPerM2: 'Breaking out by hand round pipes, per m²',
  relayPerM2: 'Relaying, per m²',
  circuitRepairEach: 'Heating circuit repaired, each',
  circuitPerM2: 'Heating circuit replaced, per m²',
  wastePerT: 'Waste, per tonne',
  cementContentEach: 'Cement content by laboratory, each',
  thinSectionEach: 'Thin section, each',
  soundnessVisit: 'Soundness test, each visit',
} as const
export type RateItem = keyof typeof rateItems
export const rateItemIds = Object.keys(rateItems) as RateItem[]

/** Signs that something below or around the screed moves: work for a structural engineer, not for this record. */
export const structuralSigns = {
  none: 'None seen',
  'stepped base crack': 'Base cracked wider than 0.5 mm, with a step',
  deflection: 'Floor sags or springs',
  corrosion: 'Rust or spalling of reinforcement',
  'moving units': 'Precast units move against each other',
} as const
export type StructuralSign = keyof typeof structuralSigns
