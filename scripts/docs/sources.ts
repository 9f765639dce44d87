import { writeFileSync } from 'node:fs'
import { root } from '../root.ts'
import { gatherUses, type Use } from './gather-sources.ts'

/** Writes docs/sources.md from what the code says of itself: `node scripts/docs/sources.ts`. */
const head = `# Where the numbers come from

Made by \`node scripts/docs/sources.ts\` from the code; do not edit by hand. A number without a source has no place in the program.

**No purchased standard has been read.** Values of standards were read on public pages that quote them; no limit is “published”.
Check a number against your own copy before you rely on it, and set it right under Set-up: every limit can be replaced, with a
reason. Local codes and the maker’s data sheet come first.

| provenance | means |
|---|---|
| published | read in the original, or an open library or dataset that anyone can run |
| quoted second-hand | read on a public page that quotes the source; the source itself was not read |
| from memory | nobody has checked it |
| common practice | the trade does so; no document is behind it |
| our judgement | ours, a starting point to be replaced |
| company rule | typed in by a project, with its reason |

| source | edition | what is taken from it | provenance | where used |
|---|---|---|---|---|
`

/** The uses by source, edition and provenance, in the order of the alphabet. */
export function rowsOf(uses: readonly Use[]): string[] {
  const rows = new Map<string, Use[]>()
  for (const use of uses) {
    const key = [use.source, use.edition, use.provenance].join('|')
    rows.set(key, [...(rows.get(key) ?? []), use])
  }
  return [...rows.values()]
    .sort(([a], [b]) => `${a!.source} ${a!.edition}`.localeCompare(`${b!.source} ${b!.edition}`, 'en'))
    .map((same) => {
      const { source, edition, provenance } = same[0]!
      const used = same.filter(({ taken }) => taken !== '')
      const taken = used.length === 0 ? 'nothing at present' : listed(used.map((use) => use.taken))
      return `| ${[source, edition || '–', taken, provenance, listed(used.map(({ where }) => where)) || '–'].map(cell).join(' | ')} |`
    })
}

const listed = (texts: readonly string[]) => [...new Set(texts)].join('; ')
const cell = (text: string) => text.replaceAll('|', '\\|')

if (process.argv[1] === import.meta.filename) {
  const rows = rowsOf(await gatherUses())
  writeFileSync(`${root}docs/sources.md`, `${head}${rows.join('\n')}\n`)
  process.stdout.write(`docs/sources.md: ${rows.length} sources.\n`)
}
