import type { StoryEntry } from './entry.ts'
import type { KindName } from './kinds.ts'
import type { Happening, OrderRule } from './order-rules.ts'

type Problems = ReturnType<OrderRule['find']>

const isDefect = (standing: StoryEntry[], id: unknown) =>
  standing.some((one) => one.kind === 'defect-found' && one.id === id)

const notFound = (field: string): Problems => [
  { field, message: 'is not a defect that was found on this bay: record the defect first' },
]

const ofDefect: OrderRule = {
  looksAt: ['defect-found'],
  find: ({ body }, standing) => (isDefect(standing, body.defect) ? [] : notFound('defect')),
}

const repairNeedsDiagnosis: OrderRule = {
  looksAt: ['defect-found', 'cause-named'],
  find: ({ at, body }, standing) => {
    if (!isDefect(standing, body.defect)) return notFound('defect')
    const diagnosis = standing.find((one) => one.kind === 'cause-named' && one.id === body.diagnosis)
    const names =
      diagnosis?.kind === 'cause-named' && diagnosis.body.defects.some(({ defect }) => defect === body.defect)
    if (diagnosis === undefined || !names) {
      return [
        {
          field: 'diagnosis',
          message:
            'is not a diagnosis of this defect: name its cause first, or record “not known, treated as …” with the reason',
        },
      ]
    }
    return at < diagnosis.happenedAt
      ? [
          {
            field: 'diagnosis',
            message: `was made at ${new Date(diagnosis.happenedAt).toISOString()}, after this repair: a repair follows its diagnosis`,
          },
        ]
      : []
  },
}

/** What cannot have happened to a fault: looked at before it was found, repaired without a diagnosis, re-tested unrepaired. */
export const faultOrderRules: Partial<Record<KindName, OrderRule>> = {
  'crack-gauged': ofDefect,
  'defect-measured': ofDefect,
  'fault-evidence-noted': ofDefect,
  'evidence-frozen': ofDefect,
  'cause-named': {
    looksAt: ['defect-found'],
    find: ({ body }: Happening, standing) =>
      (body.defects as { defect: string }[]).flatMap(({ defect }, i) =>
        isDefect(standing, defect) ? [] : notFound(`defects.${i}.defect`),
      ),
  },
  'repair-done': repairNeedsDiagnosis,
  'repair-retested': {
    looksAt: ['repair-done'],
    find: ({ at, body }, standing) => {
      const repair = standing.find((one) => one.kind === 'repair-done' && one.id === body.repair)
      if (repair === undefined)
        return [{ field: 'repair', message: 'is not a repair of this bay: record the repair first' }]
      return at < repair.happenedAt
        ? [
            {
              field: 'happenedAt',
              message: `lies before the repair at ${new Date(repair.happenedAt).toISOString()}`,
            },
          ]
        : []
    },
  },
  'cause-weights-set': {
    looksAt: ['cause-weights-set'],
    find: ({ body }, standing) => {
      const last = Math.max(
        1,
        ...standing.map((one) => (one.kind === 'cause-weights-set' ? one.body.version : 1)),
      )
      return Number(body.version) > last
        ? []
        : [{ field: 'version', message: `must be above ${last}, the version in force` }]
    },
  },
}
