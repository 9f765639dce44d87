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
 * met, the reasons become shorter, and what there is no room for is told by its name alone, what is met before all else.
 * @param taken lines of that room which something else on the page takes
 */
export function conditions(all: readonly Condition[], taken = 0): Content {
  const room = roomLines - taken
  const open = all.filter(({ state }) => state !== 'met').toSorted((a, b) => rank[a.state] - rank[b.state])
  const met = all.filter(({ state }) => state === 'met')
  const linesOf = ({ because }: Condition) => Math.min(2, Math.ceil(because.length / lineLetters))
  const wanted = open.reduce((sum, one) => sum + linesOf(one), 0)
  const namesOnly = Math.ceil(met.reduce((sum, { name }) => sum + name.length + 3, 0) / 110)
  const allMet = wanted + met.length <= room
  const most = wanted + (allMet ? met.length : namesOnly) <= room ? 2 * lineLetters : lineLetters
  const told = open.length > room ? open.slice(0, room - 1) : open
  const named = [...open.slice(told.length), ...(allMet ? [] : met)]
  return {
    layout: factsLayout,
    table: {
      widths: [10, 46, 118, '*'],
      dontBreakRows: true,
      body: [
        ...told.map((one) => row(one, most)),
        ...(allMet ? met.map((one) => row(one, lineLetters)) : []),
        ...namesByState(named),
      ],
    },
  }
}

function row({ name, state, because }: Condition, letters: number): TableCell[] {
  return [
    ...standing(state),
    { text: name, fontSize: 8, bold: state !== 'met' },
    { text: shortened(because, letters), fontSize: 7.8 },
  ]
}

function standing(state: Condition['state']): TableCell[] {
  return [
    { stack: [conditionMark(state, 8)], margin: [0, 1, 0, 0] },
    { text: conditionWords[state], fontSize: 8, bold: state !== 'met' },
  ]
}

/** One row a state, the names side by side. */
function namesByState(named: readonly Condition[]): TableCell[][] {
  return (['not met', 'unknown', 'met'] as const).flatMap((state) => {
    const names = named.filter((one) => one.state === state).map(({ name }) => name)
    if (names.length === 0) return []
    return [
      [...standing(state), { text: names.join(' · '), fontSize: 8, bold: state !== 'met', colSpan: 2 }, ''],
    ]
  })
}
