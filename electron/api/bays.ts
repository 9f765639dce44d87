import * as watch from '#model/watch/index.ts'
import { calls } from './base.ts'

export const life = calls.bays.life.handler(({ context, input }) => {
  const { story, alerts, asOf } = context.watch.asOf(input.bay, input.asOf)
  return { story, alerts, state: watch.bayStateOf(story, alerts, asOf) }
})

export const ready = calls.bays.ready.handler(async ({ context, input }) => {
  const { readinessOf } = await import('#model/readiness/index.ts')
  const { story, alerts, rules, asOf } = context.watch.asOf(input.bay, input.asOf)
  return { story, alerts, readiness: readinessOf(story, input.covering, asOf, rules) }
})
