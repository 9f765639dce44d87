import type { BundleReport } from '#db/bundle/read-bundle.ts'

/** What the verifier tells of a bundle, in the terminal and on its page alike. */
export interface ResultWords {
  isGood: boolean
  headline: string
  /** In a sentence: why it is not good, or what good means here. */
  because: string
  facts: [name: string, value: string][]
}

/**
 * The words of a result.
 * @param noted the fingerprint that was noted when the bundle was made; null when nobody gave one
 */
export function resultWords(report: BundleReport, noted: string | null): ResultWords {
  const { verdict, firstDifference, fingerprint } = report
  const facts = factsOf(report)
  if (verdict === 'broken') {
    return {
      isGood: false,
      headline: 'NOT GOOD',
      because: `First difference: ${firstDifference ?? 'not known'}`,
      facts,
    }
  }
  if (noted !== null && plainHex(noted) !== fingerprint) {
    const because =
      'Everything in it agrees, but its fingerprint is not the one that was noted: it is another bundle.'
    return { isGood: false, headline: 'NOT THE ONE', because, facts }
  }
  if (verdict === 'signature not checked') {
    return {
      isGood: false,
      headline: 'SIGNATURE NOT CHECKED',
      because:
        'Signature not checked: this browser cannot. Everything else agrees. Use a newer browser, or “node verify.mjs”.',
      facts,
    }
  }
  const part = partWords(report)
  const because =
    noted === null
      ? 'Nothing in it was changed since it was signed. Compare the fingerprint with the one that was noted when it was made; that alone shows that it is the very bundle.'
      : 'Nothing in it was changed since it was signed, and it is the bundle whose fingerprint was noted.'
  if (part === null) return { isGood: true, headline: 'GOOD', because, facts }
  return { isGood: true, headline: 'GOOD, A PART', because: `${because} ${part}`, facts }
}

/** What a bundle of some bays is a part of, and that the rest is unknown; null for a bundle that is none. */
function partWords({ manifest }: BundleReport): string | null {
  if (manifest?.scope.kind !== 'bays') return null
  const { bays, baysOfProject } = manifest.scope
  const all = baysOfProject === undefined ? '' : ` of ${baysOfProject}`
  return `It is a part: ${bays.length}${all} ${(baysOfProject ?? bays.length) === 1 ? 'bay' : 'bays'} of the project. Of what is not in it, nothing is known here, neither good nor bad.`
}

/** A hash in groups that two people can read to each other. */
export function inGroups(hex: string): string {
  return hex.match(/.{1,4}/g)?.join(' ') ?? ''
}

function plainHex(text: string): string {
  return text.replace(/[^0-9a-fA-F]/g, '').toLowerCase()
}

function factsOf({
  fingerprint,
  head,
  manifest,
  keyPublishedAt,
  verdict,
}: BundleReport): ResultWords['facts'] {
  if (head === null || manifest === null) return []
  const { made, scope, entries, missing } = manifest
  // What a bundle says about itself is told as its own word as long as something in it does not agree.
  const says = verdict === 'broken' ? ', as it says itself' : ''
  return [
    ['Fingerprint', fingerprint === null ? 'not known' : inGroups(fingerprint)],
    [`Project${says}`, scope.projectName],
    ...(scope.kind === 'bays'
      ? [
          ['Bays', scope.bays.map(({ name }) => name).join(', ')] as [string, string],
          [
            'A part',
            scope.baysOfProject === undefined
              ? 'not all bays of the project; it does not say how many there are'
              : `${scope.bays.length} of ${scope.baysOfProject} bays of the project`,
          ] as [string, string],
        ]
      : []),
    [`Made${says}`, `${made.at} by ${made.by}, on ${made.deviceName}`],
    ...(scope.asOf === null ? [] : [['As of', scope.asOf] as [string, string]]),
    ...(scope.reason === null ? [] : [['Why', scope.reason] as [string, string]]),
    ['Entries', `${entries.given} given, ${entries.leftOut} left out (only their hash is here)`],
    [
      'Not in it',
      missing.length === 0 ? 'nothing that an entry names' : `${missing.length} files that entries name`,
    ],
    ['Signing key', inGroups(head.publicKey)],
    [
      'Key known since',
      keyPublishedAt ?? 'not in these entries: compare the key with one that was noted elsewhere',
    ],
  ]
}
