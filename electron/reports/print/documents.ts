import type { Content } from 'pdfmake/interfaces.js'
import { type StoredOutline, sha256Hex } from '#db/index.ts'
import { rulesOfProject } from '#model/rules/index.ts'
import type { BayFile } from '../handover/bay-file.ts'
import { gapsOf } from '../handover/gaps.ts'
import { namesIn } from '../handover/names.ts'
import { type BayPhotos, noPhotos } from '../handover/photos.ts'
import { fullMomentText } from '../site-text.ts'
import { bayChapter } from './bay-chapter.ts'
import { printingOf } from './bay-tables.ts'
import type { Printed } from './make-pdf.ts'
import { chapter } from './parts.ts'
import {
  careChapter,
  cautionsChapter,
  contents,
  cover,
  gapsChapter,
  machineChapter,
  type ProjectFile,
  plansChapter,
  rulesChapter,
  signaturesChapter,
} from './project-parts.ts'
import { releasePage } from './release-page/page.ts'

/** What can be printed: the page to decide on, all about one bay or some, or the whole handover file. */
export type PrintKind = 'release' | 'bay' | 'project'

interface Chosen {
  outline: StoredOutline
  bays: readonly BayFile[]
  asOf: number
  /** By bay; one that is left out has none. */
  photos: ReadonlyMap<string, BayPhotos>
}

/** Returns a document, ready to be made into a PDF. Bays come in the order in which they were given. */
export function documentOf(kind: PrintKind, chosen: Chosen): Printed {
  const marks: Mark[] = []
  const content = { release: releases, bay: bayFiles, project: wholeFile }[kind](chosen, marks)
  const { outline, bays, asOf } = chosen
  const { name, timeZone } = outline.project.body
  const about = bays.length === 1 ? bays[0]!.name : `${bays.length} bays`
  const titles = {
    release: `${name}, release: ${about}`,
    bay: `${name}: ${about}`,
    project: `${name}, handover file`,
  }
  return {
    title: titles[kind],
    subject: `As the record stood ${fullMomentText(asOf, timeZone)}`,
    project: name,
    foot: `As the record stood ${fullMomentText(asOf, timeZone)}, clock of the site`,
    about: (page) => marks.findLast(({ node }) => pageOf(node) <= page)?.name ?? '',
    asOf,
    content,
  }
}

/** A piece of content from which on the header says this name. */
interface Mark {
  node: Content
  name: string
}

/** The engine writes the pages that a piece stands on into the piece itself. */
function pageOf(node: Content): number {
  const placed = node as { positions?: { pageNumber: number }[] }
  return placed.positions?.[0]?.pageNumber ?? Number.POSITIVE_INFINITY
}

function marked(content: Content[], name: string, marks: Mark[]): Content[] {
  const first = content[0]
  if (first !== undefined) marks.push({ node: first, name })
  return content
}

/** Takes no room, and begins a page where it is asked to. */
function pageStart(newPage: boolean): Content {
  return { text: '', fontSize: 0.1, lineHeight: 0.1, ...(newPage ? { pageBreak: 'before' as const } : {}) }
}

function releases({ outline, bays, photos }: Chosen, marks: Mark[]): Content[] {
  const names = namesIn(outline)
  return bays.flatMap((bay, i) => {
    const { faults } = photos.get(bay.id) ?? noPhotos
    return marked([pageStart(i > 0), ...releasePage(bay, names, faults)], bay.name, marks)
  })
}

function bayFiles(chosen: Chosen, marks: Mark[]): Content[] {
  const names = namesIn(chosen.outline)
  return chosen.bays.flatMap((bay, i) => {
    const photos = chosen.photos.get(bay.id) ?? noPhotos
    return marked(
      [
        pageStart(i > 0),
        ...releasePage(bay, names, photos.faults),
        ...bayChapter(printingOf(bay, names), photos),
      ],
      bay.name,
      marks,
    )
  })
}

function wholeFile(chosen: Chosen, marks: Mark[]): Content[] {
  const { outline, bays, asOf } = chosen
  const names = namesIn(outline)
  const project: ProjectFile = {
    outline,
    bays,
    asOf,
    rules: bays[0]?.rules ?? rulesOfProject(outline.project.body),
    gaps: new Map(bays.map((bay) => [bay.id, gapsOf(bay)])),
    seal: sha256Hex(bays.map(({ hash }) => hash).join('\n')),
  }
  const part = (name: string, content: Content[]) => marked(content, name, marks)
  return [
    ...part('Handover file', cover(project)),
    contents(),
    ...part('Known gaps', gapsChapter(project)),
    ...part('Plans', plansChapter(project)),
    ...part('Releases', chapter('Releases', { id: 'releases', unseen: true })),
    ...bays.flatMap((bay, i) => {
      const { faults } = chosen.photos.get(bay.id) ?? noPhotos
      return part(bay.name, [pageStart(i > 0), ...releasePage(bay, names, faults)])
    }),
    ...part('Bays', chapter('Bays', { id: 'bays', unseen: true })),
    ...bays.flatMap((bay, i) => {
      const photos = chosen.photos.get(bay.id) ?? noPhotos
      return part(bay.name, bayChapter(printingOf(bay, names), photos, { under: 'bays', newPage: i > 0 }))
    }),
    ...part('Signatures', signaturesChapter()),
    ...part('Rules in force', rulesChapter(project)),
    ...part('Care of the floor', careChapter(project)),
    ...part('Copy for machines', machineChapter(project)),
    ...part('What this file is not', cautionsChapter()),
  ]
}
