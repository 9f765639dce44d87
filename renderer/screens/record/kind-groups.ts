import type { KindName } from '#model/record/kinds.ts'
import { words } from '../../app/words.ts'
import type { Recordable } from '../../parts/recordable.ts'

/** The order of a bay's life. A kind that is in none of these stands under the last title. */
const groups: { title: string; kinds: readonly KindName[] }[] = [
  {
    title: words.record.groups.pour,
    kinds: [
      'batch-mixed',
      'lift-laid',
      'bay-finished',
      'thickness-measured',
      'joint-formed',
      'material-delivered',
    ],
  },
  {
    title: words.record.groups.care,
    kinds: [
      'sheet-on',
      'sheet-off',
      'air-read',
      'screed-temperature-read',
      'protection-on',
      'protection-off',
    ],
  },
  { title: words.record.groups.traffic, kinds: ['traffic-seen', 'no-traffic-confirmed', 'wet-event-noted'] },
  {
    title: words.record.groups.tests,
    kinds: ['moisture-read', 'soundness-tested', 'surface-tested', 'regularity-checked', 'level-checked'],
  },
  {
    title: words.record.groups.before,
    kinds: ['base-surveyed', 'edge-strip-fitted', 'pipes-pressure-tested'],
  },
  {
    title: words.record.groups.faults,
    kinds: [
      'defect-found',
      'crack-gauged',
      'defect-measured',
      'fault-evidence-noted',
      'repair-done',
      'repair-retested',
      'defect-closed',
    ],
  },
]

export function groupKinds(kinds: readonly Recordable[]): { title: string; kinds: Recordable[] }[] {
  const placed = groups.map(({ title, kinds: order }) => ({
    title,
    kinds: order.flatMap((kind) => kinds.filter((one) => one.kind === kind)),
  }))
  const known = new Set(groups.flatMap((group) => group.kinds))
  const rest = { title: words.record.groups.other, kinds: kinds.filter(({ kind }) => !known.has(kind)) }
  return [...placed, rest].filter((group) => group.kinds.length > 0)
}
