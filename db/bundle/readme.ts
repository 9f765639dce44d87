import type { BundleScope, Manifest } from './format.ts'

interface Counted {
  given: number
  leftOut: number
}

/** What stands in the bundle for whoever opens it without Bayledger: what it is, how to check it, what it does not prove. */
export function readmeFor(made: Manifest['made'], scope: BundleScope, { given, leftOut }: Counted): string {
  return `A signed bundle of a floor screed record
========================================

Project   ${scope.projectName}
Scope     ${scopeWords(scope)}
As of     ${scope.asOf ?? made.at}
Made      ${made.at} by ${made.by}, on ${made.deviceName} (${made.program})
Entries   ${given} given; of ${leftOut} others only the hash is here${scope.reason === null ? '' : `\nWhy       ${scope.reason}`}

What is in here
  manifest.json    what this bundle is and the SHA-256 of every file after the signature
  tree-head.json   root of the hash tree over all entries, SHA-256 of manifest.json, key of the signer
  tree-head.sig    Ed25519 signature over the bytes of tree-head.json
  rules.json       the limits that the project worked to
  entries.ndjson   one entry a line, in the order of the record. The SHA-256 of a line is the hash of the entry, and
                   prevHash is the hash of the entry which the same device wrote before. A line with only a hash
                   stands for an entry that was left out.
  files/           logger files as they were read, named by their SHA-256
  series/          their readings: pairs of time [ms since 1970] and value, little-endian doubles
  photos/          photos, named by their SHA-256

How to check it
  Take the verifier (verify.mjs or verify.html) from a Bayledger that you trust, never from whoever gave you this
  bundle: a verifier that comes with what it judges can say anything.
      node verify.mjs THIS-FILE
  Compare the fingerprint that it prints with the one that was noted when the bundle was made.
  Without any of our programs: unpack with tar; then SHA-256 of each file against manifest.json, SHA-256 of
  manifest.json against tree-head.json, and the signature with any Ed25519 tool.

What it proves
  That nothing in here was changed, added, taken away or put in another order since it was signed by whoever holds
  the key named in tree-head.json.

What it does not prove
  - That an entry is true: that somebody read the instrument rightly, or at the time that was entered.
  - That it is all: entries can have been kept out of the record before, and a whole record can be written anew.
    Only a fingerprint noted elsewhere, before, shows that.
  - Who a person is: names were chosen in the program, times are those of the machine.
  - Whose key it is, unless its fingerprint was noted elsewhere or the key is known from an earlier record.
  - That a floor is ready, sound or to standard. A record does not certify.
`
}

function scopeWords({ kind, bays, baysOfProject }: BundleScope): string {
  if (kind === 'record') return 'the whole record'
  if (kind === 'project') return 'the whole project'
  const all = baysOfProject === undefined ? 'some' : `${bays.length} of ${baysOfProject}`
  return `a part, ${all} bays of the project: ${bays.map(({ name }) => name).join(', ')}, with what they refer to.
          Of the other bays nothing is known here, neither good nor bad`
}
