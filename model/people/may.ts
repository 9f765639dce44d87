import type { Role } from '#model/record/people.ts'
import { type Act, isOnAnothers } from './acts.ts'

/** Who may do what to the facts of one kind. An empty list is nobody. */
export interface KindRule {
  first: readonly Role[]
  /** Correcting and withdrawing what one wrote oneself. */
  own: readonly Role[]
  /** Correcting and withdrawing what somebody else wrote. */
  anothers: readonly Role[]
  /** A signature: even what one wrote oneself needs the proof of one's PIN. */
  signed: boolean
}

const quality: readonly Role[] = ['quality manager']
const crew: readonly Role[] = ['supervisor', 'quality manager']
const testers: readonly Role[] = ['supervisor', 'quality manager', 'tester']
const deciders: readonly Role[] = ['flooring contractor', 'quality manager']
/** Everybody but the viewer: what anybody sees going wrong must not wait for the right person. */
const eyes: readonly Role[] = ['supervisor', 'quality manager', 'flooring contractor', 'tester']
const all: readonly Role[] = [...eyes, 'viewer']
const nobody: readonly Role[] = []

const fact = (first: readonly Role[]): KindRule => ({ first, own: first, anothers: quality, signed: false })
const signature = (first: readonly Role[], own = first): KindRule => ({
  first,
  own,
  anothers: quality,
  signed: true,
})

/**
 * The table of what each role may write, kind by kind. A kind without a row may be written by nobody, and a test fails
 * for it. Which hold point a role may let go stands with the hold points (`model/hold`), the maker's limits in `maker.ts`.
 * @provenance our judgement, after common practice on site: the supervisor writes what happened, the tester what was
 *   measured, the flooring contractor decides on the covering, the quality manager releases and sets the rules
 */
const kindRules: Readonly<Record<string, KindRule>> = {
  // Who opens a project is not known in it yet; afterwards its facts are its rules.
  'project-opened': { first: all, own: quality, anothers: quality, signed: true },
  'person-added': signature(quality),
  // Only the host writes it, when a PIN was really set.
  'pin-set': { first: nobody, own: nobody, anothers: nobody, signed: true },
  // Only the host writes it too, for the key that signs what this machine hands over.
  'device-key-published': { first: nobody, own: nobody, anothers: nobody, signed: true },
  'floor-added': fact(crew),
  'zone-added': fact(crew),
  'bay-planned': fact(crew),
  'weather-forecast-noted': fact(crew),
  'instrument-added': fact(testers),
  'instrument-checked': fact(testers),

  'base-surveyed': fact(testers),
  'edge-strip-fitted': fact(crew),
  'pipes-pressure-tested': fact(testers),
  'material-delivered': fact(crew),
  'batch-mixed': fact(crew),
  'lift-laid': fact(crew),
  'bay-finished': fact(crew),
  'thickness-measured': fact(testers),
  'joint-formed': fact(crew),

  'air-read': fact(eyes),
  'screed-temperature-read': fact(testers),
  'logger-imported': fact(testers),
  'wet-event-noted': fact(eyes),
  'sheet-on': fact(crew),
  'sheet-off': fact(crew),
  'protection-on': fact(crew),
  'protection-off': fact(crew),
  'traffic-seen': fact(eyes),
  'no-traffic-confirmed': fact(crew),
  'heating-noted': fact(testers),

  'moisture-read': fact(testers),
  'soundness-tested': fact(testers),
  'surface-tested': fact(testers),
  'regularity-checked': fact(testers),
  'level-checked': fact(testers),

  'defect-found': fact(eyes),
  'defect-closed': fact(crew),
  'crack-gauged': fact(eyes),
  'defect-measured': fact(eyes),
  'fault-evidence-noted': fact(eyes),
  'cause-named': fact(crew),
  'repair-done': fact(crew),
  'repair-retested': fact(testers),
  'evidence-frozen': fact(crew),
  'repair-rates-set': fact(crew),
  'cause-weights-set': signature(quality),
  'photo-added': fact(eyes),
  'photo-marked': fact(eyes),
  'alert-answered': fact(crew),
  'nonconformance-raised': fact(eyes),
  'nonconformance-closed': signature(quality),
  'hold-point-released': signature(eyes),
  'bay-decided': signature(deciders),
  'covering-laid': fact(['supervisor', 'quality manager', 'flooring contractor']),
}

/** Returns the row of a kind, or null: then nobody may write it. A withdrawal has the row of what it withdraws. */
export function kindRule(kind: string): KindRule | null {
  return Object.hasOwn(kindRules, kind) ? kindRules[kind]! : null
}

/** The kinds that have a row. */
export const ruledKinds: readonly string[] = Object.keys(kindRules)

/** Returns the roles that may do this to a fact of this kind; none for a kind without a row. */
export function rolesFor(kind: string, act: Act): readonly Role[] {
  const rule = kindRule(kind)
  if (rule === null) return nobody
  if (act === 'write first') return rule.first
  return isOnAnothers(act) ? rule.anothers : rule.own
}

/** True when one of the roles may do this to a fact of this kind. */
export function may(roles: readonly Role[], kind: string, act: Act): boolean {
  return rolesFor(kind, act).some((role) => roles.includes(role))
}

/** True when the act stands by a signature: it needs the proof of the person's PIN where PINs bind. */
export function needsPin(kind: string, act: Act): boolean {
  // Opening a project cannot be signed: nobody is known in it yet.
  if (kind === 'project-opened' && act === 'write first') return false
  return isOnAnothers(act) || (kindRule(kind)?.signed ?? true)
}

/** What a call of the contract changes, and how it is decided who may make it. */
export type CallRule =
  /** It reads, or it works something out and writes nothing. */
  | { changes: 'nothing' }
  /** It writes entries; each is looked up above by its kind and act, in the name that stands in it. */
  | { changes: 'entries'; kinds: 'those it carries' | readonly string[] }
  /** Somebody asks for it by name, and one of these roles may. `doing` ends the sentence that says who may not. */
  | { changes: 'the record'; by: readonly Role[]; doing: string; because: string }
  /** It changes PINs or the proof of one; who may is decided in `electron/api/pins.ts`. */
  | { changes: 'PINs' }
  /** It changes this machine and no fact; whoever sits at the machine may. */
  | { changes: 'this machine'; because: string }

const machine = (because: string): CallRule => ({ changes: 'this machine', because })
const pins: CallRule = { changes: 'PINs' }

/** Calls that read, or work something out, and write nothing. Put a new call here only when that is so. */
const readingCalls: readonly string[] = [
  'host.info',
  'record.history',
  'record.list',
  'record.verify',
  'record.backups',
  'projects.list',
  'projects.outline',
  'projects.today',
  'projects.tuning',
  'bays.life',
  'bays.ready',
  'bays.forecast',
  'ways.compare',
  'imports.preview',
  'imports.check',
  'faults.list',
  'faults.page',
  'faults.frozenFile',
  'faults.newScreed',
  'photos.list',
  'photos.picture',
  'audit.sheet',
  'audit.bay',
  'audit.amendments',
  'audit.open',
  'audit.questions',
  'reports.calendar',
  'reports.gaps',
  'reports.make',
  'reports.fetch',
  'people.status',
  'bundles.list',
  'bundles.file',
  'bundles.check',
  'bundles.conflicts',
]

/** The same table for the calls. A call without a row is refused by the host, and a test fails for it. */
const callRules: Readonly<Record<string, CallRule>> = {
  ...Object.fromEntries(readingCalls.map((call): [string, CallRule] => [call, { changes: 'nothing' }])),
  'record.append': { changes: 'entries', kinds: 'those it carries' },
  'imports.commit': { changes: 'entries', kinds: ['logger-imported'] },
  'bundles.make': {
    changes: 'the record',
    by: eyes,
    doing: 'sign a bundle',
    because: 'It names who made it, and the first one writes the key of this machine into the project.',
  },
  'bundles.takeIn': {
    changes: 'the record',
    by: eyes,
    doing: 'take in a bundle',
    because: 'Entries come in as other machines wrote them; a viewer brings nothing in.',
  },
  'faults.freeze': {
    changes: 'the record',
    by: crew,
    doing: 'freeze evidence',
    because: 'It signs a bundle and writes the entry that names it; the entry is for the same roles.',
  },
  'people.setPin': pins,
  'people.prove': pins,
  'people.lock': machine('Forgets the proof of a PIN; whoever sits there may always be more careful.'),
  'photos.takeIn': machine(
    'Keeps the bytes of a photo beside the record; what it shows is an entry of its own.',
  ),
  'record.backUp': machine('A copy more can only help, and old copies make room by a fixed rule.'),
  'recovery.moveAside': machine(
    'Only while no record can be opened: then nobody is known. Nothing is deleted.',
  ),
  'host.setNotifications': machine('A setting of this machine: whether it reminds.'),
}

/** Returns the row of a call such as `record.append`, or null: then it is refused. */
export function callRule(call: string): CallRule | null {
  return Object.hasOwn(callRules, call) ? callRules[call]! : null
}

/** Returns the roles that may make a call in their name; null for a call that is not judged by who asks for it. */
export function rolesForCall(call: string): readonly Role[] | null {
  const rule = callRule(call)
  return rule?.changes === 'the record' ? rule.by : null
}
