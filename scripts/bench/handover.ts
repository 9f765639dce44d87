import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import pdfmake from 'pdfmake'
import { closeRecord, openRecord, projectOutline, projectSummaries } from '#db/index.ts'
import { readBayFile } from '#electron/reports/handover/bay-file.ts'
import { documentOf } from '#electron/reports/print/documents.ts'
import { makePdf } from '#electron/reports/print/make-pdf.ts'
import type { BayId } from '#model/record/ids.ts'
import { makeDemo } from '#scripts/demo/make.ts'
import { type Measured, median } from './measure.ts'

const asOf = Date.UTC(2026, 10, 25, 14)
const mostSeconds = { demo: 3, big: 8 }
const bigPages = 200
const rounds = 3

/**
 * The handover file of the demonstration from its record to its bytes, and one of 200 pages and more. Both stand beside the
 * same engine printing as many pages of plain text in the same run, because a crowded machine slows both alike. Time is that
 * of the processor, so that other work on the machine does not count.
 */
export default async function handoverBench(): Promise<Measured[]> {
  const folder = mkdtempSync(join(tmpdir(), 'bayledger-bench-'))
  try {
    const file = join(folder, 'record.sqlite')
    await makeDemo(file, { now: asOf })
    const record = openRecord(file, { now: asOf, readOnly: true, skipLook: true })
    const outline = projectOutline(record.read, projectSummaries(record.read)[0]!.id)
    const ids = outline.bays.map(({ id }) => id)
    const print = (times: number) => async () => {
      const bays = Array.from({ length: times }, (_, copy) =>
        ids.map((bay) => {
          const file = readBayFile(record.read, { bay, asOf, forecast: null })
          // A bay that is printed again is another bay to the document.
          return copy === 0 ? file : { ...file, id: `${bay}-${copy}` as BayId }
        }),
      ).flat()
      return makePdf(documentOf('project', { outline, bays, asOf, photos: new Map() }))
    }
    await print(1)()
    const demo = await timed(print(1))
    const big = await timed(print(3))
    const demoPages = pagesIn(demo.bytes)
    const pages = pagesIn(big.bytes)
    if (pages < bigPages) throw new Error(`The big file has ${pages} pages; it has to have ${bigPages}.`)
    const plainDemo = await timed(plainText(demoPages))
    const plainBig = await timed(plainText(pages))
    closeRecord(record)
    return [
      {
        name: `Handover file of the demonstration, ${demoPages} pages, ${ids.length} bays`,
        measured: demo.seconds,
        unit: 's',
        yardstick: plainDemo.seconds,
        ratio: demo.seconds / plainDemo.seconds,
        goal: `≤ ${mostSeconds.demo} s of processor time`,
        met: demo.seconds <= mostSeconds.demo,
      },
      {
        name: `Handover file of ${pages} pages, ${ids.length * 2} bays`,
        measured: big.seconds,
        unit: 's',
        yardstick: plainBig.seconds,
        ratio: big.seconds / plainBig.seconds,
        goal: `≤ ${mostSeconds.big} s of processor time`,
        met: big.seconds <= mostSeconds.big,
      },
    ]
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

async function timed(work: () => Promise<Buffer>): Promise<{ seconds: number; bytes: Buffer }> {
  const seconds: number[] = []
  let bytes = Buffer.alloc(0)
  for (let round = 0; round < rounds; round++) {
    const before = process.cpuUsage()
    bytes = Buffer.from(await work())
    const { user, system } = process.cpuUsage(before)
    seconds.push((user + system) / 1e6)
  }
  return { seconds: median(seconds), bytes }
}

/** As many full pages of text by the same engine: what it costs at least. */
function plainText(pages: number) {
  const line =
    'Words of a page that says nothing, in the size in which tables are printed, one line after the other. '
  return () =>
    pdfmake
      .createPdf({
        content: Array.from({ length: pages }, () => ({
          text: line.repeat(52),
          fontSize: 8,
          pageBreak: 'after' as const,
        })),
      })
      .getBuffer()
}

function pagesIn(bytes: Buffer): number {
  return bytes.toString('latin1').match(/\/Type \/Page\b/g)?.length ?? 0
}
