/** Words behind each number, and those of the printed sheets. */
export const whyWords = {
  why: {
    strength: 'Strength of the record',
    strengthFormula:
      'examined items with a weight of 1 or more for the three leading causes ÷ all such items',
    logOdds: (cause: string) => `Log-odds of “${cause}”`,
    logOddsFormula:
      'sum of the parts; shown as 1 ÷ (1 + e^−L), L held between −3.5 and 3.5, so that it never claims more than 97 %',
    judgement: (version: string) =>
      `Weights of evidence, version ${version}. Expert judgement, to be tuned after 20 to 30 proven cases.`,
    start: 'start from the symptoms',
    examined: (looked: number, open: number) => `${looked} found true, ${open} not examined`,
    items: 'Open items that it answers',
    costClass: 'Cost class',
    judgementShort: 'Weights of evidence. Expert judgement, to be tuned after proven cases.',
    cautious: 'cautious',
    cost: (option: string) => `Cost: ${option}`,
    costFormula: 'quantities × rates, lowest and highest',
    ownRates: 'Rates of this project',
    inventedRates: 'Illustrative rates, invented for demonstration',
    days: (option: string) => `Days lost: ${option}`,
    daysSource: 'Planning figure; the estimate of drying and a valid test decide',
    residual: (option: string) => `Chance that it comes back: ${option}`,
    residualSource: 'Editable with the rates',
    whole: (option: string) => `Whole life: ${option}`,
    quantity: (what: string) => `Quantity: ${what}`,
    quantitySource: 'Worked out from what was measured',
    change: 'Change of the crack width',
    changeFormula: 'widest less narrowest reading at one place; the place with the greatest change counts',
    changeSource: 'Gauge readings of this crack',
    test: (name: string) => `Worth of “${name}”`,
    testFormula:
      'sum over the four leading causes of p (1 − p) × |weight| of the items it answers ÷ cost class (1 minutes, 2 an hour, 4 laboratory)',
  },
  print: {
    one: 'Sheet 1: fault, evidence, causes',
    two: 'Sheet 2: what can be done',
    asOf: (when: string) => `As the record stood ${when}`,
    evidenceFor: 'For',
    evidenceAgainst: 'Against',
    further: (count: number) => `and ${count} more in the record`,
    settles: (causes: string) => `Settles: ${causes.toLowerCase()}.`,
    otherCauses: 'Also looked at',
    cautions: 'Before anybody begins',
    signature: 'Decided: option, name, signature, date',
    engineer: 'Seen by the client: name, signature, date',
    disclaimer:
      'Causes are a judgement from the record, not a finding; use a competent investigator before liability is alleged. Costs are as good as the rates. Follow the makers’ data sheets, local rules and the standard in force.',
  },
} as const
