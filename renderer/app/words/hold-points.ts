import type { HoldState } from '#model/hold/index.ts'

/** Words of the chain of hold points. */
export const holdWords = {
  title: 'Hold points',
  summary: (letGo: number, of: number) => `${letGo} of ${of} let go`,
  none: 'This project chose no hold points, or none applies to this bay.',
  states: {
    released: 'Released',
    waived: 'Waived',
    held: 'Held',
    open: 'Open',
    'not yet due': 'Not yet due',
    'does not apply': 'Does not apply',
  } satisfies Record<HoldState, string>,
  passed: 'Work went past it',
  notFor: 'Does not apply',
  holdsBack: 'Waits for it',
  due: 'To be looked at',
  dueUnknown: 'Not known yet',
  who: 'Who may let it go',
  by: 'Decided by',
  saw: 'What was seen',
  evidence: 'In the record',
  noEvidence: 'Nothing yet.',
  more: (count: number) => `and ${count} more`,
  wentPast: 'Went past it',
  held: 'although it was held',
  doubts: 'In doubt',
  source: 'Where it comes from',
  decide: 'Decide',
  decideAgain: 'Decide again',
  close: 'Close',
  save: 'Save the decision',
  statement:
    'Signing says: I have looked at what this point judges, and what is not met is written above. I have not seen what lies hidden below the surface, except where it was photographed.',
  choice: {
    title: 'Hold points that bind',
    lead: 'Work waits at a hold point until a named person lets it go. A bay cannot be accepted for covering while one of these stands open. What does not apply to a bay, such as heating, is left out by itself.',
    reason: 'Why the choice changes',
    save: 'Save the choice',
    changed: (reason: string) => `Hold points: ${reason}`,
  },
} as const
