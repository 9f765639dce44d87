import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { UnknownId } from '#db/errors.ts'
import {
  closeRecord,
  openRecord,
  projectOutline,
  projectSummaries,
  type StoredOutline,
  sha256Hex,
} from '#db/index.ts'
import { type BayFile, readBayFile } from '#electron/reports/handover/bay-file.ts'
import { makeReportFile } from '#electron/reports/handover/make-file.ts'
import { namesIn } from '#electron/reports/handover/names.ts'
import { lostMark, lostText, printableText } from '#electron/reports/print/letters.ts'
import { makePdf } from '#electron/reports/print/make-pdf.ts'
import { qrText, releasePage } from '#electron/reports/print/release-page/page.ts'
import type { ReportKind } from '#model/contract/reports.ts'
import type { BayId } from '#model/record/ids.ts'
import { limitText } from '#model/rules/index.ts'
import { makeDemo } from '#scripts/demo/make.ts'
import { readPdf } from './read-pdf.ts'

const asOf = Date.UTC(2026, 10, 25, 14)
let folder: string
let recordFile: string
let outline: StoredOutline
let bays: BayFile[]

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'bayledger-print-'))
  recordFile = join(folder, 'record.sqlite')
  await makeDemo(recordFile, { now: asOf })
  const record = openRecord(recordFile, { now: asOf, readOnly: true, skipLook: true })
  outline = projectOutline(record.read, projectSummaries(record.read)[0]!.id)
  bays = outline.bays.map(({ id }) => readBayFile(record.read, { bay: id, asOf, forecast: null }))
  closeRecord(record)
}, 120_000)
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const make = (kind: ReportKind, chosen: readonly BayId[]) =>
  makeReportFile(
    { recordFile, project: outline.project.id, kind, bays: chosen, asOf, forecasts: [] },
    () => undefined,
  )
const bayNamed = (name: string) => bays.find((bay) => bay.name === `Bay ${name}`)!
/** Without blanks: a line may break, and a word be drawn in two, wherever a blank or a dash is. */
const flat = (text: string) => text.replaceAll(/\s+/g, '')

describe('the PDF files', { timeout: 120_000 }, () => {
  it('PRINT-1: the release page says the word, the reading that decides, its limit, place, instrument and what it holds to', async () => {
    const bay = bayNamed('G1')
    const { text } = readPdf(await make('release', [bay.id]))
    const { test, limit } = bay.readiness.governing!
    const named = namesIn(outline)
    expect(bay.readiness.verdict).toBe('ready')
    for (const fact of [
      'READY',
      'Bay G1',
      `${test!.value} % RH`,
      `limit ${limitText(limit)}`,
      limit.provenance,
      test!.point,
      'Insulated hygrometer box',
      named.of(bay.tests.find(({ entry }) => entry.id === test!.entry)!.entry.body.instrument!),
      'Fri 4 Dec, or until anything wets the floor',
      'Wed 25 Nov 2026 14:00',
      'Signature',
      'My own check reading',
      bay.hash.slice(0, 8),
    ])
      expect(flat(text)).toContain(flat(fact))
    for (const { name } of bay.readiness.conditions) expect(flat(text)).toContain(flat(name))
  })

  it('PRINT-2: a bay whose test proves nothing is NOT PROVEN on paper too, with the reason', async () => {
    const { text } = readPdf(await make('release', [bayNamed('G2').id]))
    expect(text).toContain('NOT PROVEN')
    expect(text).toMatch(/The last test, at B1 .* proves nothing/)
    expect(text).not.toContain('Every condition below is met')
  })

  it('PRINT-3: every bay of the demonstration has its release on one page', async () => {
    const { pages } = readPdf(
      await make(
        'release',
        bays.map(({ id }) => id),
      ),
    )
    expect(pages).toBe(bays.length)
  })

  it('PRINT-4: the same record and instant give the same bytes; another instant gives others', async () => {
    const chosen = [bayNamed('S6').id, bayNamed('S5').id]
    for (const kind of ['release', 'project', 'tables', 'story', 'workbook'] as const) {
      const [once, again] = [await make(kind, chosen), await make(kind, chosen)]
      expect(Buffer.compare(once, again), kind).toBe(0)
    }
    const question = {
      recordFile,
      project: outline.project.id,
      kind: 'release',
      bays: chosen,
      forecasts: [],
    } as const
    const later = await makeReportFile({ ...question, asOf: asOf + 60_000 }, () => undefined)
    expect(Buffer.compare(later, await make('release', chosen))).not.toBe(0)
  })

  it('PRINT-5: the handover file has known gaps before anything else, and every chapter', async () => {
    const { text } = readPdf(await make('project', [bayNamed('G1').id, bayNamed('F1').id]))
    const places = [
      'Known gaps',
      'Plans',
      'Releases',
      'Signatures',
      'Rules in force',
      'Care of the floor',
      'Copy for machines',
      'What this file is not',
    ].map((title) => text.lastIndexOf(title))
    expect(places.every((place) => place > 0)).toBe(true)
    for (const part of [
      'Batches',
      'Where each batch lies, and how thick it is',
      'Curing',
      'Heating log',
      'Moisture tests',
      'Alerts, and how they were answered',
      'Hold points',
      'Amendments',
      'The first week',
      'quoted second-hand',
      'from memory',
    ])
      expect(flat(text)).toContain(flat(part))
    expect(text).toContain(sha256Hex([bayNamed('G1').hash, bayNamed('F1').hash].join('\n')))
    expect(flat(text)).toContain(flat('Screed frozen early'))
  })

  it('PRINT-10: in the handover file too a release takes one page', async () => {
    const { text } = readPdf(await make('project', [bayNamed('G1').id, bayNamed('G2').id]))
    const [, releases, following] = /Releases(\d+)Bays(\d+)BayG1/.exec(flat(text)) ?? []
    expect(Number(following) - Number(releases)).toBe(2)
  })

  it('PRINT-6: the hash on the page is that of the story file, and the code on the page says it', async () => {
    const bay = bayNamed('G1')
    const story = await make('story', [bay.id])
    expect(sha256Hex(story)).toBe(bay.hash)
    expect(qrText(bay)).toContain(`sha256 ${bay.hash}`)
    expect(JSON.parse(Buffer.from(story).toString('utf8')).story.bay.id).toBe(bay.id)
  })

  it('PRINT-7: names in Polish, Greek and Cyrillic are printed, a mark and a note stand for letters the font lacks, and no name breaks the page', async () => {
    const named = (name: string): BayFile => {
      const bay = bayNamed('G2')
      return {
        ...bay,
        name,
        place: name.repeat(3),
        story: { ...bay.story, bay: { ...bay.story.bay, body: { ...bay.story.bay.body, name } } },
      }
    }
    const about = { title: 'T', subject: 'S', project: 'Łódź Αθήνα Москва', foot: '', asOf, about: () => '' }
    for (const name of [
      'Łazienka Żółta',
      'Αίθουσα Ω',
      'Комната Ж',
      '漢字 🧱',
      'W'.repeat(200),
      'word '.repeat(40),
    ]) {
      const { pages, text, hasBoxes } = readPdf(
        await makePdf({ ...about, content: releasePage(named(name), namesIn(outline)) }),
      )
      expect([name, pages, hasBoxes]).toEqual([name, 1, false])
      expect(text).toContain('Łódź Αθήνα Москва')
      if (name.length < 20) expect(flat(text)).toContain(flat(printableText(name)))
      const note = flat(
        'characters that this file cannot print: U+5B57 U+6F22 U+1F9F1. The record keeps them.',
      )
      expect(flat(text).includes(note)).toBe(name.includes('漢'))
    }
  })

  it('PRINT-13: a run of letters that cannot be printed becomes one mark, and each of them is told', () => {
    const lost = new Set<number>()
    expect(printableText('Bay 漢字 مرحبا 3', lost)).toBe(`Bay ${lostMark} ${lostMark} 3`)
    expect(lost.size).toBe(2 + new Set('مرحبا').size)
    expect(lostText(lost)).toMatch(/U\+062D .* The record keeps them\./)
    expect(lostText(new Set(Array.from({ length: 20 }, (_, i) => 0x4e00 + i)))).toContain('and 12 more')
    const kept = new Set<number>()
    expect(printableText('Łódź Αθήνα Москва ≤ 75 %?\u200B', kept)).toBe('Łódź Αθήνα Москва ≤ 75 %?')
    expect([kept.size, lostText(kept)]).toEqual([0, null])
  })

  it('PRINT-8: every letter that counts as printable is in the font, and one that does not would be a box', async () => {
    const letters = Array.from({ length: 0x2600 }, (_, code) => String.fromCharCode(code)).filter(
      (letter) => printableText(letter) === letter && letter.trim() !== '' && letter !== '?',
    )
    expect(letters.length).toBeGreaterThan(600)
    const about = { title: 'T', subject: 'S', project: '', foot: '', asOf, about: () => '' }
    const inAllStyles = [
      { text: letters.join(' ') },
      { text: letters.join(' '), bold: true },
      { text: letters.join(' '), italics: true },
    ]
    expect(readPdf(await makePdf({ ...about, content: inAllStyles })).hasBoxes).toBe(false)
    // The control: the reader does see a box.
    const { default: pdfmake } = await import('pdfmake')
    const boxed = await pdfmake.createPdf({ content: ['漢'] }).getBuffer()
    expect(readPdf(boxed).hasBoxes).toBe(true)
  })

  it('PRINT-11: no heading is left alone at the foot of a page, and no page says next to nothing', async () => {
    const { placed, pages } = readPdf(
      await make(
        'project',
        bays.map(({ id }) => id),
      ),
    )
    // Headings of parts are set in 11 pt, those of chapters in 18 pt; the footer stands lower than the text ever does.
    const footTop = 46
    for (let page = 1; page <= pages; page++) {
      const words = placed.filter((one) => one.page === page && one.y > footTop && one.text.trim() !== '')
      const headings = words.filter(({ size }) => size === 11 || size === 18)
      for (const { y, text } of headings) {
        const below = words.filter((one) => one.size < 11 && one.y < y + 2)
        expect(below.length, `what follows “${text}” on page ${page}`).toBeGreaterThan(2)
      }
      expect(words.length, `words on page ${page}`).toBeGreaterThan(15)
      const lines = new Set(words.filter(({ y }) => y < 790).map(({ y }) => Math.round(y)))
      expect(lines.size, `lines on page ${page}`).toBeGreaterThan(4)
    }
    expect(placed.some(({ size, text }) => size === 11 && text.startsWith('Its'))).toBe(true)
  })

  it('PRINT-20: no code, no piece of an identifier and no date of a machine stands where people read', async () => {
    const { text } = readPdf(
      await make(
        'bay',
        bays.map(({ id }) => id),
      ),
    )
    const plain = flat(text)
    expect(plain).toContain(flat('Symptom: Friable through full depth'))
    expect(plain).toMatch(/Defect:Straightcrackmid-bay,/)
    expect(plain).toMatch(/Points:[\d.]+mm\(at[\d.]+m,[\d.]+m\)/)
    expect(plain).not.toMatch(/Symptom:S\d\d/)
    expect(plain).not.toMatch(/:entry[0-9a-f]{6}/)
    expect(plain).not.toMatch(/\d{4}-\d\d-\d\d/)
  })

  it('PRINT-21: the label of a short bar stands beside it, whole, where there is room', async () => {
    const { text } = readPdf(await make('bay', [bayNamed('F2').id]))
    // The sheet lay 2.4 of 59 days: no letter goes into its bar in the life of the bay, all of them in its first week.
    expect(flat(text).match(/Wholesheet/g)).toHaveLength(2)
  })

  it('PRINT-12: the header of every page says which bay or part it belongs to', async () => {
    const chosen = [bayNamed('G1'), bayNamed('S6')]
    const { placed } = readPdf(
      await make(
        'project',
        chosen.map(({ id }) => id),
      ),
    )
    const headerOf = (page: number) =>
      placed
        .filter((one) => one.page === page && one.y > 800)
        .map(({ text }) => text)
        .join('')
    const release = placed.filter(({ size }) => size === 30).map(({ page }) => page)
    const [first, second] = [...new Set(release)].slice(-2)
    expect(headerOf(first!)).toContain('Bay G1')
    expect(headerOf(second!)).toContain('Bay S6')
    expect(headerOf(1)).toContain('Handover file')
  })

  it('PRINT-9: a bay that is not there makes no file', async () => {
    const elsewhere = '019f4162-7780-7474-87fc-81c588a2e4ff' as BayId
    await expect(make('release', [elsewhere])).rejects.toThrow(UnknownId)
  })
})
