const minutes = (ms: number) => {
  const whole = Math.ceil(ms / 60_000)
  return ms < 60_000 ? `${Math.max(1, Math.ceil(ms / 1000))} s` : `${whole} min`
}

/** Words of people, roles and PINs. */
export const peopleWords = {
  dialog: {
    title: (name: string) => `Sign as ${name}`,
    lead: 'This stands by a signature. Type your PIN; it counts until nobody has signed for ten minutes.',
    pin: 'PIN',
    prove: 'Sign',
    notNow: 'Not now',
    setTitle: (name: string) => `Set a PIN for ${name}`,
    setLead:
      'People sign with a PIN in this project. Set your own now; only you should know it. The record notes that it was set, never the PIN.',
    fresh: 'New PIN',
    rules: (least: number, most: number) =>
      `${least} to ${most} digits, not one digit again and again nor digits in a row`,
    again: 'New PIN again',
    differ: 'The two are not the same. Type both again.',
    cannot: (problem: string) => `The PIN ${problem}.`,
    setAndSign: 'Set and sign',
    old: 'Old PIN',
    ownLead:
      'Only the person themselves should know it. The record notes that it was set and by whom, never the PIN.',
    set: 'Set the PIN',
    change: 'Change the PIN',
    vouch: (name: string) => `Set it for them, signed by ${name}`,
    themselves: 'They set it themselves',
  },
  rail: {
    lock: 'Lock now',
  },
  part: {
    signed: (isSet: boolean) => (isSet ? 'PIN set' : 'No PIN'),
    waits: (ms: number) => `No PIN taken for the next ${minutes(ms)}`,
    wrong: (count: number) => (count === 1 ? '1 wrong try' : `${count} wrong tries`),
    unbound:
      'Nobody has a PIN yet, so names are taken at their word: whoever sits here can sign as anybody. From the first PIN on, releasing, waiving, deciding, changing the rules and correcting other people’s entries need the PIN of the person who signs.',
    bound:
      'Releasing, waiving, deciding, changing the rules and correcting other people’s entries need the PIN of the person who signs.',
    limits:
      'A PIN keeps people at this machine apart. It does not keep out whoever owns the disk: that person can copy, replace or delete every file. Use disk encryption, and keep backups where others hold them.',
    alone: 'Alone on the project: may act in every role until a second person is added.',
    standsIn: 'Opened the project: stands in for the quality manager until one is added.',
    may: (role: string) => `What a ${role.toLowerCase()} may do`,
    writes: 'Writes down',
    own: 'May correct and withdraw what they wrote themselves.',
    anothers: 'May correct and withdraw what others wrote, signed.',
    signs: 'Signs',
    letsGo: 'Lets go',
    nothing: 'Reads everything and writes nothing.',
    setFirst: 'Set a PIN',
    change: 'Change PIN',
  },
} as const
