import type { Content, TableCell } from 'pdfmake/interfaces.js'
import type { Condition } from '#model/readiness/verdict.ts'
import { shortened } from '../../site-text.ts'
import { factsLayout } from '../look.ts'
import { conditionMark, conditionWords } from '../marks.ts'

/** Letters of one line of reasons, and lines that the page has room for. */
const lineLetters = 84
const roomLines = 16
const rank = { 'not met': 0, unknown: 1, met: 2 } as const

/**
 * Every condition with its reason, what is not met first. The page has to stay one page: where there is much that is not
 * met, the reasons become shorter and what is met is told by its name alone.
 */
export function conditions(all: readonly Condition[]): Content {
  const open = all.filter(({ state }) => state !== 'met').toSorted((a, b) => rank[a.state] - rank[b.state])
  const met = all.filter(({ state }) => state === 'met')
  const linesOf = ({ because }: Condition) => Math.min(2, Math.ceil(because.length / lineLetters))
  const wanted = open.reduce((sum, one) => sum + linesOf(one), 0)
  const namesOnly = Math.ceil(met.reduce((sum, { name }) => sum + name.length + 3, 0) / 110)
  const allMet = wanted + met.length <= roomLines
  const most = wanted + (allMet ? met.length : namesOnly) <= roomLines ? 2 * lineLetters : lineLetters
  const row = ({ name, state, because }: Condition, letters: number): TableCell[] => [
    { stack: [conditionMark(state, 8)], margin: [0, 1, 0, 0] },
    { text: conditionWords[state], fontSize: 8, bold: state !== 'met' },
    { text: name, fontSize: 8, bold: state !== 'met' },
    { text: shortened(because, letters), fontSize: 7.8 },
  ]
  const names = met.map(({ name }) => name).join(' · ')
  return {
    layout: factsLayout,
    table: {
      widths: [10, 46, 118, '*'],
      dontBreakRows: true,
      body: [
        ...open.map((one) => row(one, most)),
        ...(allMet
          ? met.map((one) => row(one, lineLetters))
          : [[...row(met[0]!, 0).slice(0, 2), { text: names, fontSize: 8, colSpan: 2 }, '']]),
      ],
    },
  }
}
