import { recordable } from '../parts/recordable.ts'
import type { Job } from './job.tsx'
import { paths } from './paths.ts'
import { words } from './words.ts'

export interface CommandItem {
  group: keyof typeof words.command.groups
  text: string
  href: string
}

/** Everything the command field can do: open a bay, open a page, write down a fact about a bay. */
export function commandItems({ outline, nameOf }: Pick<Job, 'outline' | 'nameOf'>): CommandItem[] {
  const pages: [string, string][] = [
    [words.nav.today, paths.today],
    [words.nav.floors, paths.floors],
    [words.nav.ready, paths.readyList],
    [words.ways.nav, paths.waysList],
    [words.audit.nav, paths.audit],
    [words.nav.faults, paths.faults],
    [words.faults.list.report, paths.reportFault],
    [words.handover.nav, paths.handover],
    [words.nav.entries, paths.entries],
    [words.bundle.title, paths.bundle],
    [words.nav.imports, paths.imports],
    [words.nav.record, paths.record],
    ...Object.entries(words.setUp.parts).map(([part, title]): [string, string] => [
      `${words.nav.setUp}: ${title}`,
      paths.setUpPart(part),
    ]),
  ]
  const bays = outline.bays.flatMap(({ id }): CommandItem[] => [
    { group: 'bay', text: words.command.openBay(nameOf(id)), href: paths.bay(id) },
    { group: 'bay', text: words.command.readyBay(nameOf(id)), href: paths.ready(id) },
    { group: 'bay', text: words.ways.forBay(nameOf(id)), href: paths.ways(id) },
  ])
  const facts = recordable('bay').flatMap(({ kind, title }) =>
    outline.bays.map(
      ({ id }): CommandItem => ({
        group: 'record',
        text: words.command.recordFor(title, nameOf(id)),
        href: paths.recordKind(kind, id),
      }),
    ),
  )
  return [...bays, ...pages.map(([text, href]): CommandItem => ({ group: 'page', text, href })), ...facts]
}

/** The items that hold every typed word, those with a word that begins so first. */
export function matchCommands(items: readonly CommandItem[], typed: string, most = 12): CommandItem[] {
  const wanted = typed.toLowerCase().split(/\s+/).filter(Boolean)
  if (wanted.length === 0) return items.filter(({ group }) => group !== 'record').slice(0, most)
  const scored = items.flatMap((item) => {
    const text = item.text.toLowerCase()
    if (!wanted.every((word) => text.includes(word))) return []
    const begins = wanted.filter((word) => text.split(/[\s:,]+/).some((part) => part.startsWith(word))).length
    const exact = wanted.filter((word) => text.split(/[\s:,]+/).includes(word)).length
    return [{ item, score: begins + exact }]
  })
  return scored
    .sort((a, b) => b.score - a.score)
    .slice(0, most)
    .map(({ item }) => item)
}
